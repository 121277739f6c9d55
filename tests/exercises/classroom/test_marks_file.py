"""The marks file: what came in is kept whole, once each; what it does not fit is refused with what differs."""

import dataclasses
import json

import pytest

from exercises.classroom.class_list.class_file import class_text, make, task
from exercises.classroom.class_list.fingerprint import differences, fingerprint_of
from exercises.classroom.class_list.roster import Student
from exercises.classroom.class_list.set_again import set_again
from exercises.classroom.desk import by_hand as desk_by_hand
from exercises.classroom.desk import classes as desk
from exercises.classroom.desk import marks as desk_marks
from exercises.classroom.desk import marks_file as desk_marks_file
from exercises.classroom.desk import returned as desk_returned
from exercises.classroom.marking.by_hand import ByHand, ByHandError, Correction, Counted, DaysLate, Excused, checked
from exercises.classroom.marking.marks_file import MarksFileError, begun, joined, marks_text, read_marks
from exercises.classroom.marking.scheme import Scheme
from exercises.codes.sheet_code import Setting
from exercises.return_slip.lines import Problem, ReturnSlip
from tests.exercises.classwork import a_class, code_of, right

MADE = a_class(3, ("tan-a", "law"), Scheme(out_of=10))
SLIPS = [
    ReturnSlip("S01", str(code_of(MADE, 0)), {"mean-1": "45.2°"}, {"mean-1": "44"}, "a.txt", 2, "2026-11-20 16:59"),
    ReturnSlip("S02", str(code_of(MADE, 1, 1)), {"tan-1": "=1+1"}, {}, "b.eml", mailed="2026-11-20 16:59:01"),
]
BY_HAND = ByHand(
    (
        Correction("S01", "tan-a", "pole", 0.5, "The paper has it."),
        DaysLate("S01", "tan-a", 2),
        Excused("S03"),
        Counted("RECORD S01", "last"),
    )
)
PROBLEM = Problem("c.txt", "", "", "It is empty.")


def file():
    whole, _ = joined(dataclasses.replace(begun(MADE), by_hand=BY_HAND), SLIPS, [PROBLEM])
    return whole


def test_it_comes_back_whole_and_has_one_slip_a_line():
    text = marks_text(file())
    again = read_marks(text, MADE)
    assert again == file() and [s.source for s in again.slips] == ["a.txt", "b.eml"] and marks_text(again) == text
    assert sum('"answers"' in line for line in text.splitlines()) == 2 and MADE.phrase not in text


def test_what_comes_again_is_not_put_in_again_and_what_is_new_or_amended_is_counted():
    amended = dataclasses.replace(SLIPS[0], answers={"mean-1": "46"}, number=3, source="d.txt")
    new = ReturnSlip("S03", str(code_of(MADE, 2)), {}, {}, "e.txt")
    again, gained = joined(file(), [dataclasses.replace(SLIPS[1], source="elsewhere.txt"), amended, new], [])
    assert (gained.new, gained.amended, gained.same) == (1, 1, 1) and again.slips == (*SLIPS, amended, new)
    assert gained.text == "Of what came in, 1 sheet is new, 1 sheet is amended and 1 sheet is the same as before."
    assert joined(file(), [], [])[1].text == "" and joined(file(), [], [])[0] == file()


def test_a_problem_gives_way_to_what_came_from_the_same_source():
    mended = dataclasses.replace(SLIPS[0], source="c.txt", number=4)
    assert joined(file(), [mended], [])[0].problems == ()
    other = Problem("f.txt", "", "", "It is a picture.")
    assert joined(file(), [], [other])[0].problems == (other, PROBLEM)  # the new one first
    broken = dataclasses.replace(PROBLEM, source="g.txt", code=SLIPS[0].code.lower())
    sent_again = dataclasses.replace(SLIPS[0], source="h.txt", number=4)
    again, _ = joined(file(), [], [broken])
    assert joined(again, [sent_again], [])[0].problems == (PROBLEM,)
    assert joined(again, [SLIPS[0]], [])[0].problems == (broken, PROBLEM)  # what was there before mends nothing


