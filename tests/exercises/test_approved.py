"""All that is said of one piece of work of every sort is what was last read (see approved.py)."""

import functools
import re

import pytest

from tests.exercises.approved import KEPT, everything
from tests.exercises.golden import FOLDER

now = functools.cache(everything)
NAMES = sorted(p.stem for p in KEPT.glob("*.txt"))


@pytest.mark.parametrize("name", NAMES)
def test_it_is_what_was_read(name):
    was = (KEPT / f"{name}.txt").read_bytes().decode()
    assert "\n".join(now()[name]).split("\n") == was.removesuffix("\n").split("\n"), (
        "if the change was meant, see tests/keep.py"
    )


DOUBLE_STOP = re.compile(r"(?<![.\d])\.\.(?![.\d/])")  # “1..2” is a number as somebody typed it, “../” an address


@pytest.mark.parametrize("path", sorted(FOLDER.rglob("*.txt")), ids=lambda path: path.stem)
def test_no_sentence_ends_in_two_full_stops(path):
    """That the kept texts are what is said now is tested here and in test_written."""
    assert [line for line in path.read_text().splitlines() if DOUBLE_STOP.search(line)] == []


def test_two_full_stops_are_seen():
    assert DOUBLE_STOP.search("It can no longer be used.. What you typed is kept.")


def test_everything_is_kept():
    assert sorted(now()) == NAMES
