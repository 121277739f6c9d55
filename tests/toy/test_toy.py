"""A kind is added without an edit anywhere else: a toy kind goes through all that the other kinds go through.

Its folder, its page and its examples are beside this file.  The only thing done
to the project is what a copy of them into its rooms would do: the packages
exercises.kinds and generator.examples look here too while these tests run.
"""

import csv
import dataclasses
import io
import json
import sys
from pathlib import Path

import pytest

import exercises.kinds
import generator.examples
from exercises.classroom.class_list.class_file import read_class
from exercises.classroom.desk import classes, marks, returned, scheme_form
from exercises.codes.sheet_code import SheetCode, write
from exercises.kinds import kind as kinds
from exercises.return_slip.text import ReturnSlip, return_slip_text, return_slips_in
from exercises.slips.catalogue import Slip, always
from exercises.student import desk as student
from exercises.student import revision
from generator.build.markers import with_html, with_markdown
from generator.commands.command import main
from generator.pages import class_desk, kind_lists
from tests.exercises import approved, edges, golden, written
from tests.exercises.classwork import right, slipped
from tests.exercises.in_words import lines_of

HERE = Path(__file__).parent
LETTER, SLUG = "Y", "toy"
CODE = write(SheetCode(LETTER, 1, 3))
SLIPS = {"toy-sine": "tan", "toy-two-fields": "field"}  # key -> the first step that it changes


def forget() -> None:
    """Empty every cache of the project: all kinds, opened codes, the cards of the drill …"""
    for name, module in list(sys.modules.items()):
        if name.partition(".")[0] in ("exercises", "generator"):
            for thing in list(vars(module).values()):
                if hasattr(thing, "cache_clear"):
                    thing.cache_clear()


