"""Which of several slips is later: said only where the slips or their mails say it, and otherwise asked."""

import itertools
from dataclasses import replace

import pytest

from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.order import Coming, comings, order
from exercises.classroom.marking.scheme import Scheme
from exercises.return_slip.files import letters_of
from exercises.return_slip.lines import ReturnSlip
from exercises.return_slip.text import check_of, return_slip_text, slips_of_letters
from tests.exercises.classwork import a_class, code_of, right

MADE = a_class(3, ("tan-a", "law"))
CODE = str(code_of(MADE, 0))
OLD, NEW = {"mean-1": "44.1"}, {"mean-1": "45.2", "tan-1": "1.0070"}


def slip(answers, number=0, written="", mailed="", source="mail", who="S01"):
    return ReturnSlip(who, CODE, answers, {}, source, number, written, mailed)


def mail(text, date, quoted=""):
    """A mail as it is saved, with an older text quoted below its own."""
    below = "".join(f"> {line}\n" for line in quoted.splitlines())
    head = f"From: s01@example.org\nDate: {date}\nMIME-Version: 1.0\nContent-Type: text/plain; charset=utf-8\n\n"
    return f"{head}{text}\n{below}".encode()


def came(**files):
    """The slips of files, in the order of their names."""
    found = []
    for name in sorted(files):
        raw = files[name] if isinstance(files[name], bytes) else files[name].encode()
        slips, problems = slips_of_letters(letters_of(raw, f"{name}.eml" if raw[:5] == b"From:" else name), name)
        assert not problems
        found += slips
    return found


def counted(slips, which="last", choices=None):
    """The answers that count, and why."""
    taken = take_in(replace(MADE, scheme=Scheme(which=which)), slips, (), choices)
    (handed,) = taken.handed
    return dict(handed.return_slip.answers), handed.several.why, handed, taken


def written(answers, number=0, hour=""):
    return return_slip_text(slip(answers, number, hour))


# -- the three cases in which the order of files or of the text is not that of time ----


def test_a_second_download_sorts_before_the_first_and_is_the_later_all_the_same():
    files = {
        "return-1 (1).txt": written(NEW, 2, "2026-11-26 14:05"),
        "return-1.txt": written(OLD, 1, "2026-11-26 13:00"),
    }
    answers, why, handed, taken = counted(came(**files))
    assert (answers, why) == (NEW, "order")
    assert "The last one counts." in handed.notes[0]
    assert (
        "another is later, by the count of the student’s page (this one is slip 1, that one 2), and counts."
        in taken.problems[0].text
    )
    # without what new slips say of themselves nothing is claimed
    _, why, handed, taken = counted(came(**{"return-1 (1).txt": written(NEW), "return-1.txt": written(OLD)}))
    assert why == "unknown" and "is not known" in handed.notes[0] and "is not known" in taken.problems[0].text
    assert taken.questions == [handed.several]


def test_an_older_slip_quoted_below_the_newer_is_the_older():
    monday, friday = "Mon, 23 Nov 2026 10:00:00 +0100", "Fri, 27 Nov 2026 10:00:00 +0100"
    one = mail(written(NEW, 2, "2026-11-27 09:58"), friday, written(OLD, 1, "2026-11-23 09:50"))
    assert counted(came(a=one))[:2] == (NEW, "order")
    # old slips: the mail alone does not say it; with the first mail there it is known
    one = mail(written(NEW), friday, written(OLD))
    assert counted(came(a=one))[1] == "unknown"
    answers, why, _, taken = counted(came(a=one, b=mail(written(OLD), monday)))
    assert (answers, why) == (NEW, "order")
    told = taken.problems[0].text
    assert "by the dates of their mails, in UTC (this one 2026-11-23 09:00:00, that one 2026-11-27 09:00:00)" in told


