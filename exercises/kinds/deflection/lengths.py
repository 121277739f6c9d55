"""How a laboratory knows the magnetic length 2l of a bar: it is stated, it is the length given, or 5/6 of it.

All three are common practice, no source.  A sheet's code says which of them
its laboratory keeps to (sheet_code.TWO_L); a rule says what the sheet gives,
what the formulas take, and how hints and workings speak of it.
"""

from collections.abc import Callable
from dataclasses import dataclass

from exercises.bench.magnets import SLIM, Material
from exercises.codes.sheet_code import Setting
from exercises.kinds.sheet import Given
from exercises.working.arithmetic import Arithmetic, Exact, Number
from exercises.working.numbers import centimetres, figures

FIVE_SIXTHS = 5 / 6
HOLDS = 0.02  # share by which a rule may miss the true 2l of the bars that are drawn for it

#: The part that gives 2l: (a, length given, 2l stated) -> 2l, all in one unit.
type MagneticLength = Callable[[Arithmetic, Number, Number], Number]


def as_stated(a: Arithmetic, length: Number, stated: Number) -> Number:
    """2l as the sheet states it."""
    return stated


def as_given(a: Arithmetic, length: Number, stated: Number) -> Number:
    """2l is the length given."""
    return length


def five_sixths(a: Arithmetic, length: Number, stated: Number) -> Number:
    """2l as 5/6 of the measured length."""
    return a.keep(FIVE_SIXTHS * length)


@dataclass(frozen=True, eq=False)
class LengthRule:
    """One way of knowing 2l.

    key      one of sheet_code.TWO_L
    part     the part of the formulas that gives 2l
    sure     whether it gives the true 2l of any bar; otherwise only of bars that have their poles there
    grid     1/m: a drawn magnetic length is a whole number of 1/grid metres
    given    (length, 2l stated; m) -> what the sheet gives: (what it is, its value)
    half_is  a sentence that says what l is
    whole_is a sentence that says what 2l is
    brief    (length, 2l stated; m) -> the same in a few words
    begun    (length, 2l stated; m) -> how a working begins to find 2l
    said     the rule in a few words; "" where 2l is a number of its own
    """

    key: str
    part: MagneticLength
    sure: bool
    grid: int
    given: Callable[[float, float], list[tuple[str, str]]]
    half_is: str
    whole_is: str
    brief: Callable[[float, float], str]
    begun: Callable[[float, float], str]
    said: str = ""

    def two_l_said(self, two_l: float) -> str:
        """2l (m) beside a length that is given already: its value, or the rule."""
        return self.said if self.said else f"{centimetres(two_l)} cm"

    def worked(self, length: float, stated: float) -> str:
        """How a working finds 2l in metres."""
        return f"{self.begun(length, stated)} = {figures(self.two_l(length, stated))} m"

    def two_l(self, length: float, stated: float) -> float:
        """2l in m as the sheet takes it, with every figure.  length, stated in m."""
        found: float = self.part(Exact, length, stated)
        return found

    def holds(self, length: float, magnetic_length: float) -> bool:
        """Whether the sheet's 2l of a bar is its true one within `HOLDS`.  Metres."""
        return abs(self.two_l(length, magnetic_length) / magnetic_length - 1) <= HOLDS

    def shares(self, material: Material) -> tuple[float, float]:
        """From where to where 2l, as a share of the length, lies of bars of a material that are drawn for the rule.

        Where the first is not below the second, the rule does not hold for the material.
        """
        low, high = material.weakened or (SLIM - 0.005, SLIM + 0.005)
        if self.sure:
            return low, high
        by_rule = self.two_l(1.0, 1.0)
        return max(low, by_rule / (1 + HOLDS)), min(high, by_rule / (1 - HOLDS))


def _measured(length: float) -> Given:
    return Given("Its measured length", f"{centimetres(length)} cm", "length", short="measured length")


RULES = (
    LengthRule(
        "stated",
        as_stated,
        sure=True,
        grid=1000,
        given=lambda length, stated: [
            _measured(length),
            Given("Its magnetic length 2l", f"{centimetres(stated)} cm", "two_l", short="2l"),
        ],
        half_is="l is half the magnetic length 2l, which stands on the sheet.",
        whole_is="The magnetic length 2l stands on the sheet; turn it into metres.",
        brief=lambda length, stated: f"measured length {centimetres(length)} cm, 2l = {centimetres(stated)} cm",
        begun=lambda length, stated: f"2l = {centimetres(stated)} cm",
    ),
    LengthRule(
        "given",
        as_given,
        sure=False,
        grid=10000,
        given=lambda length, stated: [
            Given("Its length, which is taken as 2l", f"{centimetres(length)} cm", "length", "two_l", short="2l")
        ],
        half_is="l is half the magnetic length 2l, and 2l is the length given.",
        whole_is="The magnetic length 2l is the length given, in metres.",
        brief=lambda length, stated: f"length {centimetres(length)} cm, which is taken as 2l",
        begun=lambda length, stated: f"2l = {centimetres(length)} cm",
        said="the length given",
    ),
    LengthRule(
        "five-sixths",
        five_sixths,
        sure=False,
        grid=10000,
        given=lambda length, stated: [
            _measured(length),
            Given("Its magnetic length 2l", "5/6 of the measured length", "length", short="2l", said="5/6 of it"),
        ],
        half_is="l is half the magnetic length, and the magnetic length is 5/6 of the measured length.",
        whole_is="The magnetic length 2l is 5/6 of the measured length, in metres.",
        brief=lambda length, stated: f"measured length {centimetres(length)} cm, 2l = 5/6 of it",
        begun=lambda length, stated: f"2l = 5/6 × {centimetres(length)} cm",
        said="5/6 of the measured length",
    ),
)
_BY_KEY = {rule.key: rule for rule in RULES}


def rule_of(setting: Setting) -> LengthRule:
    """The rule that a laboratory keeps to."""
    return _BY_KEY[setting.two_l]