@pytest.fixture(scope="module", autouse=True)
def toy():
    """The toy kind, which is there for these tests only."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(exercises.kinds, "__path__", [*exercises.kinds.__path__, str(HERE / "kinds")])
        patch.setattr(generator.examples, "__path__", [*generator.examples.__path__, str(HERE / "examples")])
        forget()
        yield kinds.all_kinds()[SLUG]
    for name in [n for n in sys.modules if n.startswith(("exercises.kinds.toy", "generator.examples.toy"))]:
        del sys.modules[name]
    del exercises.kinds.toy
    forget()


@pytest.fixture(scope="module")
def kept(toy, tmp_path_factory):
    """The folder of golden codes as `tests.keep` writes it for the toy kind; its codes are among the golden ones."""
    folder = tmp_path_factory.mktemp("golden")
    assert golden.keep(toy, folder=folder) and edges.keep(toy, path=folder / "edges.json")
    before = list(golden.GOLDEN)
    golden.GOLDEN += golden.kept(folder)
    yield folder
    golden.GOLDEN[:] = before


def asked(answer: str) -> dict:
    return json.loads(answer)


def test_the_kind_is_found_and_its_code_opens(toy):
    assert (toy.letter, toy.slug) == (LETTER, SLUG) and list(kinds.all_kinds())[-1] == SLUG
    sheet = kinds.open_code(CODE)
    assert sheet.kind is toy and str(sheet.scenario.code) == CODE
    fresh = asked(student.fresh(SLUG, "12ab"))["code"]
    assert fresh.startswith(LETTER) and kinds.open_code(fresh).kind is toy


def test_its_letter_was_free_before_and_is_taken_now():
    """The toy has the last letter: a new kind takes any other. Whoever wants the last gives the toy another."""
    letters = "".join(kind.letter for kind in kinds.all_kinds().values())
    assert LETTER not in kinds.free_letters(letters) and kinds.free_letters(letters.replace(LETTER, ""))[-1] == LETTER


def test_two_kinds_of_one_letter_are_refused_with_the_letters_that_are_free(tmp_path, monkeypatch):
    (tmp_path / "second").mkdir()
    (tmp_path / "second" / "__init__.py").write_text("")
    (tmp_path / "second" / "kind.py").write_text("from exercises.kinds.toy.kind import KIND\n")
    with monkeypatch.context() as patch:
        patch.setattr(exercises.kinds, "__path__", [*exercises.kinds.__path__, str(tmp_path)])
        kinds.all_kinds.cache_clear()
        with pytest.raises(ValueError, match=r"Y \(toy\), Y \(toy\)\. Free letters: [A-X]+\."):
            kinds.all_kinds()
    kinds.all_kinds.cache_clear()


def test_the_sheet_its_hints_and_its_working():
    html = asked(student.open_sheet(SLUG, CODE))["html"]
    assert 'name="tan"' in html and 'name="field"' in html and f"Sheet <strong>{CODE}</strong>" in html
    hints = [asked(student.hint(CODE, "tan", n)) for n in range(3)]
    assert [hint["left"] for hint in hints] == [1, 0, 0] and hints[0]["read"] == "exercises/toy/#the-tangent"
    assert any("tanθ" in line for line in lines_of(asked(student.solution(CODE))["html"]))
    assert "another exercise" in asked(student.open_sheet("tan-a", CODE))["text"]


def test_right_answers_are_right_and_each_slip_is_named(toy):
    said = asked(student.check(CODE, json.dumps(right(CODE))))
    assert said["right"] == said["steps"] == 2
    for slip in toy.slips:
        verdict = asked(student.check(CODE, json.dumps(slipped(CODE, slip.key))))["verdicts"][SLIPS[slip.key]]
        assert (verdict["state"], verdict["read"]) == ("slip", slip.read) and slip.says in verdict["text"]


def test_the_examiner_asks_about_it():
    assert f"{SLUG}/field" in revision.question_keys()
    question = revision.question(f"{SLUG}/field", 5)
    assert question["code"].startswith(LETTER) and question["step"] == "field"


def test_a_return_slip_comes_back_as_it_was():
    made = asked(student.return_slip(CODE, "S01", json.dumps(right(CODE)), "{}"))
    found, problems = return_slips_in(made["text"], "mail")
    assert made["ok"] and not problems and (found[0].code, found[0].answers) == (CODE, right(CODE))


def test_pages_lists_and_examples_have_it():
    page = with_html((HERE / "content" / "exercises" / "toy.md").read_text())
    assert 'data-kind="toy"' in page and "The answers to this sheet" in page
    example = with_markdown((HERE / "content" / "examples" / "toy-1.md").read_text())
    assert "## Every step" in example and f"[type the steps of this one](../exercises/toy.md?code={CODE})" in example
    assert "A needle, turned by" in with_html(example)
    assert "| [A toy](toy.md) | the field from one deflection |" in kind_lists.exercises()
    assert "| A toy | [one](toy-1.md), [two](toy-2.md) |" in kind_lists.examples()
    assert "| A toy (`toy`) | tan θ, B | 2 | nothing: it is a toy |" in kind_lists.readme()
    assert "      - A toy:\n          - examples/toy-1.md\n" in kind_lists.navigation_of_examples()
    lines = kind_lists.navigation_of_exercises().splitlines()
    assert lines.index("      - exercises/toy.md") == 1  # between tan A and tan B, as its order says
    assert class_desk.class_desk().count('name="kind" value="toy"') == 1


def test_what_a_slip_says_can_be_read_about(toy):
    headings = (HERE / "content" / "exercises" / "toy.md").read_text()
    for slip in toy.slips:
        page, anchor = slip.read.split("#")
        assert page == "exercises/toy/" and f"{{ #{anchor} }}" in headings


@pytest.fixture
def here(tmp_path):
    """A class of three with tan A and the toy, made by the command; two have handed in the toy."""
    (tmp_path / "roster.csv").write_text("roll,name\nS01,Knot\nS02,Ruff\nS03,Avocet\n")
    arguments = ["--phrase", "sand and salt water", "--kinds", "toy,tan-a", "--out", str(tmp_path / "class")]
    assert main(["class", str(tmp_path / "roster.csv"), *arguments]) == 0
    made = read_class((tmp_path / "class" / "class.json").read_text())
    codes = {student.roll: str(given[0][1]) for student, given in made.codes()}
    slips = [
        ReturnSlip("S01", codes["S01"], right(codes["S01"]), {}),
        ReturnSlip("S02", codes["S02"], slipped(codes["S02"], "toy-sine"), {}),
    ]
    (tmp_path / "returned").mkdir()
    (tmp_path / "returned" / "mail.txt").write_text("\n".join(map(return_slip_text, slips)))
    return tmp_path


def test_a_class_is_given_it_marked_and_reported(here, capsys):
    key = list(csv.DictReader(io.StringIO((here / "class" / "key.csv").read_text(encoding="utf-8-sig"))))
    assert sum(row["code"][0] == LETTER for row in key) == 3 * 2
    for name in ("sheets.html", "slips.html", "key.html", "working.html"):
        assert (
            f">{LETTER}3" in (here / "class" / name).read_text()
            or f"{LETTER}322" in (here / "class" / name).read_text()
        )
    arguments = ["--class", str(here / "class" / "class.json"), "--out", str(here / "marks"), "--mark", "toy/field=2"]
    assert main(["mark", str(here / "returned"), *arguments]) == 0
    assert "A toy: the field from one deflection: 2 of 3 handed in" in capsys.readouterr().out
    rows = list(csv.DictReader(io.StringIO((here / "marks" / "marks.csv").read_text(encoding="utf-8-sig"))))
    assert rows[0]["toy mark"] == "3" and 0 <= float(rows[1]["toy mark"]) < 3 and rows[2]["toy mark"] == "0"
    assert "sine taken for tangent" in (here / "marks" / "report.html").read_text()
    assert "sin θ where tan θ belongs" in (here / "marks" / "students.html").read_text()


def test_the_class_desk_does_the_same(here):
    text = (here / "class" / "class.json").read_text()
    summary = asked(classes.open_file(text))
    session = summary["session"]
    assert [kind["slug"] for kind in summary["kinds"]] == [SLUG, "tan-a"]
    assert "toy" in scheme_form.form(session)
    slips = returned.return_slips_of_text(session, "mail.txt", (here / "returned" / "mail.txt").read_text())
    taken = asked(returned.take_in(session, slips))
    assert taken["handed"] == 2
    result = asked(marks.result(taken["work"]))
    assert "A toy: the field from one deflection" in result["table"] and "sine taken for tangent" in result["report"]
    assert 'name="field"' in asked(returned.paper(session, "S03", SLUG))["html"]


def test_what_tests_keep_is_written_for_it(kept):
    assert len(golden.codes_of(LETTER)) == 60 and list(json.loads((kept / "edges.json").read_text())) == [SLUG]
    written.keep([SLUG], kept)
    approved.keep([SLUG], kept / "approved")
    assert "-- Work it out" in written.kept(kept / "written.txt")[SLUG]
    assert [line.split(",")[0] for line in written.kept(kept / "slips.txt")[SLUG]] == [
        "toy-sine",
        "toy-sine",
        "toy-two-fields",
    ]
    assert sorted(path.name for path in (kept / "approved").iterdir()) == ["checked-toy.txt", "sheet-toy.txt"]
    assert "toy-sine | tan" in (kept / "approved" / "checked-toy.txt").read_text()


def test_a_slip_is_one_entry_and_its_passage(toy, monkeypatch):
    """One more slip in the catalogue of the kind: it is named, marked and listed, and no code gets other numbers."""
    codes = [write(SheetCode(LETTER, 1, seed)) for seed in range(30)]
    before = [student.numbers(code) for code in codes]
    more = Slip(
        "toy-no-earth",
        "the tangent alone",
        "toy_earth",
        always(lambda B_H: 1e-6),
        "This is tan θ: take it times the earth’s field.",
        "exercises/toy/#the-field",
        since=2,
    )
    richer = dataclasses.replace(toy, slips=(*toy.slips, more))
    monkeypatch.setattr("exercises.kinds.toy.kind.KIND", richer)
    forget()
    try:
        assert [student.numbers(code) for code in codes] == before
        verdict = asked(student.check(CODE, json.dumps(slipped(CODE, more.key))))["verdicts"]["field"]
        assert (verdict["state"], verdict["read"]) == ("slip", more.read) and more.says in verdict["text"]
        assert "| A toy (`toy`) | tan θ, B | 3 |" in kind_lists.readme()
        assert more in kinds.all_kinds()["toy"].slips
    finally:
        monkeypatch.undo()
        forget()
