"""What the pages' scripts ask of Python is there: a call is a string in JavaScript, which nothing else looks at."""

import importlib
import inspect
import re
from collections.abc import Iterator

import pytest

from generator.build.runtime import ROOT

SCRIPTS = {path.name: path.read_text(encoding="utf-8") for path in sorted((ROOT / "site_assets").glob("*.js"))}
#: A script that hands on a call which another script names.
HANDED_ON = (
    "...call",
    "about, ...call, bytes, file.name",
    "call, ...args.map((arg) => (arg instanceof Handle ? arg.id : arg))",
)
CLASS = "classroom.desk."  # the class desk puts this before every call


def arguments(text: str) -> list[str]:
    """The arguments of a JavaScript call, from its text after the opening bracket."""
    found, depth, quote, begun = [], 0, "", 0
    for at, sign in enumerate(text):
        if quote:
            quote = "" if sign == quote else quote
        elif sign in "\"'`":
            quote = sign
        elif sign in "([{":
            depth += 1
        elif sign in ")]}" and depth:
            depth -= 1
        elif sign == ")" or (sign == "," and not depth):
            found.append(text[begun:at].strip())
            begun = at + 1
            if sign == ")":
                return [argument for argument in found if argument]
    raise ValueError(f"the call does not end: {text[:80]}")


def calls(name: str, text: str) -> Iterator[tuple[str, int]]:
    """Every call of Python in a script, with how many arguments it has."""
    for found in re.finditer(r"\baskWith\((?!python, call, args)", text):  # its arguments are a list
        _, call, listed = arguments(text[found.end() :])
        if call != "`classroom.desk.${call}`":
            yield call.strip('"'), len(arguments(f"{listed[1:-1]})"))
    for found in re.finditer(r"\.(ask|read)\(", text):
        given = arguments(text[found.end() :])
        if ", ".join(given) in HANDED_ON:
            continue
        if found[1] == "read" and not given:
            continue  # of a stream
        if found[1] == "read":  # a file: its bytes and its name are added
            yield CLASS + given[3].strip('"'), len(given[4:]) + 2
        elif name.startswith("class"):  # the first one is the control that the call is about
            yield CLASS + given[1].strip('"'), len(given[2:])
        else:
            yield given[0].strip('"'), len(given[1:])


CALLS = sorted({(name, *call) for name, text in SCRIPTS.items() for call in calls(name, text)})


@pytest.mark.parametrize(("script", "call", "many"), CALLS)
def test_python_has_what_a_script_asks_for(script, call, many):
    room, _, function = call.rpartition(".")
    found = getattr(importlib.import_module(f"exercises.{room or 'student.desk'}"), function)
    assert not function.startswith("_") and inspect.isfunction(found)
    inspect.signature(found).bind(*range(many))


def test_every_page_that_asks_is_among_them():
    asking = {name for name, text in SCRIPTS.items() if re.search(r"\.ask\(|askWith\(", text)} - {
        "page.js",
        "class_handle.js",
    }
    assert asking == {script for script, *_ in CALLS}
    assert "`classroom.desk.${call}`" in SCRIPTS["class.js"]


def test_the_modules_that_a_start_imports_are_there():
    named = set(re.findall(r'pyimport\("(exercises[\w.]*)"\)', SCRIPTS["start.js"]))
    assert named == {"exercises.student.desk"}
    for name in named:
        importlib.import_module(name)
