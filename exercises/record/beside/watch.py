"""Which readings are to be read again, while the magnet still lies there.

Each reading is compared with what those before it lead one to expect (forecast.py), of an instrument with usual
faults.  One that lies too far off is asked about and not counted, until the readings after it bear it out.  Where it
was kept all the same, the instrument may be an unusual one: what fits such an instrument together with all that was
kept is not asked about again.
"""

from collections.abc import Sequence
from typing import NamedTuple

from exercises.record.beside.forecast import UNUSUAL, Bench, Forecast, Law, Seen

SURE = 2.7  # standard deviations from which on a reading is asked about
PLAIN = 2.5  # degrees: nearer no reading is asked about; common practice, no source


class Alarm(NamedTuple):
    """A reading that does not go with those before it.

    off, error  how far it lies from what they lead one to expect, and the standard deviation of that, degrees
    other       another reading of its distance that may be the one to blame, or None
    """

    seen: Seen
    off: float
    error: float
    other: Seen | None

    @property
    def expected(self) -> float:
        """What was to be expected, degrees."""
        return self.seen.value - self.off


class Watched(NamedTuple):
    """What came of the readings.

    alarms  those that stand, in the order of reading;  kept  the readings that were counted
    forecast  what is known at the end
    """

    alarms: tuple[Alarm, ...]
    forecast: Forecast
    kept: tuple[Seen, ...]

    def by_itself(self, row: int) -> tuple[float, float]:
        """The mean deflection of a distance by its own readings, and its standard deviation, degrees."""
        forecast = Forecast(self.forecast.law, free=row)
        for s in self.kept:
            forecast.take(s)
        return forecast.level(row)


def watched(bench: Bench, seen: Sequence[Seen]) -> Watched:
    """The readings looked at one after the other; every d must lie beyond the poles."""
    law = Law(bench, seen)
    alarms: list[Alarm] = []
    usual, unusual = Forecast(law), Forecast(law, UNUSUAL)
    kept: list[Seen] = []
    for s in seen:
        off, error = usual.look(s)
        if is_off(off, error) and alarms and not is_off(*unusual.look(s)):
            usual, kept = unusual.copy(), [*(a.seen for a in alarms), *kept]
            alarms, off = [], 0.0
        unusual.take(s)
        if is_off(off, error):
            alarms.append(Alarm(s, off, error, _other(law, kept, s)))
        else:
            usual.take(s)
            kept.append(s)
            for right in [a for a in alarms if not is_off(*usual.look(a.seen))]:  # the readings since bear it out
                usual.take(right.seen)
                kept.append(right.seen)
                alarms.remove(right)
    return Watched(tuple(alarms), usual, tuple(kept))


def is_off(off: float, error: float) -> bool:
    """Whether a reading that lies so far off is asked about; both in degrees."""
    return abs(off) > max(SURE * error, PLAIN)


def _other(law: Law, kept: Sequence[Seen], s: Seen) -> Seen | None:
    """The reading of the same distance without which this one is as is to be expected, the last of them, or None."""
    for other in reversed(kept):
        if other.row == s.row:
            without = Forecast(law)
            for one in kept:
                if one != other:
                    without.take(one)
            if not is_off(*without.look(s)) and is_off(*_without(without, s, other)):
                return other
    return None


def _without(forecast: Forecast, s: Seen, other: Seen) -> tuple[float, float]:
    """How the other reading looks where this one is taken for right."""
    forecast.take(s)
    return forecast.look(other)
