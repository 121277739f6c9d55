"""The kinds of exercise.  Each file here is one kind; a new file is found by itself.

A kind's file has one module-level `KIND`.  Its letter is the first character
of its codes and its `draw` is keyed by edition: an old edition stays for ever.
"""

import importlib
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from exercises.sheet import Page
from exercises.sheet_code import CodeError, SheetCode, read
from exercises.working import Working


@dataclass(frozen=True)
class Kind:
    """One kind of exercise.

    letter    first character of its codes, from sheet_code.ALPHABET
    slug      its name in addresses and file names
    title     its name on pages
    draws     edition -> function from a code to a scenario, which has its code as `code`
    working   function from a scenario to its Working
    page      what the sheet shows (see sheet.Page)
    """

    letter: str
    slug: str
    title: str
    draws: Mapping[int, Callable[[SheetCode], Any]]
    working: Callable[[Any], Working]
    page: Page

    @property
    def edition(self) -> int:
        """The edition that new codes are made with."""
        return max(self.draws)


@cache
def all_kinds() -> dict[str, Kind]:
    """Every kind by its slug, in the order of their letters."""
    modules = (importlib.import_module(f"{__name__}.{m.name}") for m in pkgutil.iter_modules(__path__))
    kinds = sorted((m.KIND for m in modules if hasattr(m, "KIND")), key=lambda k: k.letter)
    return {k.slug: k for k in kinds}


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
    raise CodeError(
        f"No exercise here has codes that begin with {code.kind}. Look at the first character again.", 1
    )


@lru_cache(maxsize=400)  # a class of 300 is drawn once for its key and its marks
def open_code(text: str) -> tuple[Kind, Any, Working]:
    """Everything a code stands for.  CodeError, with a sentence, if it stands for nothing."""
    code = read(text)
    kind = kind_of(code)
    scenario = kind.draws[code.edition](code)
    return kind, scenario, kind.working(scenario)
