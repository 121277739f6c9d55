"""The print packs: whole pages of HTML that fetch nothing, run nothing and show whose they are."""

import html
import re
from collections import Counter
from html.parser import HTMLParser

import pytest

from exercises.classroom.class_list import paper, prints
from exercises.classroom.class_list.class_file import make, task
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.packs import EXAMINATION, PACKS
from exercises.classroom.class_list.roster import Student
from exercises.classroom.class_list.tables import key_rows
from exercises.kinds.kind import all_kinds, open_code
from exercises.working.mathematics import set_out, symbols
from tests.exercises.settings import FIXED

CSS = ".er-sheet > p { color: var(--er-ink); }"
NASTY = "<script>alert(1)</script> & “Plover”"
CLASS = make(
    (Student("1", NASTY), Student('"><b>2'), Student("3", "علي")),
    "sand and salt water",
    [task(slug, FIXED) for slug in all_kinds()],
    "https://saltmarsh.example/?".rstrip("?"),
)
VOID = {"meta", "input", "br", "hr", "img", "link"}


class Look(HTMLParser):
    """Reads a page and notes its tags, ids, labels and text; a tag that is not closed in its place is a fault."""

    def __init__(self, text: str):
        super().__init__()
        self.open, self.tags, self.ids, self.fors, self.text = [], Counter(), Counter(), [], ""
        self.fetched: list[str] = []
        self.feed(text)
        self.close()
        assert not self.open, self.open

    def handle_starttag(self, tag, attrs):
        self.tags[tag] += 1
        for name, value in attrs:
            if name == "id":
                self.ids[value] += 1
            if name == "for":
                self.fors.append(value)
            if name in ("src", "href") and not value.startswith("#"):
                self.fetched.append(value)
            assert not name.startswith("on"), name
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data


def whole(name: str) -> str:
    pack = PACKS[name]
    return pack.head(CLASS, CSS) + "".join(pack.piece(CLASS, *of) for of in CLASS.codes()) + pack.foot


@pytest.mark.parametrize("name", ["sheets.html", "slips.html", "key.html", "working.html"])
def test_a_page_is_whole_and_fetches_nothing(name):
    seen = Look(whole(name))
    assert seen.tags["script"] == seen.tags["link"] == seen.tags["img"] == 0
    assert not seen.fetched
    assert seen.tags["style"] == 1 and CSS in seen.text
    assert NASTY in seen.text and '"><b>2' in seen.text and "علي" in seen.text
    for _, codes in CLASS.codes():
        assert all(str(code) in seen.text for _, code in codes)


@pytest.mark.parametrize("name", ["sheets.html", "key.html", "working.html"])
def test_each_sheet_has_its_page_and_no_two_things_one_id(name):
    seen = Look(whole(name))
    assert seen.tags["article"] == len(CLASS.students) * len(CLASS.tasks)
    assert not seen.ids or max(seen.ids.values()) == 1
    assert set(seen.fors) <= set(seen.ids)
    assert seen.tags["button"] == seen.tags["select"] == 0


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_there_is_room_to_write_every_answer(slug):
    student, codes = CLASS.codes()[0]
    code = next(code for task, code in codes if task.kind.slug == slug)
    sheet = open_code(str(code))
    working, page = sheet.working, prints.sheet_page(student, sheet)
    asked = [s for s in working.steps if not s.choices]
    assert page.count("<input ") == len(asked)
    assert page.count('class="cl-choices"') == len(working.steps) - len(asked)
    seen = Look(page)
    for step in working.steps:
        for _, label, _ in step.choices:
            assert label in seen.text
    assert "choose …" not in seen.text


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_there_is_room_to_work_and_a_box_for_the_marks(slug):
    """A box for each group of steps with something to be worked out, and none where all is read off or chosen."""
    student, codes = CLASS.codes()[0]
    sheet = open_code(str(next(code for task, code in codes if task.kind.slug == slug)))
    page = prints.sheet_page(student, sheet)
    assert page.count("Marks <span>") == 1
    groups = sheet.kind.page.groups(sheet.scenario, sheet.working)
    worked = [g for g in groups if {"figures", "angle", "tangent"} & {s.rule for s in g.steps if not s.choices}]
    assert page.count("<div>Working. ") == len(worked) >= 1
    assert all(f"<div>Working. {symbols(group.heading)}</div>" in page for group in worked)


def test_every_paper_has_heading_and_section():
    heading = Heading("Saltmarsh <College>", "Course II", "", "4 May 2026")
    made = make([Student("1", "Knot", "B & C")], "sand and salt water", [task("tan-a")], heading=heading)
    for name, pack in (PACKS | EXAMINATION).items():
        if name.endswith(".html"):
            (of,) = made.codes()
            seen = Look(pack.head(made, CSS) + pack.piece(made, *of) + pack.foot)
            assert "Saltmarsh <College> · Course II · 4 May 2026" in seen.text, name
            assert "1 · Knot · section B & C" in seen.text, name


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_the_printed_key_has_every_step_and_its_ends(slug):
    """Its numbers are those of the table, which test_classroom_tables.py holds against the working."""
    student, codes = CLASS.codes()[0]
    sheet = open_code(str(next(code for task, code in codes if task.kind.slug == slug)))
    working = sheet.working
    rows = re.findall(r"<tr><th>(.*?)</th><td>(.*?)</td><td>(.*?)</td></tr>", prints.key(student, sheet))
    table = key_rows(student, sheet)
    assert len(rows) == len(table) == len(working.steps)
    ends = sorted(f"{float(lo):.5e} {float(hi):.5e}" for *_, lo, hi, _ in table if lo != "")
    assert ends == sorted(" ".join(f"{number(e):.5e}" for e in shown.split(" to ")) for _, _, shown in rows if shown)
    labels = sorted(label for step in working.steps for key, label, _ in step.choices if key == working.value(step.id))
    assert [v for v in labels if html.escape(v) not in [value for _, value, _ in rows]] == []


def number(shown: str) -> float:
    """A number as it is printed, read back."""
    mantissa, _, power = shown.replace("−", "-").partition(" × 10")
    return float(mantissa) * 10.0 ** int(power.translate(str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")) or 0)


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_the_worked_key_has_every_line(slug):
    student, codes = CLASS.codes()[0]
    sheet = open_code(str(next(code for task, code in codes if task.kind.slug == slug)))
    working, page = sheet.working, prints.worked(student, sheet)
    seen, known = Look(page), working.all_values()
    for step in working.steps:
        assert set_out(step.line(known, working.givens)) in page
    assert seen.tags["input"] == seen.tags["select"] == 0


def test_code_strips_hold_name_and_codes_and_addresses():
    seen = Look(whole("slips.html"))
    student, codes = CLASS.codes()[2]
    for set_, code in codes:
        assert f"https://saltmarsh.example/exercises/{set_.kind.slug}/?code={code}" in seen.text


@pytest.mark.parametrize("css", ["</style><script>", "@import 'x'", "a { background: url (x) }"])
def test_a_style_that_is_not_self_contained_is_refused(css):
    with pytest.raises(ValueError):
        paper.head("Sheets", css)
