"""Totals are out of the same for everyone: weights, what is missing, excused or late, and further attempts."""

import dataclasses

import pytest

from exercises.classroom.class_list.class_file import class_text, read_class
from exercises.classroom.class_list.set_again import set_again
from exercises.classroom.marking.by_hand import NONE, ByHand, Correction, DaysLate, Excused
from exercises.classroom.marking.intake import Handed, take_in
from exercises.classroom.marking.late import cost, lateness
from exercises.classroom.marking.marks import mark
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.marking.totals import standings
from exercises.classroom.report import student_pages
from exercises.classroom.report.marks_table import book_csv
from exercises.codes.sheet_code import Setting
from exercises.judging.entries import read_entries
from exercises.kinds.kind import all_kinds, open_code
from exercises.return_slip.lines import ReturnSlip
from tests.exercises.classwork import a_class, code_of, handed, right


def marked(handed: Handed, scheme: Scheme, by_hand: ByHand = NONE):
    sheet = open_code(str(handed.code))
    return mark(handed, sheet, scheme, read_entries(sheet.working, handed.return_slip.answers), by_hand)


def standing(made, work, by_hand=NONE):
    return list(standings(made, [marked(h, made.scheme, by_hand) for h in work], by_hand))


def dated(handed: Handed, **when) -> Handed:
    return dataclasses.replace(handed, return_slip=dataclasses.replace(handed.return_slip, **when))


def test_every_sheet_of_a_kind_is_out_of_the_same_whatever_its_numbers():
    made = a_class(9)
    steps = [len(right(code_of(made, at))) for at in range(9)]
    assert len(set(steps)) > 1
    found = standing(made, [handed(made, at) for at in range(9)])
    most = Scheme().out_of_sheet("tan-a", made.tasks[0].edition, Setting())
    assert {(one.total, one.out_of) for one in found} == {(most, most)} and most >= max(steps)


@pytest.mark.parametrize("slug", all_kinds())
def test_where_all_sheets_of_a_kind_are_alike_the_total_is_the_sum_of_the_steps(slug):
    made = a_class(6, (slug,))
    steps = {len(right(code_of(made, at))) for at in range(6)}
    out_of = Scheme(step_mark=2.0).out_of_sheet(slug, made.tasks[0].edition, Setting())
    assert out_of >= 2 * max(steps) and (len(steps) > 1 or out_of == 2 * max(steps))


def test_weights_take_the_place_of_what_all_sheets_are_out_of():
    made = a_class(1, ("tan-a", "law"), Scheme(out_of=10, weights=(("law", 30.0),)))
    (one,) = standing(made, [handed(made, 0), handed(made, 0, {}, which=1)])
    assert [(k.earned, k.out_of) for k in one.kinds] == [(10, 10), (0, 30)] and (one.total, one.out_of) == (10, 40)


@pytest.mark.parametrize("missing, mark, total", [("zero", "0", 10), ("blank", "", None), ("excused", "excused", 40)])
def test_what_was_not_handed_in(missing, mark, total):
    made = a_class(1, ("tan-a", "law"), Scheme(out_of=10, weights=(("law", 30.0),), missing=missing))
    (one,) = standing(made, [handed(made, 0)])
    assert (one.kinds[1].mark, one.total, one.out_of) == (mark, total, 40)


def test_who_is_excused():
    made = a_class(3, ("tan-a", "law"), Scheme(out_of=10))
    by_hand = ByHand((Excused("S01", "law", "ill"), Excused("S02")))
    first, second, third = standing(made, [handed(made, 0), handed(made, 2)], by_hand)
    assert first.total == 20 and first.notes == ("law: Excused. Reason: ill.",)
    assert second.total is None and [k.mark for k in second.kinds] == ["excused", "excused"]
    assert third.total == 10 and third.out_of == 20


def test_a_mark_set_by_hand_counts_in_the_total_and_is_said():
    made = a_class(1, scheme=Scheme(out_of=10))
    steps = list(right(code_of(made, 0)))
    work = handed(made, 0, {step: answer for step, answer in right(code_of(made, 0)).items() if step != steps[0]})
    without = standing(made, [work])[0]
    with_it = standing(made, [work], ByHand((Correction("S01", "tan-a", steps[0], 1, "It is on the paper."),)))[0]
    assert without.total < with_it.total == 10
    assert "set by hand to 1 of 1" in with_it.notes[0] and with_it.notes[0].endswith("Reason: It is on the paper.")