@pytest.mark.parametrize(
    "change, said",
    [
        ({"phrase": "Sand and salt water"}, ["The class phrase is another."]),
        ({"students": MADE.students[1:]}, ["1 student of before is not in it: S01."]),
        ({"tasks": MADE.tasks[:1]}, ["law is not set any more."]),
        (
            {"tasks": (task("tan-a", Setting(length_mm=80)), task("law", Setting(length_mm=80)))},
            ["tan-a and law: the length was open and is 80 mm."],
        ),
        (
            {"tasks": (task("tan-a", Setting(length_mm=80)), MADE.tasks[1])},
            ["tan-a: the length was open and is 80 mm."],
        ),
        ({"students": (*MADE.students, Student("S04"))}, []),
        ({"tasks": (*MADE.tasks, task("dial"))}, []),
        ({"site": "", "scheme": Scheme()}, []),
    ],
)
def test_what_makes_another_class(change, said):
    other = dataclasses.replace(MADE, **change)
    assert list(differences(fingerprint_of(MADE), fingerprint_of(other))) == said
    if said:
        with pytest.raises(MarksFileError) as error:
            read_marks(marks_text(file()), other)
        assert str(error.value) == f"This marks file is of another class. {' '.join(said)}"
    else:
        assert read_marks(marks_text(file()), other).slips == file().slips


@pytest.mark.parametrize(
    "text, said",
    [
        ("", "is empty"),
        ("[]", "not a marks file"),
        ("{", "damaged near line 1"),
        ("[" * 100_000, "not a marks file"),
        ('{"answer": 1}', "has “answer”, which is not known here. There can be: about, class, marks, corrections"),
    ],
)
def test_what_is_no_marks_file(text, said):
    with pytest.raises(MarksFileError, match=None) as error:
        read_marks(text, MADE)
    assert said in str(error.value) and str(error.value).endswith(".")


@pytest.mark.parametrize(
    "key, change, said",
    [
        ("slips", [{"who": 1, "code": "A", "answers": {}}], "not a marks file"),
        ("slips", [{"who": "1", "code": "A", "answers": {"x": 1}}], "not a marks file"),
        ("slips", [{"who": "1", "code": "A", "answers": {}, "written": "yesterday"}], "not a marks file"),
        ("slips", [{"who": "1", "code": "A", "answers": {}, "mailed": "2026-13-40 00:00:00"}], "not a marks file"),
        (
            "slips",
            [{"who": "1", "code": "A", "answers": {}, "anwser": {}}],
            "Line 1 of “slips” in this marks file has “anwser”",
        ),
        ("marks", {"late": 2}, "The scheme in this marks file cannot be used"),
        ("excused", [{"roll": "S09"}], "No student of this class has the roll “S09”"),
        ("corrections", [{"roll": "S01", "kind": "tan-a", "step": "x", "mark": 1, "reason": "y"}], "no step “x”"),
        ("late", [{"roll": "S01", "kind": "tan-a", "days": 1.5}], "not a marks file"),
    ],
)
def test_what_was_mended_by_hand_and_does_not_fit(key, change, said):
    found = json.loads(marks_text(file()))
    with pytest.raises(MarksFileError) as error:
        read_marks(json.dumps({**found, key: change}), MADE)
    assert said in str(error.value)


def test_a_roll_by_hand_is_found_as_it_stands_in_the_class_and_the_last_word_counts():
    (one,) = checked([Excused("s01")], MADE)
    assert one.roll == "S01"
    twice = ByHand().plus(DaysLate("S01", "law", 1)).plus(DaysLate("S01", "law", 2)).plus(DaysLate("S01", "law", 3, 2))
    assert [late.days for late in twice.entries] == [2, 3] and twice.minus(DaysLate("S01", "law", 0)).entries == (
        DaysLate("S01", "law", 3, 2),
    )
    with pytest.raises(ByHandError, match="was not set attempt 2 of law"):
        checked([DaysLate("S01", "law", 3, 2)], MADE)
    assert checked([DaysLate("S01", "law", 3, 2)], set_again(MADE, 2))


