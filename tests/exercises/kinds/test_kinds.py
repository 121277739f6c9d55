"""Every kind is whole: its page, its examples, its golden codes; its place in lists is in test_kind_lists.py."""

import importlib.util
import json

import pytest

from exercises.codes.sheet_code import ALPHABET, Setting, SheetCode, write
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.rendering import render_static
from exercises.kinds.sheet import Group
from exercises.student import desk as student
from exercises.working.mathematics import symbols
from generator.build.runtime import ROOT
from generator.pages.kind_lists import examples_of
from tests.benchmarks.judging import typed
from tests.exercises.golden import codes_of

KINDS = all_kinds()


@pytest.mark.parametrize("slug", KINDS)
def test_a_kind_is_whole(slug):
    page = (ROOT / "content" / "exercises" / f"{slug}.md").read_text()
    assert f"<!-- sheet: {slug} " in page
    pages = examples_of(KINDS[slug])
    assert len(pages) >= 2
    for name in pages:
        example = (ROOT / "content" / "examples" / f"{name}.md").read_text()
        assert f"<!-- worked-example: {KINDS[slug].letter}" in example
    assert len(codes_of(KINDS[slug].letter)) >= 40


@pytest.mark.parametrize("slug", KINDS)
def test_the_slips_of_a_kind_s_folder_change_parts_that_it_has(slug):
    """A slip whose part is misspelt would be left out without a word."""
    name = f"exercises.kinds.{slug.replace('-', '_')}"
    own = importlib.import_module(f"{name}.slips").SLIPS if importlib.util.find_spec(f"{name}.slips") else ()
    assert set(own) <= set(KINDS[slug].slips)


def test_letters_are_from_the_alphabet_and_of_one_kind_each():
    letters = [kind.letter for kind in KINDS.values()]
    assert len(set(letters)) == len(letters) and set(letters) <= set(ALPHABET)


@pytest.mark.parametrize("slug", KINDS)
def test_every_sheet_asks_hints_and_explains(slug):
    code = codes_of(KINDS[slug].letter)[1]
    sheet = open_code(code)
    working, html = sheet.working, render_static(sheet)
    for step in working.steps:
        assert f'name="{step.id}"' in html
        assert step.hints and step.read and "#" in step.read
        assert json.loads(student.hint(code, step.id, 0))["html"] == symbols(step.hints[0])
    assert html.count("er-answers") == 2
    assert len({s.id for s in working.steps}) == len(working.steps)


@pytest.mark.parametrize("slug", KINDS)
def test_right_answers_fill_a_whole_sheet(slug):
    code = codes_of(KINDS[slug].letter)[2]
    working = open_code(code).working
    values = working.all_values()
    entries = {s.id: typed(values[s.id], s, 5) for s in working.steps}
    checked = json.loads(student.check(code, json.dumps(entries)))
    assert checked["right"] == checked["steps"], {k: v for k, v in checked["verdicts"].items() if v["state"] != "right"}


def test_a_group_is_named_with_and_without_the_numbers_of_its_sheet():
    row = Group("Distance 1", [], "d = 17.3 cm", series="Distance")
    assert (row.heading, row.name, row.common_name) == ("Distance 1: d = 17.3 cm", "Distance 1", "Distance 1")
    other = Group("Deflections at d = 10.8 cm", [], part="Deflections")
    assert (other.heading, other.common_name) == ("Deflections at d = 10.8 cm", "Deflections")


@pytest.mark.parametrize("slug", KINDS)
def test_names_of_groups_are_the_same_on_every_sheet_and_each_step_stands_in_one(slug):
    """A report counts by them: no number of one sheet may stand in a name but that of its row."""
    names: dict[tuple[str, str], set[str]] = {}
    for code in codes_of(KINDS[slug].letter):
        sheet = open_code(code)
        groups = sheet.kind.page.groups(sheet.scenario, sheet.working)
        assert sorted(s.id for g in groups for s in g.steps) == sorted(s.id for s in sheet.working.steps)
        for group in groups:
            assert " cm" not in group.common_name and "°" not in group.common_name
            names.setdefault((group.common_name, group.series), set()).add(group.steps[0].column)
    assert len({name for name, _ in names}) == len(names)
    assert all(len(columns) == 1 for columns in names.values())


@pytest.mark.parametrize("slug", KINDS)
@pytest.mark.parametrize("length", [None, 80])
def test_where_the_length_given_is_2l_nothing_speaks_of_another_length(slug, length):
    """The sheet, its working and its hints know one length of the bar; no 5/6 of it, and none that is measured."""
    kind = KINDS[slug]
    for seed in (0, 20_000_000, 99_999_999):
        sheet = open_code(write(SheetCode(kind.letter, kind.edition, seed, Setting("given", length_mm=length))))
        hints = " ".join(hint for step in sheet.working.steps for hint in step.hints)
        said = f"{render_static(sheet)} {hints}"
        assert not [word for word in ("5/6", "sixth", "measured length", "as measured", "not its") if word in said]