def test_mails_whose_dates_are_the_other_way_than_their_names():
    early, late = "Thu, 26 Nov 2026 23:30:00 -0500", "Fri, 27 Nov 2026 05:00:00 +0000"  # 04:30 and 05:00 UTC
    answers, why, _, taken = counted(came(a=mail(written(NEW), late), b=mail(written(OLD), early)))
    assert (answers, why) == (NEW, "order") and "dates of their mails" in taken.problems[0].text
    # the slips' own count goes before the dates, and that these say otherwise is said
    files = {
        "a": mail(written(NEW, 2, "2026-11-26 10:00"), early),
        "b": mail(written(OLD, 1, "2026-11-26 09:00"), late),
    }
    answers, why, _, taken = counted(came(**files))
    assert (answers, why) == (NEW, "order")
    assert "slip 1, that one 2), though their mails are dated the other way, and counts." in taken.problems[0].text
    for broken in ("yesterday", "", "99 Foo 2026 10:00:00 +9999", "Mon, 0 Jan 0000 00:00:00 +0000"):
        assert counted(came(a=mail(written(NEW), broken), b=mail(written(OLD), early)))[1] == "unknown"


# -- what is known of two ----

HOURS = ("", "2026-11-26 09:00", "2026-11-26 10:00")
MAILS = ((), ("2026-11-26 09:05:00",), ("2026-11-26 10:05:00",))


@pytest.mark.parametrize("numbers", [(0, 0), (1, 1), (1, 2), (2, 1), (0, 2)])
def test_the_order_of_two(numbers):
    for hours, mails in itertools.product(itertools.product(HOURS, repeat=2), itertools.product(MAILS, repeat=2)):
        one, other = (
            Coming(slip({"mean-1": str(n)}, number, hour), True, mailed, 1)
            for n, (number, hour, mailed) in enumerate(zip(numbers, hours, mails, strict=True))
        )
        found = order(one, other)
        assert order(other, one) == (-found.sign, found.ground)
        known = [
            (ground, (a < b) - (a > b))
            for ground, (a, b) in (("number", numbers), ("written", hours), ("mailed", mails))
            if a and b and a != b
        ]
        signs = {sign for _, sign in known}
        if len(signs) == 1:  # all that is known agrees, and the best ground is named
            assert found == (signs.pop(), known[0][0])
        elif not signs:
            assert found == (0, "")
        elif dict(known).get("written") in (None, dict(known).get("number")):
            assert found == (known[0][1], "number")  # a mail says only when it was sent
        elif "number" in dict(known) and "mailed" in dict(known):
            assert found.ground == "mailed"  # two devices count on their own
        else:
            assert found == (0, "")  # they contradict each other


def test_several_are_ordered_only_if_one_is_after_all_others():
    slips = [slip({"mean-1": str(n)}, n, source=f"s{n}") for n in (3, 1, 2)]
    assert counted(slips)[0] == {"mean-1": "3"} and counted(slips, "first")[0] == {"mean-1": "1"}
    answers, why, _, taken = counted([*slips, slip({"mean-1": "9"})])
    assert why == "unknown" and len(taken.problems) == 3
    # the same answers again, later, are no question
    assert counted([slip(OLD, 1), slip(NEW, 2), slip(OLD, 3)])[:2] == (OLD, "order")
    same = comings([(True, slip(OLD, 1, mailed="b")), (True, slip(OLD, 1, mailed="a")), (True, slip(OLD, 1))])
    assert [(one.times, one.mailed) for one in same] == [(3, ("a", "b"))]


def test_the_instructor_chooses():
    slips = [slip(OLD, source="monday"), slip(NEW, source="friday")]
    check = check_of(slips[0])
    for choice in (check, check.lower(), "1", " 1 "):
        answers, why, handed, taken = counted(slips, choices={CODE: choice})
        assert (answers, why) == (OLD, "chosen") and not taken.questions
        assert handed.notes[0].endswith("The instructor chose this one.")
        assert "is not counted: you chose another." in taken.problems[0].text
    known = [slip(OLD, 1), slip(NEW, 2)]
    assert counted(known, choices={CODE: "first"})[0] == OLD and counted(known, "first", {CODE: "last"})[0] == NEW
    for choice in ("first", "3", "0", "XXXXX", "²", ""):
        _, why, _, taken = counted(slips, choices={CODE: choice})
        assert why == "unknown" and f"“{choice}” was chosen for roll S01" in taken.problems[-1].text
    (*_, told) = take_in(MADE, slips, (), {"A32": "1"}).problems
    assert "no slip came in for it" in told.text