def test_a_mark_set_by_hand_above_what_the_step_has_now():
    made = a_class(1, scheme=Scheme(step_mark=0.5))
    step = next(iter(right(code_of(made, 0))))
    sheet = marked(handed(made, 0, {}), made.scheme, ByHand((Correction("S01", "tan-a", step, 1, "seen"),)))
    assert sheet.steps[0].earned == 0.5 and "1 is more than the step can have now." in sheet.handed.notes[-1]


DUE = Scheme(deadline="2026-11-20 17:00", late=0.1, late_most=0.25, out_of=10)


@pytest.mark.parametrize(
    "when, days",
    [
        ({"written": "2026-11-20 17:00"}, 0),
        ({"written": "2026-11-20 17:01"}, 1),
        ({"written": "2026-11-21 17:00"}, 1),
        ({"written": "2026-11-21 17:01"}, 2),
        ({"written": "2026-11-20 16:00", "mailed": "2026-11-25 08:00:00"}, 0),
        ({"mailed": "2026-11-20 02:59:59"}, 0),
    ],
)
def test_days_late_by_the_slips_own_date(when, days):
    assert lateness(dated(handed(a_class(1), 0), **when), DUE).days == days


@pytest.mark.parametrize(
    "mailed, zone, days, said",
    [
        ("2026-11-20 12:00:00", "", 0, "it may be late or in time"),
        ("2026-11-23 12:00:00", "", 0, "it is late, but by how many days is not known"),
        ("2026-11-20 11:30:00", "+05:30", 0, ""),
        ("2026-11-20 11:31:00", "+05:30", 1, "It is 1 day late"),
        ("2026-11-20 20:00:00", "-03:00", 0, ""),
        ("2026-11-20 20:01:00", "-03:00", 1, "It is 1 day late"),
    ],
)
def test_a_mail_has_its_hour_in_utc(mailed, zone, days, said):
    found = lateness(dated(handed(a_class(1), 0), mailed=mailed), dataclasses.replace(DUE, zone=zone))
    assert found.days == days and said in found.note and bool(found.note) is bool(said)


def test_what_is_not_known_is_said_and_not_guessed():
    work = handed(a_class(1), 0)
    assert lateness(work, DUE) == (0, "No date is known of it, so it is not counted as late.")
    assert lateness(work, Scheme()) == (0, "")
    assert lateness(work, DUE, 3) == (3, "By hand it is 3 days late.")


def test_what_being_late_costs():
    made = a_class(1, scheme=DUE)
    assert [cost(days, DUE) for days in (0, 1, 2, 3)] == [0, 0.1, 0.2, 0.25]
    sheet = marked(dated(handed(made, 0), written="2026-11-22 09:00"), DUE)
    assert sheet.earned == 8 and "It is 2 days late" in sheet.handed.notes[-1]
    assert sheet.handed.notes[-1].endswith("That takes off 20 % of its mark.")
    by_hand = ByHand((DaysLate("S01", "tan-a", 0),))
    assert marked(dated(handed(made, 0), written="2026-11-22 09:00"), DUE, by_hand).earned == 10


def test_a_kind_and_a_further_attempt_have_deadlines_of_their_own():
    own = dataclasses.replace(DUE, deadlines=(("law", "2026-12-01 12:00"), ("tan-a:2", "2026-12-05 12:00")))
    found = [own.deadline_of(*of) for of in (("tan-a", 1), ("law", 1), ("tan-a", 2), ("law", 2))]
    assert [due and f"{due:%m-%d}" for due in found] == ["11-20", "12-01", "12-05", None]


@pytest.mark.parametrize("which, total", [("first", 0), ("last", 10), ("best", 10)])
def test_which_attempt_counts(which, total):
    made = set_again(a_class(2, scheme=Scheme(out_of=10, attempts=which)), 2, ["s02"])
    made = read_class(class_text(made))  # as it is kept
    (_, [(_, code)]), again = made.codes()[1], made.codes(2)
    assert [(s.roll, t.attempt) for s, given in again for t, _ in given] == [("S02", 2)]
    second = again[0][1][0][1]
    assert second != code and str(second) not in {str(c) for _, given in made.codes() for _, c in given}
    slips = [ReturnSlip("S02", str(code), {"mean-1": "1"}, {}), ReturnSlip("S02", str(second), right(second), {})]
    taken = take_in(made, slips)
    assert [(h.student.roll, h.task.attempt) for h in taken.handed] == [("S02", 1), ("S02", 2)] and not taken.problems
    assert [student.roll for student, _ in taken.missing] == ["S01"]
    one = standing(made, taken.handed)[1]
    assert one.total == total and "counts" in one.notes[0]
    assert str(one.kinds[0].code) == str(code if which == "first" else second)
    assert "attempt 2" in student_pages.page(marked(taken.handed[1], made.scheme), made)


