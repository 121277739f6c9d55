"""Several return slips of one sheet: which of them counts, why, and what is said of the others.

Which counts is the scheme's: the first, the last or the best.  Where the first
or the last is not known (order.py), one stands until the instructor chooses,
and everything that is said of it says so.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from exercises.classroom.marking.order import Coming, Which, described, how_known, order, outermost
from exercises.codes.sheet_code import LOOK_ALIKES
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.return_slip.text import check_of
from exercises.working.words import many

#: Which slip of a sheet counts, by the instructor: the sheet's code, or “RECORD” and the roll, -> how the slip is
#: named: the five characters at its end, its place among those that came in, counted from 1, or first or last.
type Choices = Mapping[str, str]

#: Why one counts: there is no other, the others are under other names, the instructor chose it, it is known to be the
#: first or the last, it has the better mark; or this is not known.
Why = Literal["only", "name", "chosen", "order", "best", "unknown"]
SHOWN = 5  # slips in one note


@dataclass(frozen=True)
class Several:
    """The slips that came in for one sheet, or as one student's record.

    key    the sheet's code, or “RECORD” and the roll, by which a choice is kept
    about  whose and what, in a sentence
    slips  those that are not the same, in the order in which they were read
    at     which of them counts, why, and by which rule of the scheme
    """

    key: str
    about: str
    slips: tuple[Coming, ...]
    at: int
    why: Why
    which: str

    @property
    def counted(self) -> Coming:
        """The one that counts."""
        return self.slips[self.at]

    @property
    def earliest(self) -> Coming:
        """Of the slips with the answers that count the first, if that is known: it tells whether they are late."""
        if len(self.slips) == 1:
            return self.counted
        same = [slip for slip in self.slips if slip.content == self.counted.content and slip.mine == self.counted.mine]
        dated = [slip for slip in same if slip.slip.written or slip.mailed] or same
        for one in dated:
            if all(one is other or order(one, other).sign == 1 for other in dated):
                return one
        return self.counted

    @property
    def others(self) -> list[Coming]:
        """Those with other answers."""
        if len(self.slips) == 1:  # as nearly always
            return []
        return [slip for slip in self.slips if slip.content != self.counted.content]

    @property
    def rivals(self) -> list[int]:
        """Where those are that could count by the scheme: the student's own, if there are any, of all that differ."""
        return [n for n, slip in enumerate(self.slips) if slip.mine == self.counted.mine]

    def with_best(self, at: int) -> "Several":
        """The same, with another one that counts because it has the better mark."""
        return replace(self, at=at)

    def notes(self) -> tuple[str, ...]:
        """What stands beside the mark."""
        if len(self.slips) == self.counted.times == 1:
            return ()
        said = []
        times = sum(slip.times for slip in self.slips if slip.content == self.counted.content)
        if times > 1:
            said.append(f"Slips with the same answers came {times} times for {self.about}.")
        if others := self.others:
            more = "; and more" if len(others) > SHOWN else ""
            listed = "; ".join(described(other) for other in others[:SHOWN])
            are = "differs from this one and is" if len(others) == 1 else "differ from this one and are"
            told = f"{many(len(others), 'other slip')} for this sheet {are} not counted: {listed}{more}."
            said.append(f"{told} {self._why_counted()}")
        return tuple(said)

    def _why_counted(self) -> str:
        if self.why == "unknown":
            return (
                f"Which of them is the {self.which} one is not known: neither the slips nor their mails say it. "
                "This one stands until the instructor chooses; it may be the other."
            )
        if self.why == "chosen":
            return "The instructor chose this one."
        if self.why == "best":
            return "The one with the best mark counts."
        if self.why == "name":
            return "The others came under other names."
        return f"The {self.which} one counts."

    def problems(self, marks: Mapping[int, str] | None = None) -> list[Problem]:
        """Each slip that differs from the one that counts, with why it does not count.

        marks  what each earns, where the best counts, by its place
        """
        told = []
        for n, other in enumerate(self.slips):
            if other.content != self.counted.content:
                why = self._why_not(other, (marks or {}).get(n, ""), (marks or {}).get(self.at, ""))
                told.append(
                    f"This slip of {self.about}, with {many(len(other.slip.answers), 'answer')}, is not counted: {why} "
                    f"Counted is the one from {described(self.counted)}."
                )
        return [of_slip(other.slip, text) for other, text in zip(self.others, told, strict=True)]

    def _why_not(self, other: Coming, mark: str, best: str) -> str:
        if other.mine != self.counted.mine:
            return f"it came under “{other.slip.who[:60]}”, and another under the student’s own roll or name."
        if self.why == "chosen":
            return "you chose another."
        if self.why == "best":
            return f"it earns {mark}, and another {best}." if mark else "the best of them counts."
        if self.why == "order":
            later = "later" if self.which == "last" else "earlier"
            return f"another is {later}, {how_known(self.counted, other)}, and counts."
        return (
            f"it is not known whether it is the {self.which} one, for neither the slips nor their mails say it. "
            "Until you choose, another stands; it may be the wrong one."
        )


