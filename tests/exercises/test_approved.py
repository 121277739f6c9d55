"""All that is said of one piece of work of every sort is what was last read (see approved.py)."""

import functools

import pytest

from tests.exercises.approved import KEPT, everything

now = functools.cache(everything)
NAMES = sorted(p.stem for p in KEPT.glob("*.txt"))


@pytest.mark.parametrize("name", NAMES)
def test_it_is_what_was_read(name):
    was = (KEPT / f"{name}.txt").read_bytes().decode()
    assert "\n".join(now()[name]).split("\n") == was.removesuffix("\n").split("\n"), (
        "if the change was meant, see tests/keep.py"
    )


def test_everything_is_kept():
    assert sorted(now()) == NAMES
