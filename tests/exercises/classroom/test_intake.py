"""Slips are sorted into the class by code and by roll or name; nothing is dropped without a word."""

import time
from dataclasses import replace

import pytest

from exercises.classroom.class_list.class_file import Task, make, task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.intake import Problem, named, strange_steps, take_in
from exercises.classroom.marking.scheme import Scheme
from exercises.codes.sheet_code import SheetCode, write
from exercises.kinds.kind import all_kinds, open_code
from exercises.return_slip.text import ReturnSlip
from tests.exercises.classwork import a_class, marked

PLOVER, SANDERLING, KNOT = Student("7", "Ringed Plover"), Student("08", "Sanderling"), Student("9")
TWIN = Student("11", "Sanderling")
CLASS = make([PLOVER, SANDERLING, KNOT, TWIN], "where the tide turns", [task("tan-a"), task("law")])
CODES = {(s.roll, t.kind.slug): str(code) for s, codes in CLASS.codes() for t, code in codes}
PLOVERS = CODES["7", "tan-a"]


def slip(who, code, source="mail", firsts=None, **answers):
    return ReturnSlip(who, code, {k.replace("_", "-"): v for k, v in answers.items()}, firsts or {}, source)


def one(*slips):
    """The one that counts and the sentences on the others."""
    taken = take_in(CLASS, slips)
    (handed,) = taken.handed
    return handed, taken.problems


def nothing(*slips):
    taken = take_in(CLASS, slips)
    assert taken.handed == ()
    assert len(taken.missing) == 8
    return " ".join(p.text for p in taken.problems)


@pytest.mark.parametrize(
    "who",
    [
        "7",
        " 7 ",
        "７",
        "Ringed Plover",
        "ringed  plover",
        "Plover, Ringed",
        "Roll 7",
        "roll no. 7",
        "7 Ringed Plover",
        "PLOVER RINGED (7)",
        "Ringed\u200b Plover",
    ],
)
def test_a_student_is_known_by_roll_or_name(who):
    handed, problems = one(slip(who, PLOVERS, mean_1="45.2"))
    assert handed.student == PLOVER and handed.task.kind.slug == "tan-a" and str(handed.code) == PLOVERS
    assert handed.notes == () and problems == ()


def test_the_code_may_be_written_in_any_way_that_the_site_reads():
    handed, _ = one(slip("7", PLOVERS.lower().replace("-", " "), mean_1="1"))
    assert str(handed.code) == PLOVERS


def test_what_is_missing_is_told_in_the_order_of_the_list():
    taken = take_in(CLASS, [slip("9", CODES["9", "law"], tan_1="1"), slip("7", PLOVERS, mean_1="1")])
    assert [(h.student.roll, h.task.kind.slug) for h in taken.handed] == [("7", "tan-a"), ("9", "law")]
    assert [(s.roll, t.kind.slug) for s, t in taken.missing] == [
        ("7", "law"),
        ("08", "tan-a"),
        ("08", "law"),
        ("9", "tan-a"),
        ("11", "tan-a"),
        ("11", "law"),
    ]


def test_another_students_sheet_counts_for_neither():
    told = nothing(slip("08", PLOVERS, mean_1="1"), slip("9", PLOVERS, mean_1="1"))
    assert "Roll 08 (Sanderling) handed in the sheet" in told and "which is that of roll 7 (Ringed Plover)" in told


def test_of_two_with_one_name_the_code_tells_which():
    for roll in ("08", "11"):
        handed, problems = one(slip("Sanderling", CODES[roll, "law"], tan_1="1"))
        assert handed.student.roll == roll and handed.notes == () and problems == ()


def test_an_unknown_name_counts_by_its_code_with_a_note():
    handed, problems = one(slip("Pomarine =Skua <b>", PLOVERS, mean_1="1"))
    assert "“Pomarine =Skua <b>”, which is no roll or name of this class" in handed.notes[0]
    assert problems == ()
    # but never instead of one under the right name, whichever came last
    for order in (1, -1):
        both = [slip("7", PLOVERS, mean_1="45"), slip("Skua", PLOVERS, mean_1="46")][::order]
        handed, problems = one(*both)
        assert handed.return_slip.who == "7" and len(problems) == 1
        assert problems[0].slip.answers == {"mean-1": "46"}


def test_codes_that_are_none_of_the_class():
    assert "cannot be used. A character of this code is wrong" in nothing(
        slip("7", PLOVERS[:-1] + ("2" if PLOVERS[-1] != "2" else "3"))
    )
    dial = all_kinds()["dial"]
    assert "which this class was not set" in nothing(
        slip("7", write(SheetCode(dial.letter, dial.edition, 5)), read_1_1="1")
    )
    told = nothing(slip("Ringed Plover", "A3H-222-222", mean_1="1"))
    assert "nobody's in this class" in told and f"The code of roll 7 (Ringed Plover) for tan-a is {PLOVERS}." in told
    former = nothing(slip("7", "A322-2557-87X5", mean_1="1"))
    assert "cannot be used. This is a code of the former layout, with 12 characters" in former
    assert "does not have that edition" in nothing(slip("7", write(SheetCode(dial.letter, 22, 5))))
    assert "cannot be used" in nothing(slip("7", "\0" * 5000))


def test_a_code_of_another_edition_is_said_to_be():
    kind = CLASS.tasks[0].kind
    newer = replace(kind, draws={**kind.draws, kind.edition + 1: kind.draws[kind.edition]})
    later = replace(CLASS, tasks=(Task(newer, newer.edition),))
    (problem,) = take_in(later, [slip("7", PLOVERS, mean_1="1")]).problems
    assert f"numbers of edition {kind.edition}, and this class was set edition {newer.edition} of tan-a" in problem.text


