"""The names of a sheet's steps, and which of them a misspelt one is nearest to."""

from collections.abc import Iterable
from difflib import get_close_matches

from exercises.codes.sheet_code import CodeError
from exercises.kinds.kind import open_code


def steps_of(code: str) -> tuple[str, ...]:
    """The ids of the steps of a code's sheet, in order; none where the code stands for no sheet."""
    try:
        return tuple(step.id for step in open_code(code).working.steps if not step.hidden)
    except (CodeError, ArithmeticError):
        return ()


def nearest(name: str, names: Iterable[str], most: int = 3) -> list[str]:
    """Those of the names that a misspelt one may be, the nearest first.

    >>> nearest("bracket-l", ["mean-1", "bracket-1", "bracket-2"])[0]
    'bracket-1'
    """
    look_alike = name.translate(str.maketrans("lioszb", "110528"))
    names = list(dict.fromkeys(names))
    alike = [n for n in names if n.translate(str.maketrans("lioszb", "110528")) == look_alike]
    return list(dict.fromkeys([*alike, *get_close_matches(name, names, most, 0.7)]))[:most]


def no_such_step(name: str, names: Iterable[str]) -> str:
    """What is said of a step that a sheet does not have, with the nearest that it has; without an end.

    >>> no_such_step("bracket-l", ["mean-1", "bracket-1"])
    'this sheet has no step “bracket-l”; the nearest is bracket-1'
    """
    near = nearest(name, names, 1)
    told = f"this sheet has no step “{name[:40]}”"
    return f"{told}; the nearest is {near[0]}" if near else told
