"""Whether a sheet came late, by what is known of when it was handed in, and what that costs.

What is not known is said and never guessed: such a sheet is not counted as late.
"""

import math
from datetime import datetime, timedelta
from typing import NamedTuple

from exercises.classroom.marking.intake import Handed
from exercises.classroom.marking.scheme import DEADLINE, Scheme
from exercises.return_slip.lines import ReturnSlip
from exercises.working.words import many

#: From the last place of the Earth at which a day ends to the first at which one begins.
_WEST, _EAST = timedelta(hours=-12), timedelta(hours=14)
_A_DAY = timedelta(days=1)


class Late(NamedTuple):
    """How many days late, counting a part of a day as one, and what is said of it, or ""."""

    days: int
    note: str


def lateness(handed: Handed, scheme: Scheme, by_hand: int | None = None) -> Late:
    """How late a sheet came.

    by_hand  days that the instructor set, or None
    """
    if by_hand is not None:
        return Late(by_hand, f"By hand it is {many(by_hand, 'day')} late." if by_hand else "By hand it is in time.")
    due = scheme.deadline_of(handed.task.kind.slug, handed.task.attempt)
    if due is None:
        return Late(0, "")
    slip = handed.return_slip
    if slip.written:
        came = datetime.strptime(slip.written, DEADLINE)
        late = _late(came - due, due, f"{slip.written}, by the clock of the student’s device")
        return late if late.days or not slip.mailed else _mailed_later(slip, due, scheme)
    if slip.mailed:
        return _of_mail(_minute(slip.mailed) - due, slip.mailed, due, scheme.zone)
    return Late(0, "No date is known of it, so it is not counted as late.")


def _late(over: timedelta, due: datetime, of: str) -> Late:
    """By how long it came after it was due, and what says when it came."""
    days = math.ceil(over / _A_DAY)
    if days <= 0:
        return Late(0, "")
    return Late(days, f"It is {many(days, 'day')} late: it was due on {due.strftime(DEADLINE)} and is of {of}.")


def _minute(mailed: str) -> datetime:
    """The minute of a mail: deadlines have no seconds, and one of 17:00 has not passed at 17:00:30."""
    return datetime.fromisoformat(mailed).replace(second=0)


def _mailed_later(slip: ReturnSlip, due: datetime, scheme: Scheme) -> Late:
    """A slip in time by its own hour: it is not late, but where its mail was late for certain a note says so."""
    over = _minute(slip.mailed) - due + (_ahead(scheme.zone) if scheme.zone else _WEST)
    if over <= timedelta():
        return Late(0, "")
    return Late(
        0,
        f"It notes {slip.written}, by the clock of the student’s device, which is in time; its mail is of "
        f"{slip.mailed} UTC, which is late. It is not counted as late.",
    )


def _ahead(zone: str) -> timedelta:
    """By how much a clock is ahead of UTC."""
    ahead = timedelta(hours=int(zone[1:3]), minutes=int(zone[4:]))
    return ahead if zone[0] == "+" else -ahead


def _of_mail(over: timedelta, mailed: str, due: datetime, zone: str) -> Late:
    """By its mail, whose hour is UTC; `over` is how long that is after the hour at which it was due."""
    if zone:
        return _late(over + _ahead(zone), due, f"{mailed} UTC, by its mail; your clock is UTC{zone}")
    if over + _EAST <= timedelta():
        return Late(0, "")
    told = (
        "it is late, but by how many days is not known" if over + _WEST > timedelta() else "it may be late or in time"
    )
    return Late(
        0,
        f"Its mail is of {mailed} UTC, and it was due on {due.strftime(DEADLINE)} by your clock: {told}, so it is not "
        "counted as late. Say how far your clock is ahead of UTC, or set its days late by hand.",
    )


def cost(days: int, scheme: Scheme) -> float:
    """The share of a sheet's mark that so many days take off, 0 to 1."""
    return min(days * scheme.late, scheme.late_most)
