"""What a kind of exercise is, and the sheet that a code stands for.

Each folder beside this file whose kind.py has a module-level `KIND` is a kind;
a new one is found by itself.  A kind's letter is the first character of its
codes, and its draws are keyed by edition: an old edition stays for ever.
"""

import importlib.util
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache, cached_property, lru_cache

import exercises.kinds
from exercises.codes.scenario import Scenario
from exercises.codes.sheet_code import ALPHABET, TWO_L, CodeError, Setting, SheetCode, read
from exercises.kinds.listing import Listing
from exercises.kinds.sheet import Page
from exercises.slips.catalogue import Slip, as_of, heeded
from exercises.working.steps import Working


def _refuses_none(setting: Setting) -> str:
    return ""


@dataclass(frozen=True)
class Kind[S: Scenario = Scenario]:
    """One kind of exercise; its draws, its working and its page go with its own class of scenario.

    letter    first character of its codes, from sheet_code.ALPHABET
    slug      its name in addresses and file names
    title     its name on pages
    draws     edition -> function of a code, and of the slips that its draw tells apart, to a scenario
    working   function from a scenario to its Working
    page      what the sheet shows (see sheet.Page)
    slips     the slips of its newest edition; an older one's sheets look for those of `slips_of`
    listing   its place and its words in lists of all kinds
    questions  what an examiner asks about it in revision: column -> sentence (student/asked.py fills it in)
    refuses   what stands against a laboratory's settings, as a sentence; "" where every code of them has numbers
    """

    letter: str
    slug: str
    title: str
    draws: Mapping[int, Callable[[SheetCode, tuple[Slip, ...]], S]]
    working: Callable[[S], Working]
    page: Page[S]
    slips: tuple[Slip, ...]
    listing: Listing
    refuses: Callable[[Setting], str] = _refuses_none
    questions: Mapping[str, str] = field(default_factory=dict)

    @property
    def edition(self) -> int:
        """The edition that new codes are made with."""
        return max(self.draws)

    def slips_of(self, edition: int, rule: str = TWO_L[0], at_ends: bool = False) -> tuple[Slip, ...]:
        """The slips that are looked for on the sheets of an edition that know 2l by a rule.

        at_ends  whether the sheet's bar has its poles at its ends
        """
        return self._slips(edition, rule, at_ends)[0]

    def _slips(self, edition: int, rule: str, at_ends: bool = False) -> tuple[tuple[Slip, ...], tuple[Slip, ...]]:
        """Those that are looked for on such sheets, and those of them that a draw tells apart."""
        known, sheets = self._known_slips, (edition, rule, at_ends)
        if sheets not in known:
            known[sheets] = as_of(self.slips, *sheets), heeded(self.slips, edition, rule)
        return known[sheets]

    @cached_property
    def _known_slips(self) -> dict[tuple[int, str, bool], tuple[tuple[Slip, ...], tuple[Slip, ...]]]:
        return {}  # asked for once for each sheet, and to compare so many slips takes long

    def draw(self, code: SheetCode) -> S:
        """The scenario of a code of this kind.  KeyError for an edition that the kind does not have."""
        return self.draws[code.edition](code, self._slips(code.edition, code.setting.two_l)[1])


@dataclass(frozen=True)
class Sheet:
    """What a code stands for: its kind, the numbers that the student gets, and their working."""

    kind: Kind
    scenario: Scenario
    working: Working

    @property
    def slips(self) -> tuple[Slip, ...]:
        """The slips that are looked for on this sheet."""
        code = self.scenario.code
        return self.kind.slips_of(code.edition, code.setting.two_l, self.scenario.poles_at_ends)


@cache
def all_kinds() -> dict[str, Kind]:
    """Every kind by its slug, in the order of their letters.

    ValueError, with the letters that are free, if two kinds have one letter or one slug.
    """
    folders = [
        f"{exercises.kinds.__name__}.{m.name}" for m in pkgutil.iter_modules(exercises.kinds.__path__) if m.ispkg
    ]
    names = [f"{folder}.kind" for folder in folders if importlib.util.find_spec(f"{folder}.kind")]
    kinds: list[Kind] = sorted((importlib.import_module(name).KIND for name in names), key=lambda kind: kind.letter)
    letters = "".join(kind.letter for kind in kinds)
    if len(set(letters)) < len(kinds) or len({kind.slug for kind in kinds}) < len(kinds):
        taken = ", ".join(f"{kind.letter} ({kind.slug})" for kind in kinds)
        raise ValueError(f"Two kinds have one letter or one slug: {taken}. Free letters: {free_letters(letters)}.")
    return {kind.slug: kind for kind in kinds}


def free_letters(taken: str) -> str:
    """The letters that a new kind may have: those of a sheet code that are not among `taken`."""
    return "".join(symbol for symbol in ALPHABET if symbol.isalpha() and symbol not in taken)


def listed_kinds() -> list[Kind]:
    """Every kind in the order in which they are taught, as lists and tables have them."""
    return sorted(all_kinds().values(), key=lambda kind: kind.listing.order)


def kind_of(code: SheetCode) -> Kind:
    """The kind of a code.  CodeError if this site has no such kind or edition."""
    for kind in all_kinds().values():
        if kind.letter == code.kind:
            if code.edition not in kind.draws:
                raise CodeError(
                    "The second character of this code is the edition of its numbers, and this site does not "
                    "have that edition. Look at it again, or ask for the newer site.",
                    2,
                )
            return kind
    raise CodeError(f"No exercise here has codes that begin with {code.kind}. Look at the first character again.", 1)


def open_code(text: str) -> Sheet:
    """The sheet of a code as it was typed.  CodeError, with a sentence, if it stands for nothing."""
    return sheet_of(read(text))


@lru_cache(maxsize=400)  # a class of 300 is drawn once for its key and its marks
def sheet_of(code: SheetCode) -> Sheet:
    """The sheet of a code.  CodeError, with a sentence, if this site has no such kind or edition."""
    kind = kind_of(code)
    scenario = kind.draw(code)
    return Sheet(kind, scenario, kind.working(scenario))
