"""The print packs: whole pages of HTML that fetch nothing, run nothing and show whose they are."""

from collections import Counter
from html.parser import HTMLParser

import pytest

from exercises.classroom import prints
from exercises.classroom.class_file import make
from exercises.classroom.roster import Student
from exercises.kinds import all_kinds, open_code
from exercises.sheet_code import Setting

CSS = ".er-sheet > p { color: var(--er-ink); }"
NASTY = "<script>alert(1)</script> & “Plover”"
CLASS = make(
    (Student("1", NASTY), Student('"><b>2'), Student("3", "علي")),
    "sand and salt water",
    list(all_kinds()),
    Setting(3, 0.5, 5, 80),
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


def pages() -> str:
    body = ""
    for student, codes in CLASS.codes():
        for kind, code in codes:
            _, scenario, working = open_code(str(code))
            body += prints.sheet(student, kind, scenario, working)
    return prints.head("Sheets of a class", CSS) + body + prints.FOOT


def slips() -> str:
    return prints.head("Slips to cut", CSS) + "".join(prints.slip(s, c, CLASS.site) for s, c in CLASS.codes()) + prints.FOOT


@pytest.mark.parametrize("make_page", [pages, slips])
def test_a_page_is_whole_and_fetches_nothing(make_page):
    seen = Look(make_page())
    assert seen.tags["script"] == seen.tags["link"] == seen.tags["img"] == 0
    assert not seen.fetched
    assert seen.tags["style"] == 1 and CSS in seen.text
    assert NASTY in seen.text and '"><b>2' in seen.text and "علي" in seen.text
    for _, codes in CLASS.codes():
        assert all(str(code) in seen.text for _, code in codes)


def test_each_sheet_has_its_page_and_no_two_things_one_id():
    seen = Look(pages())
    assert seen.tags["article"] == len(CLASS.students) * len(CLASS.kinds)
    assert max(seen.ids.values()) == 1
    assert set(seen.fors) <= set(seen.ids)
    assert seen.tags["button"] == seen.tags["select"] == 0


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_there_is_room_to_write_every_answer(slug):
    student, codes = CLASS.codes()[0]
    code = next(code for kind, code in codes if kind.slug == slug)
    kind, scenario, working = open_code(str(code))
    html = prints.sheet(student, kind, scenario, working)
    asked = [s for s in working.steps if not s.choices]
    assert html.count("<input ") == len(asked)
    assert html.count('class="cl-choices"') == len(working.steps) - len(asked)
    seen = Look(html)
    for step in working.steps:
        for _, label, _ in step.choices:
            assert label in seen.text
    assert "choose …" not in seen.text


def test_slips_hold_name_and_codes_and_addresses():
    seen = Look(slips())
    student, codes = CLASS.codes()[2]
    for kind, code in codes:
        assert f"https://saltmarsh.example/exercises/{kind.slug}/?code={code}" in seen.text


@pytest.mark.parametrize("css", ["</style><script>", "@import 'x'", "a { background: url (x) }"])
def test_a_style_that_is_not_self_contained_is_refused(css):
    with pytest.raises(ValueError):
        prints.head("Sheets", css)
