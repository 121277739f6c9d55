"""The position that a record is made in, tan A or tan B, and what is called otherwise in each."""

from collections.abc import Callable
from dataclasses import dataclass

from exercises.bench.field import broadside_on, end_on, moment_broadside_on, moment_end_on
from exercises.working.mathematics import symbols

KEY = "position"  # the cell of the head that says it


@dataclass(frozen=True)
class Position:
    """One of the two positions.

    key, name   "tan-a", "tan A";  magnet  how the magnet lies, in a few words
    arms        what the arm of the first four readings and that of the last four are called
    line        the line that the arms lie along
    outward     what the two fours of the pattern "outward" are called (instrument.PATTERNS)
    bracket     what the worked column is, its unit, its heading in a file, and the quantity it is read as
    abscissa    what stands along the axis of the graph
    field       (m, d, l, k) -> B, and `moment` (B, d, l) -> m, as in bench/field
    tan_b       as the functions of bench/ take it
    """

    key: str
    name: str
    magnet: str
    arms: tuple[str, str]
    line: str
    outward: tuple[str, str]
    bracket: str
    bracket_unit: str
    bracket_heading: str
    bracket_quantity: str
    abscissa: str
    field: Callable[..., float]
    moment: Callable[[float, float, float], float]
    tan_b: bool

    @property
    def lies(self) -> str:
        """How arms and magnet lie.

        >>> TAN_A.lies
        'arms east–west, magnet along the arm'
        """
        return f"arms {self.line}, magnet {self.magnet}"

    @property
    def bracket_html(self) -> str:
        """The worked column as HTML, with its power raised."""
        return symbols(self.bracket)

    def arm(self, name: str) -> str:
        """What an arm of instrument.EIGHT is called here.

        >>> TAN_B.arm("east")
        'north'
        """
        return self.arms[0 if name == "east" else 1]


TAN_A = Position(
    key="tan-a",
    name="tan A",
    magnet="along the arm",
    arms=("east", "west"),
    line="east–west",
    outward=("with N outward", "with N inward"),
    bracket="(d² − l²)²",
    bracket_unit="m⁴",
    bracket_heading="(d2-l2)2 (m4)",
    bracket_quantity="length4",
    abscissa="2d/(d² − l²)² in m⁻³",
    field=end_on,
    moment=moment_end_on,
    tan_b=False,
)
TAN_B = Position(
    key="tan-b",
    name="tan B",
    magnet="across the arm",
    arms=("north", "south"),
    line="north–south",
    outward=(
        "with N east on the north arm and N west on the south arm",
        "with N west on the north arm and N east on the south arm",
    ),
    bracket="(d² + l²)^(3/2)",
    bracket_unit="m³",
    bracket_heading="(d2+l2)^(3/2) (m3)",
    bracket_quantity="volume",
    abscissa="1/(d² + l²)^(3/2) in m⁻³",
    field=broadside_on,
    moment=moment_broadside_on,
    tan_b=True,
)
POSITIONS = (TAN_A, TAN_B)
#: What a record may say, without spaces and marks and in small letters.
_WORDS = {
    "tana": TAN_A,
    "a": TAN_A,
    "endon": TAN_A,
    "tanb": TAN_B,
    "b": TAN_B,
    "broadside": TAN_B,
    "broadsideon": TAN_B,
}


def position_named(text: str) -> Position | None:
    """The position that a cell names, or None.

    >>> position_named("Tan B position").name, position_named("end-on").name, position_named("upright")
    ('tan B', 'tan A', None)
    """
    letters = "".join(c for c in text.casefold() if c.isalnum())
    return _WORDS.get(letters.removesuffix("position"))