def test_the_best_is_found_by_marking_all():
    whole = right(code_of(MADE, 0))
    half = dict(list(whole.items())[:4])
    scheme = Scheme(which="best")
    for slips in itertools.permutations((slip(half, 3), slip(whole, 1), slip({}, 2))):
        intake = take_in(replace(MADE, scheme=scheme), slips)
        marking = ClassMarking(intake, scheme)
        ((_, marked),) = marking.marked_up_to()
        assert marked.handed.return_slip.answers == whole and marked.earned == marked.possible
        assert not intake.questions and "The one with the best mark counts." in marked.handed.notes[0]
        told = [p.text for p in marking.problems]
        assert len(told) == 2 and all(f"and another {len(whole)} of {len(whole)}." in text for text in told)


def test_mails_in_a_mail_have_dates_of_their_own():
    inner = [mail(written({"mean-1": str(n)}), f"Thu, 26 Nov 2026 1{n}:00:00 +0000") for n in (2, 1)]
    parts = b"".join(b"--x\nContent-Type: message/rfc822\n\n" + one + b"\n" for one in inner)
    head = b"From: i@example.org\nDate: Fri, 27 Nov 2026 10:00:00 +0000\nMIME-Version: 1.0\n"
    cover = b"--x\nContent-Type: text/plain\n\nThey are attached.\n"
    after = b"--x\nContent-Type: text/plain\n\n" + written({"mean-1": "7"}).encode() + b"\n--x--\n"
    raw = head + b'Content-Type: multipart/mixed; boundary="x"\n\n' + cover + parts + after
    slips, problems = slips_of_letters(letters_of(raw, "forward.eml"), "forward.eml")
    assert not problems
    assert {s.answers["mean-1"]: s.mailed for s in slips} == {
        "7": "2026-11-27 10:00:00",
        "2": "2026-11-26 12:00:00",
        "1": "2026-11-26 11:00:00",
    }
    assert len({s.source for s in slips}) == 3


def test_an_old_slip_is_read_and_a_new_one_says_its_time():
    assert came(a=written(OLD))[0] == slip(OLD)
    (new,) = came(a=written(OLD, 12, "2026-11-26 14:05"))
    assert (new.number, new.written) == (12, "2026-11-26 14:05")
    assert "03 hand-in: 12 [" in written(OLD, 12) and "03 written: 2026-11-26 14:05 [" in written(
        OLD, 0, HOURS[0] or "2026-11-26 14:05"
    )
    # what is not as a page writes it says nothing of the time
    for odd in ("2026-13-26 14:05", "2026-11-26", "2026-11-26T14:05", "2026-11-26 14:05:30"):
        assert came(a=written(OLD, 0, odd))[0].written == ""


def test_a_mail_whose_text_leaves_the_slip_out_is_read_as_the_page_that_it_shows():
    shown = written({"mean-1": "7"}).replace("\n", "<br>\n")
    parts = f"--x\nContent-Type: text/plain\n\n{{}}\n--x\nContent-Type: text/html\n\n<p>{shown}</p>\n--x--\n"
    head = 'From: i@example.org\nMIME-Version: 1.0\nContent-Type: multipart/alternative; boundary="x"\n\n'
    for plain in ("This mail is a page.", written({"mean-1": "7"})):
        slips, problems = slips_of_letters(letters_of((head + parts.format(plain)).encode(), "a.eml"), "a.eml")
        assert [slip.answers for slip in slips] == [{"mean-1": "7"}] and not problems
