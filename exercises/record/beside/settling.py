"""What a record in the making has come to, how it has settled, and when another distance would tell little more."""

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from exercises.record.beside.look import Looked
from exercises.record.beside.proposal import Proposal
from exercises.record.check import OF_NO_USE, Checked, check, result_of
from exercises.record.entries import Record, Row, as_plain, from_plain
from exercises.record.estimate import Result
from exercises.record.moments import Point, point, seen_angle
from exercises.working.numbers import places

LEAST, PLANNED = 3, 5  # distances: fewer are no record; as many as are usual
NARROWS = 0.9  # times: where another distance leaves so much of U or more, it is not worth its eight readings
CLEARLY = 1.5  # times: moments that scatter so much more than angle and distance explain are spoken of
LOOK_AT_ZERO = "Before you go, take the magnet two metres away, tap, and look whether the pointer still reads 0–0."


@dataclass(frozen=True)
class Settled:
    """What whole distances, and the one that is begun, come to.

    whole   the record of the whole distances, checked as the record page checks it, and how many they are
    steps   the result after the first whole distance, the first two …: (how many, result)
    points  every distance that is in the result, one that is begun too
    result  None where there is none
    """

    whole: Checked
    count: int
    steps: tuple[tuple[int, Result], ...]
    points: tuple[Point, ...]
    result: Result | None


def settled(looked: Looked) -> Settled:
    """What the readings have come to so far."""
    record = looked.work.record
    is_whole = [looked.work.is_whole(i) for i in range(len(record.rows))]
    rows = [row for row, whole in zip(record.rows, is_whole) if whole]
    checks = [_checked(record, rows[:n]) for n in range(len(rows) + 1)]
    steps = tuple((n, c.moments.result) for n, c in enumerate(checks) if c.moments)
    whole = checks[-1]
    points = whole.moments.points if whole.moments else ()
    begun = [p for at, i in enumerate(looked.rows) if not is_whole[i] and (p := _begun(looked, at))]
    points = (*points, *begun)
    result = result_of(whole.givens, points, whole.fit) if points else None
    return Settled(whole, len(rows), steps, points, result)


def _checked(record: Record, rows: Sequence[Row]) -> Checked:
    """A record of some of its distances, checked."""
    return _kept(json.dumps(as_plain(Record(record.head, tuple(rows)))))


@lru_cache(maxsize=16)
def _kept(record: str) -> Checked:
    return check(from_plain(json.loads(record)))


def _begun(looked: Looked, at: int) -> Point | None:
    """The point of a distance that is begun, by its own readings; None where it gives none yet."""
    givens = looked.work.givens
    if not (givens.two_l and givens.local.B_H and any(s.row == at for s in looked.watched.kept)):
        return None
    theta, u = looked.watched.by_itself(at)
    if not OF_NO_USE < theta < 90 - OF_NO_USE:
        return None
    u = max(u, seen_angle(looked.bench.step, None))
    return point(looked.rows[at] + 1, looked.bench.ds[at], theta, givens.local.B_H, givens.half, u)


@dataclass(frozen=True)
class Stop:
    """Whether it is enough, and a sentence that says why, or ""."""

    enough: bool
    text: str


def stop(found: Settled, proposal: Proposal, step: float) -> Stop:
    """Whether another distance is worth its eight readings; `step` is the scale step, degrees."""
    if found.count < LEAST or len(found.points) > found.count:
        return Stop(False, "")
    if found.result is None:
        enough = found.count >= PLANNED
        return Stop(enough, f"That is {found.count} distances, as many as are usual. {LOOK_AT_ZERO}" if enough else "")
    now = found.result.moment.U / found.result.moment.value
    after = _after(found, proposal, step)
    if after is not None and after >= NARROWS * now:
        text = f"m is known to ± {_percent(now)}, and another distance would bring that to ± {_percent(after)} only."
    elif found.count >= PLANNED:
        text = f"That is {found.count} distances, as many as are usual, and m is known to ± {_percent(now)}."
    else:
        return Stop(False, "")
    return Stop(True, f"{text} You can stop here. {LOOK_AT_ZERO}")


def differs(found: Settled, enough: bool) -> str:
    """Why m is less sure than with fewer distances, or ""; `enough` where no further distance is asked for."""
    now = found.result
    if now is None or now.excess < CLEARLY or len(found.points) > found.count:
        return ""
    if not any(before.moment.U < now.moment.U for n, before in found.steps if n < found.count):
        return ""
    more = "" if enough else "; a further one can show which"
    return f"These distances differ by more than their readings explain{more}."


def _after(found: Settled, proposal: Proposal, step: float) -> float | None:
    """U(m)/m with one more distance as it is proposed, that shows what the others let one expect; None without one."""
    givens, result = found.whole.givens, found.result
    if proposal.d is None or result is None or givens.local.B_H is None or proposal.d <= givens.half:
        return None
    like = point(0, proposal.d, proposal.theta, givens.local.B_H, givens.half, seen_angle(step, None))
    # it lies where the fit has it, so that the scatter of the moments stays as it is
    one = replace(like, moment=_of_the_fit(result, like, givens.half))
    more = result_of(givens, (*found.points, one), found.whole.fit).moment
    return more.U / more.value


def _of_the_fit(result: Result, p: Point, l: float) -> float:
    """The moment that the fit has at a distance, worked with half the magnetic length l."""
    half = result.two_l.value / 2
    return result.moment.value * ((p.d**2 - l * l) / (p.d**2 - half * half)) ** 2 if half < p.d else p.moment


def _percent(share: float) -> str:
    return f"{places(100 * share, 1 if math.isfinite(share) else 0)} %"
