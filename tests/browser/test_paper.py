"""What goes on paper for a class, printed by Chromium on A4 and on US Letter and read back from the PDF."""

import io
import re

import pypdf
import pytest

from exercises.classroom.class_list import paper as paper_file
from exercises.classroom.class_list.class_file import make, task
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.packs import EXAMINATION, PACKS
from exercises.classroom.class_list.roster import Student
from exercises.classroom.examination.ready_page import ready_html
from exercises.classroom.report import student_pages
from exercises.codes.sheet_code import Setting, Station
from exercises.kinds.kind import all_kinds
from generator.build.font import NAME
from generator.build.paper_style import paper_style
from tests.exercises.classwork import handed, marked

#: All that makes a sheet long: the most distances, the longest rule of 2l, the longest name of a place.
LONG = Setting("five-sixths", Station(16, 2027, 9), 120, distances=8, scale_step=0.5)
STUDENT = Student("2027-PHY-0031", "Ringed Plover", "B")
CLASS = make(
    [STUDENT],
    "sand and salt water",
    [task(slug, LONG) for slug in all_kinds()],
    "https://physics.saltmarsh-college.example/practical/eight-readings/",
    heading=Heading("Saltmarsh College, Department of Physics", "Practical course II", "Room 3", "26 November 2026"),
)
[(_, ASSIGNED)] = CLASS.codes()
KINDS = tuple(all_kinds())
CODES = [str(code) for _, code in ASSIGNED]
#: Paper with margins of 20 mm, the widest that are usual, and the width between them in CSS pixels.
PAPERS = {"A4": 642, "Letter": 665}
WIDE = "@media print { @page { margin: 20mm !important; } }"
#: A mark at the top and at the bottom of each answer, so that the PDF shows whether it was split.
MARK = """() => {
    const answers = ".er-entry:not(td), .er-book [role=row]:has(th[scope=row]), .cl-room div, .ex-viva li, .ex-marks tr"
        + ", .cl-strip, .cl-steps tr, .mk-groups tr, .mk-again li, .er-working li, .ex-list tbody tr, .ex-declared";
    const found = [...document.querySelectorAll(answers)];
    found.forEach((answer, n) => {
        answer.style.position = "relative";
        for (const [side, end] of [["A", "top"], ["Z", "bottom"]]) {
            const mark = document.createElement("i");
            mark.textContent = `q${side}${n}q`;
            mark.style.cssText = `position: absolute; left: 0; ${end}: 0; font: 2px monospace; line-height: 1;`;
            answer.append(mark);
        }
    });
    return found.length;
}"""


def printed(page, html: str, paper: str) -> list[str]:
    """The text of each page of paper; nothing is wider than the paper, and no answer is split between two pages."""
    page.set_viewport_size({"width": PAPERS[paper], "height": 1000})
    page.set_content(html)
    page.add_style_tag(content=WIDE)
    page.emulate_media(media="print")
    assert page.evaluate("document.documentElement.scrollWidth") <= PAPERS[paper]
    answers = page.evaluate(MARK)
    pdf = page.pdf(prefer_css_page_size=True, format=paper)
    texts = [one.extract_text() for one in pypdf.PdfReader(io.BytesIO(pdf)).pages]
    begun, ended = ([re.findall(f"q{side}([0-9]+)q", text) for text in texts] for side in "AZ")
    assert sorted(int(n) for found in begun for n in found) == list(range(answers))
    assert begun == ended or [set(found) for found in begun] == [set(found) for found in ended]
    return texts


def whole(name: str, slugs=KINDS) -> str:
    pack = (PACKS | EXAMINATION)[name]
    assigned = [one for one in ASSIGNED if one[0].kind.slug in slugs]
    return pack.head(CLASS, paper_style()) + pack.piece(CLASS, STUDENT, assigned) + pack.foot


@pytest.fixture(scope="module")
def sheet_of_paper(browser):
    page = browser.new_page()
    yield page
    page.close()


def owned(texts: list[str]) -> None:
    """Every page says whose it is, of which class, and which code it goes with."""
    for text in texts:
        assert STUDENT.roll in text and STUDENT.name in text and "section B" in text
        assert any(code in text for code in CODES)
        assert "Practical course II" in text and "26 November 2026" in text


@pytest.mark.parametrize("paper", PAPERS)
def test_every_sheet_fits_and_each_of_its_pages_is_owned(sheet_of_paper, paper):
    texts = printed(sheet_of_paper, whole("sheets.html"), paper)
    owned(texts)
    assert [sum(code in text for code in CODES) for text in texts] == [1] * len(texts)
    assert all(sum(code in text for text in texts) <= 2 for code in CODES)
    assert all(sum(f"{code}" in text and "Marks" in text for text in texts) == 1 for code in CODES)


@pytest.mark.parametrize("name", ["key.html", "working.html", "examination.html", "examiner.html"])
def test_key_working_and_examination_fit_too(sheet_of_paper, name):
    owned(printed(sheet_of_paper, whole(name, ("tan-a", "setting", "uncertainty")), "Letter"))


def test_what_is_given_back_and_cut_fits_too(sheet_of_paper):
    marks = [marked(handed(CLASS, 0, which=at), CLASS.scheme) for at in (0, 2)]
    pages = "".join(student_pages.page(one, CLASS) for one in marks)
    owned(printed(sheet_of_paper, student_pages.head(paper_style()) + pages + paper_file.FOOT, "Letter"))
    strips = printed(sheet_of_paper, whole("slips.html"), "Letter")
    for code in CODES:  # neither the code nor the one in its address is broken
        assert sum(len(re.findall(code, text)) for text in strips) == 2
    shares = {STUDENT.roll: dict.fromkeys(KINDS, 1.0)}
    (ready,) = printed(sheet_of_paper, ready_html(CLASS, shares, paper_style()), "Letter")
    assert "Implanted devices" in ready and "Countersigned" in ready and ready.count(STUDENT.roll) == 2


def test_the_formulas_have_their_own_font(sheet_of_paper):
    sheet_of_paper.set_content(whole("sheets.html", ("tan-a",)))
    pdf = pypdf.PdfReader(io.BytesIO(sheet_of_paper.pdf(format="A4", page_ranges="1")))
    fonts = {font.get_object()["/BaseFont"] for font in pdf.pages[0]["/Resources"]["/Font"].values()}
    assert any(name.endswith(NAME.replace(" ", "")) for name in fonts), fonts
