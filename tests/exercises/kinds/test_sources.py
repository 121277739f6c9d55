"""What each step is worked from, and that the sheet shows it."""

import json
import re
from pathlib import Path

import pytest

from exercises.kinds.beside import Surroundings
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.rendering import render
from exercises.kinds.sheet import Book
from exercises.kinds.sources import sources

GOLDEN = Path(__file__).parents[1] / "golden"
#: What no sheet gives, because it is what is asked: the truth that choices are judged by, how finely a graph is read,
#: and what stands in a step's own title.
UNTOLD = {
    "fault": {"fault", "where"},
    "graph": {"allowed"},
    "setting": {"left_out"},
    "tan-b": {"laid.0", "laid.1", "magnet"},
    "uncertainty": {"other_angle"},
}


def sheets(slug):
    """Some sheets of a kind, of usual and of other settings."""
    lines = (GOLDEN / f"{slug}.jsonl").read_text(encoding="utf-8").splitlines()
    return [open_code(json.loads(line)["code"]) for line in lines[::7]]


@pytest.mark.parametrize("slug", sorted(all_kinds()))
def test_a_sheet_shows_all_that_its_steps_are_worked_from(slug):
    for sheet in sheets(slug):
        around, html = Surroundings(sheet), render(sheet)
        shown = set(" ".join(re.findall(r'data-given="([^"]*)"', html)).split())
        for step in sheet.working.steps:
            needed = set(around.sources[step.id].data)
            assert {key for key in needed if not {key, key.partition(".")[0]} & shown} <= UNTOLD.get(slug, set())
            assert set(around.data(step)) <= shown
            assert set(around.entries(step)) <= {one.id for one in sheet.working.steps}


@pytest.mark.parametrize("slug", sorted(all_kinds()))
def test_every_step_has_one_field(slug):
    for sheet in sheets(slug):
        html = render(sheet)
        assert sorted(re.findall(r'data-step="([^"]*)"', html)) == sorted(step.id for step in sheet.working.steps)
        assert set(re.findall(r'data-of="([^"]*)"', html)) <= set(sheet.working.by_id)


def test_the_sources_of_a_distance_are_its_readings_and_the_steps_before():
    found = sources(open_code("A3Y-MAK-X9M").working)
    assert (found["mean-2"].data, found["mean-2"].entries) == (("readings.1",), ())
    assert (found["tan-2"].data, found["tan-2"].entries) == ((), ("mean-2",))
    assert (set(found["bracket-2"].data), found["bracket-2"].entries) == ({"d.1", "two_l"}, ())
    assert set(found["moment-2"].data) == {"d.1", "B_H"} and set(found["moment-2"].entries) == {"tan-2", "bracket-2"}


def test_what_stands_far_off_is_said_again():
    around = Surroundings(open_code("A3Y-MAK-X9M"))
    book, result = around.parts[0][1][0], around.parts[1][1][0]
    assert isinstance(book, Book)
    assert [said.name for said in around.of_line(book.lines[0])] == ["2l", "B_H"]
    assert [said.name for said in around.of_line(book.lines[0], heading=True)] == ["d", "2l", "B_H"]
    assert [said.entry for said in around.of_step(result, 0)] == [f"moment-{i}" for i in range(1, 7)]
    assert [said.name for said in around.of_step(result, 1)] == ["2l"]  # the mean stands just before it
