"""The rooms keep to themselves: what each may import, and what none may do."""

import ast
import re
import sys
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

from generator.build.runtime import ROOT

EXERCISES = sorted((ROOT / "exercises").rglob("*.py"))
SCRIPTS = sorted((ROOT / "site_assets").glob("*.js"))

#: The rooms of exercises/ from the lowest to the highest, each with what it may import: of the rooms before it all
#: (None), or only these.
ROOMS = {
    "files": (),
    "bench": (),
    "working": ("bench",),
    "codes": ("bench", "working"),
    "slips": ("working",),
    "judging": None,
    "kinds": None,
    "return_slip": None,
    "student": None,
    "record": None,
    "classroom": None,
}
#: The rooms of generator/, each with the rooms of generator/ that it may import.
GENERATOR = {
    "figures": (),
    "pages": (),
    "examples": ("figures",),
    "build": ("figures", "pages", "examples"),
    "commands": ("build",),
}


def imported(path: Path) -> set[str]:
    """The modules and packages that a file names in its imports; of `from a.b import c` both a.b and a.b.c."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, f"{path}: imports say the whole name"
            found |= {node.module} | {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def arrows(top: str) -> set[tuple[str, str, Path]]:
    """(room, the other room that it imports, the file that does) of a folder of rooms."""
    return {
        (room, name.split(".")[1], path)
        for path in (ROOT / top).rglob("*.py")
        for name in imported(path)
        if name.startswith(f"{top}.") and (room := path.relative_to(ROOT / top).parts[0]) != name.split(".")[1]
    }


def folders(top: str) -> set[str]:
    return {path.name for path in (ROOT / top).iterdir() if (path / "__init__.py").is_file()}


@pytest.mark.parametrize("top", ["exercises", "generator"])
def test_every_file_is_in_a_room(top):
    assert [path.name for path in (ROOT / top).glob("*.py")] == ["__init__.py"]
    assert folders(top) == set({"exercises": ROOMS, "generator": GENERATOR}[top])


def test_the_rooms_of_exercises_import_one_way_only():
    order = list(ROOMS)
    wrong = [
        f"{path.relative_to(ROOT)} imports from {other}"
        for room, other, path in arrows("exercises")
        if other not in (order[: order.index(room)] if ROOMS[room] is None else ROOMS[room])
    ]
    assert not wrong


def test_the_rooms_of_generator_import_one_way_only():
    wrong = [
        f"{path.relative_to(ROOT)} imports from {other}"
        for room, other, path in arrows("generator")
        if other not in GENERATOR[room]
    ]
    assert not wrong
    TopologicalSorter(GENERATOR).prepare()  # CycleError if the table itself had a circle


def module_name(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


@pytest.mark.parametrize("top", ["exercises", "generator", "tests"])
def test_no_files_import_each_other_in_a_circle(top):
    files = {module_name(path): imported(path) for path in (ROOT / top).rglob("*.py")}
    try:
        TopologicalSorter({name: names & files.keys() - {name} for name, names in files.items()}).prepare()
    except CycleError as error:
        pytest.fail(f"these import each other: {' -> '.join(reversed(error.args[1]))}")


def test_the_tests_mirror_the_rooms():
    for top in ("exercises", "generator"):
        known = folders(top)
        assert folders(f"tests/{top}") <= known


@pytest.mark.parametrize("path", EXERCISES, ids=lambda p: str(p.relative_to(ROOT)))
def test_exercises_import_only_the_standard_library_and_pygeomag(path):
    for name in imported(path):
        top = name.split(".")[0]
        assert top in sys.stdlib_module_names or top in ("exercises", "pygeomag"), name


@pytest.mark.parametrize("path", EXERCISES, ids=lambda p: str(p.relative_to(ROOT)))
def test_nothing_typed_can_be_run(path):
    calls = {
        n.func.id
        for n in ast.walk(ast.parse(path.read_text()))
        if isinstance(n, ast.Call) and isinstance(n.func, ast.Name)
    }
    # compiled.py writes formulas down; test_compiled.py holds that only names, numbers of ours and signs get into them
    allowed = {"exec", "compile"} if path.name == "compiled.py" else set()
    assert not calls & {"eval", "exec", "compile", "__import__"} - allowed


@pytest.mark.parametrize("path", EXERCISES + SCRIPTS, ids=lambda p: str(p.relative_to(ROOT)))
def test_files_are_read_in_one_sitting(path):
    assert len(path.read_text().splitlines()) <= 350


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda p: str(p.relative_to(ROOT)))
def test_scripts_hold_no_physics_and_ask_no_other_host(path):
    text = path.read_text()
    assert not re.search(r"Math\.(sin|cos|tan|atan|pow|sqrt|PI)", text)
    assert not re.search(r"https?://", text)