@pytest.mark.parametrize(
    "weights, excused, missing, total",
    [
        ({"tan-a": 0, "law": 30}, "law", "zero", None),  # what is left is out of 0: no total, and never 0
        ({"tan-a": 30, "law": 0}, "", "blank", 30),  # a blank that does not count leaves no gap
        ({"tan-a": 0, "law": 0}, "", "zero", 0),
        ({"tan-a": 0, "law": 0}, "all", "zero", None),
    ],
)
def test_a_kind_of_weight_nought(weights, excused, missing, total):
    made = a_class(1, ("tan-a", "law"), Scheme(weights=tuple(weights.items()), missing=missing))
    by_hand = ByHand((Excused("S01", "" if excused == "all" else excused),) if excused else ())
    (one,) = standing(made, [handed(made, 0)], by_hand)
    assert (one.total, one.out_of) == (total, sum(weights.values()))


def test_half_hundredths_are_rounded_upwards_everywhere_alike():
    made = a_class(1, ("tan-a", "law"), Scheme(weights=(("tan-a", 10.125), ("law", 3.335))))
    (one,) = standing(made, [handed(made, 0)])
    assert (one.kinds[0].earned, one.kinds[0].out_of, one.out_of) == (10.13, 10.13, 13.47)
    assert one.kinds[0].sheet.possible == 10.13
    assert book_csv(made, [(one.student, one.total)]).splitlines()[0].endswith("out of 13.47")


@pytest.mark.parametrize(
    "due, zone, mailed, days",
    [
        ("2026-11-20 23:59", "+00:00", "2026-11-20 23:59:59", 0),  # the end of the day is its last second
        ("2026-11-20 23:59", "+00:00", "2026-11-21 00:00:00", 1),
        ("2026-11-20 23:59", "+05:30", "2026-11-20 18:29:59", 0),
        ("2026-11-20 23:59", "+05:30", "2026-11-20 18:30:00", 1),  # midnight there
        ("2026-03-01 00:10", "-03:00", "2026-03-01 03:10:59", 0),
        ("2026-03-01 00:10", "-03:00", "2026-03-02 03:11:00", 2),
        ("2028-02-28 23:59", "+00:00", "2028-02-29 23:59:00", 1),  # a leap day is a day
    ],
)
def test_a_mail_over_midnight_and_in_another_zone(due, zone, mailed, days):
    made = a_class(1, ("tan-a",), Scheme(deadline=due, zone=zone, late=0.1))
    assert lateness(dated(handed(made, 0), mailed=mailed), made.scheme).days == days


def test_a_slip_that_came_in_time_is_not_late_because_it_came_once_more():
    """A mail of the next day quotes it, or the same answers are handed in again."""
    made = a_class(1, ("tan-a",), Scheme(deadline="2026-11-20 17:00", zone="+00:00"))
    slip = ReturnSlip("S01", str(code_of(made, 0)), right(code_of(made, 0)), {})
    dates = ("2026-11-20 16:00:00", "2026-11-21 09:00:00")
    hours = ("2026-11-20 16:00", "2026-11-21 09:00")
    mails = [dataclasses.replace(slip, mailed=date) for date in dates]
    again = [dataclasses.replace(slip, number=n, written=hour) for n, hour in enumerate(hours, 1)]
    for came in (mails, mails[::-1], again, again[::-1]):
        (one,) = take_in(made, came).handed
        assert lateness(one, made.scheme) == (0, "")


def test_a_clock_that_says_in_time_and_a_mail_that_says_late():
    made = a_class(1, ("tan-a",), Scheme(deadline="2026-11-20 17:00", late=0.1))
    told = [
        lateness(dated(handed(made, 0), written="2026-11-20 16:00", mailed=mailed), made.scheme)
        for mailed in ("2026-11-20 16:01:00", "2026-11-21 06:00:00")
    ]
    assert told[0] == (0, "") and told[1].days == 0 and "its mail is of 2026-11-21 06:00:00 UTC" in told[1].note


def test_what_is_set_by_hand_for_a_sheet_that_has_not_come_in_is_said_to_wait():
    made = a_class(1)
    step = next(iter(right(code_of(made, 0))))
    by_hand = ByHand((Correction("S01", "tan-a", step, 1, "Seen"), DaysLate("S01", "tan-a", 1)))
    (one,) = standing(made, [], by_hand)
    assert one.notes == ("tan-a: Set by hand: 1 mark and its days late; this waits, for the sheet has not come in.",)
    assert not any("waits" in note for note in standing(made, [handed(made, 0)], by_hand)[0].notes)
