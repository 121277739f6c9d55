"""What is typed in amends what came in, step by step, whichever attempt is marked; every change is seen."""

import json

from exercises.classroom.class_list.class_file import class_text
from exercises.classroom.desk import classes, returned
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.marking.typed_in import typed_in
from exercises.classroom.report.student_pages import page
from exercises.return_slip.lines import ReturnSlip
from exercises.return_slip.text import return_slip_text
from tests.exercises.classwork import a_class, code_of, right

MADE = a_class(2, ("tan-a",))
CODE = str(code_of(MADE, 0))
RIGHT = right(CODE)
SLIP = ReturnSlip("S01", CODE, {**RIGHT, "tan-1": "9"}, {"tan-1": "8", "mean-1": "1"}, "mail.txt")


def table(*rows):
    slips, problems = typed_in("roll,kind,step,answer\n" + "\n".join(rows), MADE, "paper.csv")
    return slips, problems


def marked(*slips, scheme=Scheme()):
    marking = ClassMarking(take_in(MADE, slips), scheme)
    ((_, sheet),) = marking.marked_up_to()
    return sheet


def test_one_answer_changes_one_step():
    typed, problems = table(f"S01,tan-a,tan-1,{RIGHT['tan-1']}")
    assert not problems
    for order in ((SLIP, *typed), (*typed, SLIP)):  # whichever was read first
        (handed,) = take_in(MADE, order).handed
        assert handed.return_slip.answers == RIGHT and handed.return_slip.firsts == {"mean-1": "1"}
        assert handed.notes == (
            f"Typed in by the instructor (paper.csv): tan-1 “{RIGHT['tan-1']}” in place of “9”, where “8” was typed "
            "first.",
        )
    for attempt, lost in (("first", 1), ("last", 0)):
        sheet = marked(SLIP, *typed, scheme=Scheme(attempt=attempt))
        wrong = [mark.step.id for mark in sheet.steps if mark.verdict.state not in ("right", "follows")]
        assert wrong == ["mean-1"][:lost]
    html = page(sheet, MADE)
    assert html.count("<small>typed in by the instructor</small>") == 1 and "Typed in by the instructor (" in html


def test_what_is_typed_in_later_goes_before_and_can_take_out():
    one, _ = table("S01,tan-a,tan-1,2", "S01,tan-a,mean-2,")  # a blank cell changes nothing
    out = ReturnSlip("S01", CODE, {"tan-1": "", "pole": ""}, {}, "Typed in: S01", by_hand=True)
    (handed,) = take_in(MADE, (SLIP, *one, out)).handed
    assert handed.return_slip.answers == {k: v for k, v in RIGHT.items() if k not in ("tan-1", "pole")}
    assert handed.notes == (
        "Typed in by the instructor (paper.csv, Typed in: S01): tan-1 taken out, where “9” stood; "
        f"pole taken out, where “{RIGHT['pole']}” stood.",
    )
    (handed,) = take_in(MADE, (ReturnSlip("S01", CODE, {"mean-1": "1"}, {}), *table("S01,tan-a,pole,7")[0])).handed
    assert handed.notes == ("Typed in by the instructor (paper.csv): pole “7”, which was blank.",)
    # what is the same as came in changes nothing, and is not said
    same = table(f"S01,tan-a,mean-2,{RIGHT['mean-2']}")[0]
    assert take_in(MADE, (SLIP, *same)).handed[0].notes == ()


def test_a_sheet_may_be_typed_in_as_a_whole():
    typed, _ = table("S01,tan-a,tan-1,2", "S01,tan-a,pole,3")
    intake = take_in(MADE, typed)
    (handed,) = intake.handed
    assert handed.notes == ("All of it was typed in by the instructor (paper.csv).",)
    assert handed.return_slip.answers == {"tan-1": "2", "pole": "3"} and len(intake.missing) == 1


def test_it_goes_to_whichever_slip_counts():
    half = ReturnSlip("S01", CODE, {"mean-1": "1"}, {}, "half.txt")
    typed, _ = table(f"S01,tan-a,tan-1,{RIGHT['tan-1']}")
    scheme = Scheme(which="best", attempt="last")
    made = a_class(2, ("tan-a",), scheme)
    marking = ClassMarking(take_in(made, (half, SLIP, *typed)), scheme)
    ((_, sheet),) = marking.marked_up_to()
    assert sheet.handed.return_slip.answers == RIGHT and sheet.earned == sheet.possible
    assert any("Typed in by the instructor" in note for note in sheet.handed.notes)


def test_a_misspelt_step_is_named_with_the_nearest_and_no_value_is_blamed():
    typed, problems = table("S01,tan-a,bracket-l,4.8e-4", "S01,tan-a,zz,1")
    assert not typed
    assert [p.text for p in problems] == [
        "The answer in this line was not used, for this sheet has no step “bracket-l”; the nearest is bracket-1. Mend "
        "the name.",
        "The answer in this line was not used, for this sheet has no step “zz”. Mend the name.",
    ]
    assert problems[0].slip.answers == {"bracket-l": "4.8e-4"}  # nothing typed is lost


def test_the_sheet_of_one_student_under_the_roll_of_another():
    typed, _ = typed_in(f"roll,code,step,answer\nS02,{CODE},tan-1,2", MADE, "paper.csv")
    intake = take_in(MADE, (SLIP, *typed))
    assert intake.handed[0].return_slip == SLIP
    assert "for roll S02 (Sanderling), so it is used for neither. Mend the roll or the code." in intake.problems[0].text


def test_the_form_of_the_desk_shows_what_is_there():
    session = json.loads(classes.open_file(class_text(MADE)))["session"]
    found = json.loads(returned.return_slips_of_text(session, "mail.txt", return_slip_text(SLIP)))
    work = json.loads(returned.take_in(session, json.dumps(found)))["work"]
    form = json.loads(returned.paper(session, "S01", "tan-a", work))
    assert form["now"] == SLIP.answers
    assert 'name="tan-1" type="text" value="9"' in form["html"] and "first: <bdi>8</bdi>" in form["html"]
    assert f"the {len(SLIP.answers)} answers that came in (mail.txt)" in form["html"]
    blank = json.loads(returned.paper(session, "S02", "tan-a", work))
    assert blank["now"] == {} and "Nothing has come in for this sheet yet." in blank["html"]
    said = json.loads(returned.from_paper(session, "S01", "tan-a", json.dumps({"tan-1": "2 ", "pole": " "})))
    assert said["slips"][0]["answers"] == {"tan-1": "2", "pole": ""} and said["slips"][0]["by_hand"]
    both = {"slips": found["slips"] + said["slips"], "problems": []}
    work = json.loads(returned.take_in(session, json.dumps(both)))["work"]
    assert json.loads(returned.paper(session, "S01", "tan-a", work))["now"]["tan-1"] == "2"
