"""What is said after `eight mark` about the marks: options become a scheme and what is set by hand."""

import argparse
from collections.abc import Iterator
from typing import Any

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roll_match import Rolls
from exercises.classroom.marking.by_hand import Correction, Counted, DaysLate, Entry, Excused
from exercises.classroom.marking.scheme import MISSING, WHICH, Scheme, SchemeError, as_dict, from_dict
from exercises.classroom.marking.scheme_text import number, put
from exercises.record.return_slip import MARK
from generator.build.trouble import Trouble

#: Option -> (name in scheme_text, what stands for its value in the help, what it is).
SCHEME = {
    "step-mark": ("step_mark", "NUMBER", "marks for each step that is right (1)"),
    "follows": ("follows", "PERCENT", "of a step's mark for right working from a wrong start (100)"),
    "figures": ("figures", "PERCENT", "taken off for too few or too many figures (0)"),
    "units": ("units", "PERCENT", "taken off where a unit was left out (0)"),
    "try": ("attempt", "first|last", "which of what was typed at a step is marked (first)"),
    "out-of": ("out_of", "NUMBER", "what every sheet is out of (the most that one of its kind can earn)"),
    "which": ("which", "|".join(WHICH), "which of several slips of one sheet counts (last)"),
    "attempts": ("attempts", "|".join(WHICH), "which of several attempts with new numbers counts (last)"),
    "missing": ("missing", "|".join(MISSING), "what a sheet is that was not handed in (zero)"),
    "late": ("late", "PERCENT", "taken off for each day, or part of a day, after the deadline (0)"),
    "late-most": ("late_most", "PERCENT", "the most that being late takes off (100)"),
    "zone": ("zone", "UTC+HH:MM", "your clock, such as UTC+05:30 or UTC-03:00: mails say their hour in UTC"),
}


def add_to(parser: argparse.ArgumentParser) -> None:
    """Enter the options."""
    scheme = parser.add_argument_group("how it is marked (kept in marks.json; shares are in per cent)")
    for option, (_, value, what) in SCHEME.items():
        scheme.add_argument(f"--{option}", metavar=value, help=what.replace("%", "%%"))
    for option, value, what in (
        ("mark", "STEP=NUMBER", "another mark for one step, such as tan-a/pole=2"),
        ("weight", "KIND=NUMBER", "what every sheet of one kind is out of, such as tan-a=20"),
        (
            "deadline",
            "[KIND=]WHEN",
            'when it is due: "2026-11-20 17:00"; for one kind "law=2026-11-27 17:00"; for a second '
            'attempt "law:2=2026-12-04 17:00"',
        ),
    ):
        scheme.add_argument(f"--{option}", action="append", default=[], metavar=value, help=what)
    hand = parser.add_argument_group("by hand (kept in marks.json; KIND:2 is the second attempt)")
    hand.add_argument(
        "--correct",
        nargs=4,
        action="append",
        default=[],
        metavar=("ROLL", "KIND", "STEP=MARK", "REASON"),
        help="set the mark of one step; without a MARK it is as it was marked",
    )
    hand.add_argument(
        "--days-late",
        nargs=2,
        action="append",
        default=[],
        metavar=("ROLL", "KIND=DAYS"),
        help="how many days late a sheet is, whatever its date; without DAYS by its date",
    )
    hand.add_argument(
        "--excuse",
        nargs="+",
        action="append",
        default=[],
        metavar=("ROLL", "KIND or “all”, REASON"),
        help="a student who need not hand in a kind, or any",
    )
    hand.add_argument(
        "--not-excused", nargs="+", action="append", default=[], metavar=("ROLL", "KIND"), help="takes an excuse back"
    )
    hand.add_argument(
        "--count",
        nargs=2,
        action="append",
        default=[],
        metavar=("ROLL", "KIND=SLIP"),
        help="which of several slips counts, by the five characters at its end, by its number in the question, or "
        "first or last; of laboratory records the KIND is record; without a SLIP by the scheme",
    )


