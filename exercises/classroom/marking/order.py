"""Which of two return slips is the later one, and how that is known.

The order of files, or of the text, says nothing of it.  The student's own page
counts the slips of a sheet and notes the hour; a mail has a date.  Where these
do not say it, or contradict each other, nothing is claimed.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, NamedTuple

from exercises.record.return_slip import is_record
from exercises.return_slip.lines import ReturnSlip
from exercises.working.words import many

#: By what the order is known: the count of the student's page, the hour that it notes, the dates of mails.
Ground = Literal["number", "written", "mailed"]
Which = Literal["first", "last"]


@dataclass(frozen=True)
class Coming:
    """A return slip as it came in, once or several times.

    mine    whether it came under the roll or the name of the student whose sheet it is
    mailed  the dates of the mails in which it came, each once, the earliest first; the slip itself has the earliest
    times   how often it came
    """

    slip: ReturnSlip
    mine: bool
    mailed: tuple[str, ...]
    times: int

    @cached_property
    def content(self) -> tuple[frozenset[tuple[str, str]], frozenset[tuple[str, str]]]:
        """What is marked of it."""
        return frozenset(self.slip.answers.items()), frozenset(self.slip.firsts.items())

    @property
    def source(self) -> str:
        """Where it was found, in a sentence."""
        return self.slip.source or "no named place"


class Order(NamedTuple):
    """How two slips stand: 1 where the first is the earlier one, -1 where it is the later one, 0 where it is not known.

    ground  by what that is known, or ""
    """

    sign: int
    ground: Ground | Literal[""]


UNKNOWN = Order(0, "")


def comings(slips: Iterable[tuple[bool, ReturnSlip]]) -> list[Coming]:
    """Return slips, each with whether it is the student's own, in the order in which they were read last."""
    slips = list(slips)
    if len(slips) == 1:  # as nearly always
        mine, slip = slips[0]
        return [Coming(slip, mine, (slip.mailed,) if slip.mailed else (), 1)]
    found: dict[object, list[tuple[bool, ReturnSlip]]] = {}
    for mine, slip in slips:
        key = mine, slip.number, slip.written, frozenset(slip.answers.items()), frozenset(slip.firsts.items())
        same = found.pop(key, [])  # so that it stands behind those that were read before it
        same.append((mine, slip))
        found[key] = same
    return [
        Coming(_dated(same[-1][1], mails[0] if mails else ""), same[-1][0], mails, len(same))
        for same in found.values()
        for mails in [tuple(sorted({slip.mailed for _, slip in same if slip.mailed}))]
    ]


def _dated(slip: ReturnSlip, mailed: str) -> ReturnSlip:
    return slip if slip.mailed == mailed else replace(slip, mailed=mailed)


def order(one: Coming, other: Coming) -> Order:
    """Which of two slips is the earlier one, and how that is known."""
    by_number = _sign(one.slip.number, other.slip.number)
    by_hour = _sign(one.slip.written, other.slip.written)
    by_mail = _by_mail(one.mailed, other.mailed)
    if by_number and by_hour != -by_number:
        return Order(by_number, "number")
    # two devices count on their own: then the hours alone say it, unless the mails say otherwise
    if by_hour and not by_number and by_mail != -by_hour:
        return Order(by_hour, "written")
    if by_mail and (by_number or by_hour != -by_mail):
        return Order(by_mail, "mailed")
    return UNKNOWN


def _sign(one: int | str, other: int | str) -> int:
    """1 where the first is less, -1 where it is more, 0 where they are the same or one is not known."""
    if not one or not other or one == other:
        return 0
    return 1 if str(one).zfill(5) < str(other).zfill(5) else -1


def _by_mail(one: Sequence[str], other: Sequence[str]) -> int:
    """The same by the dates of mails.  A slip that is quoted in the mail of a later one is the earlier all the same."""
    if not one or not other or one[0] == other[0]:
        return 0
    if one[0] < other[0] and one[-1] <= other[0]:
        return 1
    return -1 if other[0] < one[0] and other[-1] <= one[0] else 0


def outermost(slips: Sequence[Coming], which: Which) -> tuple[int, Order]:
    """Where the first or the last of slips is, and how it stands to another that differs from it.

    Where that is not known it is the one that was read first or last, and UNKNOWN.
    """
    ahead = 1 if which == "last" else -1
    at = 0
    for n in range(1, len(slips)):
        if order(slips[at], slips[n]).sign == ahead:
            at = n
    others = [slip for slip in slips if slip.content != slips[at].content]
    known = [order(slip, slips[at]) for slip in others]
    if all(each.sign == ahead for each in known):
        return at, known[0] if known else UNKNOWN
    return (len(slips) - 1 if which == "last" else 0), UNKNOWN


def how_known(counted: Coming, other: Coming) -> str:
    """By what it is known that one of two slips is the later, in words; "" where it is not known."""
    ground = order(other, counted).ground
    if ground == "number":
        these = f"this one is slip {other.slip.number}, that one {counted.slip.number}"
        told = f"by the count of the student’s page ({these})"
        if _by_mail(other.mailed, counted.mailed) == -order(other, counted).sign:
            told += ", though their mails are dated the other way"
        return told
    if ground == "written":
        return f"by the hours that they note (this one {other.slip.written}, that one {counted.slip.written})"
    if ground == "mailed":
        return f"by the dates of their mails, in UTC (this one {other.mailed[0]}, that one {counted.mailed[0]})"
    return ""


def described(coming: Coming) -> str:
    """Where a slip was found, what it and its mail say of its time, and how much is in it."""
    slip = coming.slip
    said = [
        f"slip {slip.number}" if slip.number else "",
        f"written {slip.written}" if slip.written else "",
        f"mailed {coming.mailed[0]} UTC" if coming.mailed else "",
        many(len(slip.answers), "line" if is_record(slip) else "answer"),
    ]
    return f"{slip.source or 'no named place'} ({', '.join(filter(None, said))})"
