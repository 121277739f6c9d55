"""The rooms keep to themselves."""

import ast
import re
import sys

import pytest

from generator.build.runtime import ROOT

EXERCISES = sorted((ROOT / "exercises").rglob("*.py"))
SCRIPTS = sorted((ROOT / "site_assets").glob("*.js"))


@pytest.mark.parametrize("path", EXERCISES, ids=lambda p: p.name)
def test_exercises_import_only_the_standard_library_and_pygeomag(path):
    for node in ast.walk(ast.parse(path.read_text())):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [node.module]
        for name in names:
            top = name.split(".")[0]
            assert top in sys.stdlib_module_names or top in ("exercises", "pygeomag"), name


@pytest.mark.parametrize("path", EXERCISES, ids=lambda p: p.name)
def test_nothing_typed_can_be_run(path):
    calls = {
        n.func.id
        for n in ast.walk(ast.parse(path.read_text()))
        if isinstance(n, ast.Call) and isinstance(n.func, ast.Name)
    }
    # compiled.py writes formulas down; test_compiled.py holds that only names, numbers of ours and signs get into them
    allowed = {"exec", "compile"} if path.name == "compiled.py" else set()
    assert not calls & {"eval", "exec", "compile", "__import__"} - allowed


@pytest.mark.parametrize("path", EXERCISES + SCRIPTS, ids=lambda p: p.name)
def test_files_are_read_in_one_sitting(path):
    assert len(path.read_text().splitlines()) <= 350


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda p: p.name)
def test_scripts_hold_no_physics_and_ask_no_other_host(path):
    text = path.read_text()
    assert not re.search(r"Math\.(sin|cos|tan|atan|pow|sqrt|PI)", text)
    assert not re.search(r"https?://", text)