def scheme_from(chosen: argparse.Namespace, before: Scheme) -> Scheme:
    """The scheme with what the options say in its place.  SchemeError or Trouble if one cannot be used."""
    scheme: dict[str, Any] = as_dict(before)
    for option, (name, *_) in SCHEME.items():
        if (text := getattr(chosen, option.replace("-", "_"))) is not None:
            put(scheme, name, text, f"--{option}")
    for text in chosen.mark:
        step, value = _pair(text, "--mark tan-a/pole=2")
        if "/" not in step:
            raise Trouble(f"“{step[:60]}” is no step. Write it as --mark tan-a/pole=2.")
        put(scheme, step, value, f"--mark {step[:40]}")
    for text in chosen.weight:
        kind, value = _pair(text, "--weight tan-a=20")
        put(scheme, f"weight:{kind}", value, f"--weight {kind[:40]}")
    for text in chosen.deadline:
        if "=" in text:
            kind, value = _pair(text, "--deadline tan-a=…")
            put(scheme, f"deadline:{kind}", value, "--deadline")
        else:
            put(scheme, "deadline", text, "--deadline")
    return from_dict(scheme)


def by_hand(chosen: argparse.Namespace, class_: Class) -> Iterator[tuple[bool, Entry]]:
    """What is set by hand, and whether it is set or else taken back.  Trouble if it cannot be read."""
    for roll, kind, text, reason in chosen.correct:
        slug, attempt = _attempt(kind)
        step, value = _pair(text, '--correct 7 tan-a pole=1 "why"')
        try:
            mark = number(value, f"--correct {roll[:40]} {kind[:40]} {step[:40]}") if value else 0.0
        except SchemeError as error:
            raise Trouble(str(error)) from None
        yield bool(value), Correction(roll, slug, step, mark, reason.strip(), attempt)
    for roll, text in chosen.days_late:
        kind, value = _pair(text, "--days-late 7 tan-a=2")
        slug, attempt = _attempt(kind)
        if value and not (value.isascii() and value.isdecimal() and len(value) < 6):
            raise Trouble(f"--days-late {roll[:40]}: “{value[:40]}” is no whole number of days.")
        yield bool(value), DaysLate(roll, slug, int(value or 0), attempt)
    for set_, given in ((True, chosen.excuse), (False, chosen.not_excused)):
        for roll, *more in given:
            kind = more[0].strip().lower() if more else "all"
            yield set_, Excused(roll, "" if kind == "all" else kind, " ".join(more[1:]).strip())
    for roll, text in chosen.count:
        kind, value = _pair(text, "--count 7 tan-a=8CKNW")
        yield bool(value), Counted(_sheet(class_, roll, kind), value)


def _sheet(class_: Class, roll: str, kind: str) -> str:
    """By what a choice among the slips of a sheet is kept, or among a student's records."""
    slug, attempt = _attempt(kind)
    student = Rolls(class_.students).find(roll)
    if student is None:
        raise Trouble(f"--count: no student of this class has the roll “{roll[:40]}”. Look at the class list.")
    if slug == "record":
        return f"{MARK} {student.roll}"
    for task, code in dict(class_.every_code())[student]:
        if (task.kind.slug, task.attempt) == (slug, attempt):
            return str(code)
    raise Trouble(f"--count {roll[:40]} {kind[:40]}: this student was not set that in this class.")


def _pair(text: str, example: str) -> tuple[str, str]:
    name, sign, value = text.partition("=")
    if not sign:
        raise Trouble(f"“{text[:60]}” has no “=”. Write it as {example}.")
    return name.strip().lower(), value.strip()


def _attempt(kind: str) -> tuple[str, int]:
    """The kind and the attempt of “tan-a” or “tan-a:2”."""
    slug, colon, attempt = kind.strip().lower().partition(":")
    if colon and attempt not in tuple("123456789"):
        raise Trouble(f"“{kind[:60]}” names no attempt. Write a second attempt as {slug[:40]}:2.")
    return slug, int(attempt or 1)
