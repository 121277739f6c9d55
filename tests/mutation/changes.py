"""The changes that can be made in exercises/, each by its place."""

import ast
import difflib
import json
from dataclasses import dataclass

from cosmic_ray.ast import get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator, operator_names

from tests.mutation.copies import ROOT

#: Signs of whole numbers: with decimals, text or lists they only fail, which any test notices, and most of our
#: numbers are decimals. So left out, they cannot flatter the score.
SIGNS = ("RShift", "LShift", "BitAnd", "BitOr", "BitXor", "Invert")
#: Between types (X | None) it is an annotation, and any other sign there fails at once.
OF_TYPES = "BinaryOperator_BitOr_"
#: The same for whole numbers, short text and None, which is all that we compare so.
SAME = ("_Eq_Is", "_NotEq_IsNot", "_Is_Eq", "_IsNot_NotEq")
#: Those that replace a name need to be told which name.
NAMES = ("VariableReplacer", "VariableInserter")


@dataclass(frozen=True)
class Place:
    path: str
    line: int
    operator: str
    occurrence: int

    def __str__(self):
        return f"{self.path}:{self.line} {self.operator} {self.occurrence}"

    @property
    def code(self) -> str:
        return (ROOT / self.path).read_text()


def sources(wanted: str) -> list[str]:
    return [str(p.relative_to(ROOT)) for p in sorted((ROOT / "exercises").rglob("*.py")) if wanted in str(p)]


def places_of(path: str) -> list[Place]:
    """Every change that can be made in a file."""
    code = (ROOT / path).read_text()
    nodes, skipped, out = list(walk(get_ast(code))), annotations(code), []
    for name in operator_names():
        if name.endswith(SIGNS + SAME + NAMES) or OF_TYPES in name:
            continue
        operator, at = get_operator(name)(), 0
        for node in nodes:
            for (line, _), _ in operator.mutation_positions(node):
                if line not in skipped:
                    out.append(Place(path, line, name, at))
                at += 1
    return out


def walk(node):
    yield node
    for child in getattr(node, "children", ()):
        yield from walk(child)


def annotations(code: str) -> set[int]:
    """Lines that hold nothing but a field and its type."""
    return {n.lineno for n in ast.walk(ast.parse(code)) if isinstance(n, ast.AnnAssign) and n.value is None}


def changed_code(place: Place) -> str | None:
    """The file with the change; nothing where Python would run the same, or could not read it (** before names)."""
    code = place.code
    changed = mutate_code(code, get_operator(place.operator)(), place.occurrence) or code
    return changed if meaning(changed) not in ("", meaning(code)) else None


def meaning(code: str) -> str:
    try:
        return ast.dump(ast.parse(code))
    except SyntaxError:
        return ""


def changed_line(place: Place) -> str:
    """The changed line, as it was and as it is."""
    lines = difflib.ndiff(place.code.splitlines(), (changed_code(place) or "").splitlines())
    pair = [line[2:].strip()[:140] for line in lines if line[:2] in ("- ", "+ ")]
    return json.dumps(pair, ensure_ascii=False)