def ask(function, *arguments, ok=True):
    said = json.loads(function(*arguments))
    assert said["ok"] is ok, said
    return said


def test_the_desk_opens_joins_and_saves_it():
    session = ask(desk.open_file, class_text(MADE))["session"]
    text = marks_text(dataclasses.replace(file(), scheme=Scheme(out_of=20)))
    opened = ask(desk_marks_file.open_file, session, text)
    assert (
        opened["marks"]["out_of"] == 20
        and opened["slips"] == 2
        and "2 slips and 4 things set by hand" in opened["says"]
    )
    nothing = json.dumps({"slips": [], "problems": []})
    taken = ask(desk_returned.take_in, opened["session"], nothing, opened["file"], opened["by_hand"])
    assert taken["handed"] == 2 and ask(desk_marks.part, taken["work"], "marks.json", 0, 1)["text"] == text
    again = json.dumps({"slips": [vars(slip) for slip in SLIPS], "problems": []})
    taken = ask(desk_returned.take_in, opened["session"], again, opened["file"], opened["by_hand"])
    assert taken["gained"] == "Of what came in, 2 sheets are the same as before."
    other = ask(desk.open_file, class_text(dataclasses.replace(MADE, phrase="Sand and salt water")))["session"]
    refused = ask(desk_marks_file.open_file, other, text, ok=False)
    assert refused["control"] == "marks-file" and "The class phrase is another." in refused["text"]


def test_the_desk_sets_marks_by_hand():
    session = ask(desk.open_file, class_text(MADE))["session"]
    whole = {"slips": [{**vars(SLIPS[0]), "answers": right(code_of(MADE, 0)), "firsts": {}}], "problems": []}
    work = ask(desk_returned.take_in, session, json.dumps(whole))["work"]
    html = ask(desk_by_hand.form, work, "S01", "tan-a")["html"]
    assert 'name="mark pole" value=""' in html and "1 / 1" in html
    assert "not handed in" in ask(desk_by_hand.form, work, "S02", "tan-a")["html"]
    controls = {"mark pole": "0", "why": "", "days": "", "excuse": ""}
    assert "Say why" in ask(desk_by_hand.put, work, "S01", "tan-a:1", json.dumps(controls), ok=False)["text"]
    set_now = ask(desk_by_hand.put, work, "S01", "tan-a:1", json.dumps({**controls, "why": "Copied", "days": "1"}))
    kept = json.loads(set_now["by_hand"])
    assert kept["corrections"] == [{"roll": "S01", "kind": "tan-a", "step": "pole", "mark": 0.0, "reason": "Copied"}]
    assert kept["late"] == [{"roll": "S01", "kind": "tan-a", "days": 1}] and not kept["excused"]
    assert "Copied" in ask(desk_marks.part, set_now["work"], "students.html", 0, 9)["text"]
    again = ask(desk_returned.take_in, session, json.dumps(whole), "", set_now["by_hand"])["work"]
    texts = [ask(desk_marks.part, one, "marks.csv", 0, 1)["text"] for one in (again, set_now["work"])]
    assert texts[0] == texts[1] and "Copied" in texts[0]
    back = ask(desk_by_hand.put, again, "S01", "tan-a:1", json.dumps({"mark pole": "", "days": "", "excused": "on"}))
    kept = json.loads(back["by_hand"])
    assert not kept["corrections"] and not kept["late"] and kept["excused"] == [{"roll": "S01", "kind": "tan-a"}]


