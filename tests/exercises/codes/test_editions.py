"""An edition holds: a slip, a place, a name and a material that come later move none of its numbers."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from exercises.bench.local_field import PLACES
from exercises.bench.magnets import MATERIALS
from exercises.codes.editions import COUNTS, NEWEST, counts_of
from exercises.codes.scenario import BIRDS
from exercises.kinds.kind import all_kinds
from generator.build.runtime import ROOT
from tests.exercises.golden import GOLDEN

#: Run in a Python of its own: the lists grow before anything has read them.
#: The slip is one that no sheet could tell from the right answer, at a part of each kind.
GROWN = """
import json, sys
since, codes, grow = json.loads(sys.argv[1])
from exercises.bench import local_field
if "place" in grow:
    local_field.PLACES = (*local_field.PLACES, local_field.Place("Saltmarsh", 52.9, 1.0, 0.0))
from exercises.bench import magnets
if "material" in grow:
    magnets.MATERIALS = (*magnets.MATERIALS, magnets.Material("another steel", 0.4e5, 7.5e5, magnets.STEEL))
from exercises.codes import scenario
if "bird" in grow:
    scenario.BIRDS = (*scenario.BIRDS, "Pratincole")
from exercises.kinds import kind
from exercises.slips.catalogue import Slip
if "slip" in grow:
    for one in kind.all_kinds().values():
        slips = []
        for told in one.slips:
            if not told.hides:  # each told slip once more, under another key: no number tells the two apart
                slips.append(Slip("later-" + told.key, told.name, told.part, told.change, told.says, told.read,
                                  by_angle=told.by_angle, since=since))
        object.__setattr__(one, "slips", (*one.slips, *slips))
from exercises.student.desk import numbers
found = []
for code in codes:
    try:
        found.append(json.loads(numbers(code)))
    except (ArithmeticError, KeyError) as error:
        found.append(str(error))
print(json.dumps(found))
"""
PER_KIND = 6


def numbers_with(grown: list[str], codes: list[str], since: int = 2) -> list:
    """What the codes stand for after the lists have grown."""
    given = json.dumps([since, codes, grown])
    done = subprocess.run(
        [sys.executable, "-c", GROWN, given], cwd=ROOT, capture_output=True, text=True, check=True, timeout=300
    )
    return json.loads(done.stdout)


def of_each_kind(count: int) -> list[dict]:
    letters = [kind.letter for kind in all_kinds().values()]
    return [golden for letter in letters for golden in [g for g in GOLDEN if g["code"][0] == letter][:count]]


def test_what_comes_later_moves_no_number_of_an_older_edition():
    golden = of_each_kind(PER_KIND)
    assert numbers_with(["slip", "place", "bird", "material"], [g["code"] for g in golden]) == golden


def test_a_slip_that_counts_in_an_edition_does_change_its_draw():
    """So the test above can fail: the same slips, said to be as old as the edition, leave no sheet."""
    golden = [g for g in GOLDEN if g["code"][0] == "W"][:1]
    assert numbers_with(["slip"], [golden[0]["code"]], since=1) != golden


@pytest.mark.parametrize(("grown", "count"), [("place", "places"), ("material", "materials")])
def test_a_list_read_to_its_end_would_move_numbers(grown, count, monkeypatch):
    """So the test above can fail: an edition that reads one entry more gives other numbers."""
    path = Path(ROOT, "exercises", "codes", "editions.py")
    text = path.read_text()
    one_more = text.replace(f"{count}={getattr(COUNTS[1], count)}", f"{count}={getattr(COUNTS[1], count) + 1}")
    assert one_more != text
    monkeypatch.setattr("tests.exercises.codes.test_editions.GROWN", SWAPPED.format(one_more=one_more) + GROWN)
    golden = of_each_kind(3)
    assert numbers_with([grown], [g["code"] for g in golden]) != golden


#: The edition's counts, as another text of editions.py has them.
SWAPPED = """
import exercises.codes.editions as editions
exec(compile({one_more!r}, "editions", "exec"), vars(editions))
"""


def test_the_newest_edition_reads_every_list_to_its_end():
    whole = counts_of(NEWEST)
    assert (whole.places, whole.birds, whole.materials) == tuple(map(len, (PLACES, BIRDS, MATERIALS)))


def test_editions_only_grow():
    counted = [vars(COUNTS[edition]) for edition in sorted(COUNTS)]
    for older, newer in zip(counted, counted[1:]):
        assert all(newer[name] >= older[name] for name in older)