def several(key: str, about: str, slips: Sequence[Coming], which: str, choice: str = "") -> Several:
    """Which of the slips of one sheet counts.  Of a choice that names none of them, nothing is kept.

    which  "first", "last" or "best"; until marks are known, the best is the last
    """
    rule: Which = "first" if which == "first" else "last"
    slips = tuple(slips)
    if len(slips) == 1 and not choice:
        return Several(key, about, slips, 0, "only", which)
    if choice and (chosen := _named(choice, slips)) is not None:
        return Several(key, about, slips, chosen, "chosen", which)
    own = [n for n, slip in enumerate(slips) if slip.mine] or list(range(len(slips)))
    at, known = outermost([slips[n] for n in own], rule)
    contents = {slips[n].content for n in own}
    why: Why = "unknown"
    if len(contents) == 1:
        why = "only" if len(own) == len(slips) else "name"
    elif which == "best":
        why = "best"
    elif known.sign:
        why = "order"
    return Several(key, about, slips, own[at], why, which)


def _named(choice: str, slips: Sequence[Coming]) -> int | None:
    """The one that a choice names, or None."""
    choice = choice.strip()
    check = "".join(LOOK_ALIKES.get(c, c) for c in choice.upper())
    for n, coming in enumerate(slips):
        if check_of(coming.slip) == check:
            return n
    if choice.isascii() and choice.isdecimal() and 1 <= int(choice) <= len(slips):
        return int(choice) - 1
    rule: Which | None = "first" if choice == "first" else "last" if choice == "last" else None
    if rule:
        at, known = outermost(slips, rule)
        return at if known.sign or len({slip.content for slip in slips}) == 1 else None
    return None


def misnamed(choices: Choices, found: Iterable[Several]) -> list[Problem]:
    """A sentence on each choice that names a sheet or a slip that did not come in."""
    by_key = {one.key: one for one in found}
    problems = []
    for key, choice in choices.items():
        one = by_key.get(key)
        if one is None:
            told = f"“{choice[:40]}” was chosen for {key}, and no slip came in for it. Look at the code or the roll."
            problems.append(Problem("", "", key, told))
        elif one.why != "chosen":
            slips = "; ".join(f"{check_of(c.slip)}, {described(c)}" for c in one.slips[:SHOWN])
            told = f"“{choice[:40]}” was chosen for {one.about}, and it names no one slip. There are: {slips}."
            problems.append(Problem("", "", key, told))
    return problems


def of_slip(slip: ReturnSlip, told: str, code: str = "") -> Problem:
    """What is wrong with a return slip, under the roll or name that stands on it.

    code  of the sheet, where it is known better than the slip has it
    """
    return Problem(slip.source, slip.who, code or slip.code, told, slip)