def test_two_slips_for_one_sheet():
    same = [slip("7", PLOVERS, "mail", mean_1="45"), slip("Ringed Plover", PLOVERS, "chat", mean_1="45")]
    handed, problems = one(*same)
    assert handed.notes == ("Slips with the same answers came 2 times for roll 7 (Ringed Plover) for tan-a.",)
    assert problems == ()
    handed, problems = one(
        slip("7", PLOVERS, "monday", mean_1="45", tan_1="1"), slip("7", PLOVERS, "friday", mean_1="46")
    )
    assert handed.return_slip.answers == {"mean-1": "46"}
    # nothing says which is later: nothing is claimed
    assert problems[0].text == (
        "This slip of roll 7 (Ringed Plover) for tan-a, with 2 answers, is not counted: it is not known whether it is "
        "the last one, for neither the slips nor their mails say it. Until you choose, another stands; it may be the "
        "wrong one. Counted is the one from friday (1 answer)."
    )
    assert problems[0].source == "monday"
    assert handed.notes == (
        "1 other slip for this sheet differs from this one and is not counted: monday (2 answers). Which of them is "
        "the last one is not known: neither the slips nor their mails say it. This one stands until the instructor "
        "chooses; it may be the other.",
    )
    for many, end in ((2, "(0 answers); s1 (1 answer)."), (5, "s4 (1 answer)."), (6, "; s4 (1 answer); and more.")):
        others = [slip("7", PLOVERS, f"s{n}", **({"mean_1": str(n)} if n else {})) for n in range(many)]
        handed, problems = one(*others, slip("7", PLOVERS, "last", mean_1="45"))
        (note,) = handed.notes
        assert note.startswith(
            f"{many} other slips for this sheet differ from this one and are not counted: s0 (0 answers)"
        )
        assert end in note
    handed, problems = one(slip("7", PLOVERS, "", mean_1="45"), slip("Skua" * 20, PLOVERS, "late", mean_1="46"))
    assert f"is not counted: it came under “{'Skua' * 15}”, and another under the student’s own" in problems[0].text
    assert "Counted is the one from no named place (1 answer)." in problems[0].text
    assert "came 3 times" in one(*[slip("7", PLOVERS, mean_1="45")] * 3)[0].notes[0]
    # the first attempt is part of what was handed in
    handed, problems = one(slip("7", PLOVERS, mean_1="45", firsts={"mean-1": "44"}), slip("7", PLOVERS, mean_1="45"))
    assert len(problems) == 1


def test_steps_that_the_sheet_does_not_have_are_told():
    handed, _ = one(slip("7", PLOVERS, mean_1="45", mean_99="46", firsts={"zz": "=1+1"}))
    (note,) = strange_steps(handed.return_slip, open_code(PLOVERS).working)
    assert note == (
        "Not everything in it is marked: “46”, for this sheet has no step “mean-99”; the nearest is mean-5; "
        "“=1+1”, for this sheet has no step “zz”."
    )
    assert marked(handed, Scheme()).handed.notes == (note,)
    assert strange_steps(slip("7", PLOVERS, mean_1="45"), open_code(PLOVERS).working) == ()
    handed, _ = one(slip("7", PLOVERS))
    assert handed.notes == ("There is no answer in it.",)


def test_problems_of_the_reading_are_kept_first():
    before = Problem("mail", "?", "", "A slip was cut short.")
    taken = take_in(CLASS, [slip("9", PLOVERS)], [before])
    assert taken.problems[0] is before and len(taken.problems) == 2
    assert take_in(CLASS, []).missing == tuple((s, t) for s, codes in CLASS.codes() for t, _ in codes)


def test_a_name_in_any_script_is_known_in_any_form():
    students = [Student("1", "نورس البحر"), Student("2", "समुद्री टिटहरी"), Student("3", "Éider Ångström")]
    made = make(students, "where the tide turns", [task("law")])
    codes = {s.roll: str(codes[0][1]) for s, codes in made.codes()}
    for roll, who in (("1", "نورس البحر"), ("2", "समुद्री टिटहरी"), ("3", "e\u0301ider a\u030angstro\u0308m")):
        (handed,) = take_in(made, [slip(who, codes[roll], tan_1="1")]).handed
        assert handed.student.roll == roll and handed.notes == ()
    assert named(students[0]) == "roll 1 (نورس البحر)"


def test_ten_thousand_slips_in_time():
    made = make(
        [Student(str(n), f"Knot {n}") for n in range(5000)], "where the tide turns", [task("tan-a"), task("law")]
    )
    slips = [slip(s.name, str(code), f"file {s.roll}", tan_1="1") for s, codes in made.codes() for _, code in codes]
    start = time.process_time()
    taken = take_in(made, slips)
    assert time.process_time() - start < 1.5  # 0.3 s on a quiet machine, half of it for the codes of the class
    assert len(taken.handed) == 10_000 and not taken.problems and not taken.missing


def test_a_record_under_one_students_roll_and_anothers_code_is_said_to_be():
    made = a_class(2)
    codes = [str(code) for _, [(_, code)] in made.codes()]
    records = [ReturnSlip("S01", f"RECORD {code}", {"d-1": "20"}, {}, "r.txt", n) for n, code in enumerate(codes, 1)]
    notes = [" ".join(record.notes) for record in take_in(made, records[:1]).records]
    assert notes == [""]
    (record,) = take_in(made, records[1:]).records
    assert record.student.roll == "S01" and record.notes == ("Its code is of roll S02 (Sanderling).",)