def test_a_class_without_students_in_common_is_named_shortly():
    other = make([Student(str(n)) for n in range(20)], MADE.phrase, MADE.tasks)
    (told,) = differences(fingerprint_of(other), fingerprint_of(MADE))
    assert told == "20 students of before are not in it: 0, 1, 2, 3, 4, …."


def test_what_is_typed_in_again_counts_as_typed_now():
    """45, then 46, then 45 again: the last word is 45."""
    typed = [ReturnSlip("S01", SLIPS[0].code, {"mean-1": text}, {}, "t.csv", by_hand=True) for text in ("45", "46")]
    whole = file()
    for slip in (*typed, typed[0]):
        whole, gained = joined(whole, [slip], [])
        assert gained.amended == 1
    assert whole.slips == (*SLIPS, typed[1], typed[0]) and joined(whole, [typed[0]], [])[1].same == 1


def test_the_date_of_a_mail_is_learned_from_a_slip_that_came_without():
    mailed = dataclasses.replace(SLIPS[0], mailed="2026-11-20 16:58:00")
    whole, gained = joined(file(), [mailed], [])
    assert [slip.mailed for slip in whole.slips] == ["", SLIPS[1].mailed, mailed.mailed] and gained.amended == 1
    assert joined(whole, [mailed], [])[0] == whole


def test_records_of_two_students_are_two_though_their_codes_are_one():
    records = [ReturnSlip(who, "RECORD", {"d-1": "20"}, {}, "r.txt") for who in ("S01", "S02")]
    assert joined(file(), records, [])[1].new == 2


def test_a_problem_of_another_file_of_the_same_name_stays_and_one_of_a_table_that_was_mended_goes():
    other = Problem("c.txt", "S03", "", "Line 4 is missing.")
    line = Problem("t.csv, line 5", "S77", "", "There is no such roll.")
    whole, _ = joined(file(), [], [other, line])
    again, _ = joined(whole, [dataclasses.replace(SLIPS[0], source="c.txt", number=4)], [])
    assert again.problems == (other, line)
    table = ReturnSlip("S02", SLIPS[1].code, {"tan-1": "1"}, {}, "t.csv", by_hand=True)
    assert line not in joined(whole, [table], [])[0].problems


def test_a_key_that_is_there_twice_is_refused():
    """As of two marks files that were put together by hand: the slips of the former would be lost."""
    text = marks_text(file()).replace('"problems": [', '"slips": [],\n  "problems": [')
    with pytest.raises(MarksFileError, match="“slips” twice"):
        read_marks(text, MADE)
    for wrong in ({"by_hand": "no"}, {"number": -1}, {"answers": ["x"]}):
        bad = json.loads(marks_text(file()))
        bad["slips"][0] |= wrong
        with pytest.raises(MarksFileError, match="was damaged"):
            read_marks(json.dumps(bad), MADE)


def test_on_the_desk_one_excuse_is_taken_back_and_what_the_form_does_not_show_stays():
    by_hand = ByHand((Excused("S02", "", "Ill"), DaysLate("S02", "law", 2)))
    file_text = marks_text(dataclasses.replace(file(), by_hand=by_hand))
    session = ask(desk.open_file, class_text(MADE))["session"]
    assert "otherwise" not in ask(desk_marks_file.open_file, session, file_text)["says"]
    file_text = file_text.replace('"late": 0,', '"late": 0.1,')
    opened = ask(desk_marks_file.open_file, session, file_text)
    assert "How it is marked stood otherwise in the class file; the marks file counts." in opened["says"]
    whole = json.dumps({"slips": [], "problems": []})
    work = ask(desk_returned.take_in, opened["session"], whole, opened["file"], opened["by_hand"])["work"]
    kept = json.loads(ask(desk_by_hand.put, work, "S02", "tan-a:1", json.dumps({"excuse": ""}))["by_hand"])
    assert kept["excused"] == [{"roll": "S02", "kind": "law", "reason": "Ill"}] and len(kept["late"]) == 1
