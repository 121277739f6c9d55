"""The evidence on each step becomes a verdict in plain words, by a table of cases.

`NUMBERS` and `CHOICES` are read from top to bottom: the first case that holds
makes the verdict.  A case may take for granted that none above it holds.  Where
two cases hold at once, the upper one names the lower in `before`, and the
comment above it says why it comes first.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from exercises.judging.answer import Ask, Typed, Unreadable
from exercises.judging.entries import Chosen, Entry, read_entries
from exercises.judging.evidence import Evidence, gather
from exercises.judging.remarks import remarks_on, rule_of_figures
from exercises.judging.sentences import (
    ADVICE,
    ASKED,
    BEGINNINGS,
    FAR_OFF,
    SENTENCES,
    SIDES,
    by_rule,
)
from exercises.judging.slip_pairs import Pair, pairs_that_explain
from exercises.slips.catalogue import Slip
from exercises.working.steps import Working

POWER_SLACK = 0.01  # how far a number may miss a power of ten and be taken for one
ROUNDED_EARLY = 1.015  # times too large or too small: up to here early rounding is the likeliest reason

type State = Literal["blank", "right", "follows", "slip", "wrong", "ask", "unread"]


@dataclass(frozen=True)
class Verdict:
    """What is said of one entry.

    state    "blank", "right", "follows" (right from a wrong start), "slip",
             "wrong", "ask" (typed so that it cannot be judged), "unread"
    text     one to three plain sentences
    read     address of a passage, or ""
    slips    keys of the slips that explain the number; of two at once, two and two
    remarks  about figures; never a mark against
    case     the case that made it: its name in the table, and the key of its sentence
    """

    state: State
    text: str
    read: str = ""
    slips: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    case: str = ""

    def as_dict(self) -> dict[str, str | tuple[str, ...]]:
        """The verdict as pages and files get it."""
        return {
            "state": self.state,
            "text": self.text,
            "read": self.read,
            "slips": self.slips,
            "remarks": self.remarks,
        }


# -- what a case puts into its verdict ------------------------------------------------


type Fields = Mapping[str, str]


def _the_steps(e: Evidence) -> str:
    """The passage that explains the step."""
    return e.step.read


def _the_slips(e: Evidence) -> str:
    """The passage that explains the slip."""
    return e.explained_by[0].read


def _keys(e: Evidence) -> tuple[str, ...]:
    """The keys of the slips that give the number."""
    return tuple([slip.key for slip in e.explained_by])


def _why_not_read(e: Evidence) -> Fields:
    return {"why": str(e.entry)}


def _asked(e: Evidence) -> Fields:
    return {"asked": by_rule(ASKED, rule_of_figures(e.step))}


def _first_two_slips(e: Evidence) -> Fields:
    return dict(zip(("says", "or_says"), (slip.said_at(e.step) for slip in e.explained_by)))


def _all_slips(e: Evidence) -> Fields:
    return {"names": "; or ".join(slip.name for slip in e.explained_by)}


def _what_the_choice_says(e: Evidence) -> Fields:
    return {
        "says": next(wrong for key, _, wrong in e.step.choices if isinstance(e.entry, Chosen) and key == e.entry.value)
    }


def _power_of_ten(e: Evidence) -> int:
    """The power of ten by which the number is off and by nothing else; 0 if there is none."""
    power = round(math.log10(e.ratio))
    return power if abs(e.ratio / 10.0**power - 1) < POWER_SLACK else 0


def _how_many_times(e: Evidence) -> Fields:
    power = _power_of_ten(e)
    raised = str(abs(power)).translate(str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"))
    return {"many": "ten" if abs(power) == 1 else f"10{raised}", "side": SIDES[power > 0]}


def _how_far_off(e: Evidence) -> Fields:
    """What an unexplained number looks like, without giving the right one away."""
    factor = max(e.ratio, 1 / e.ratio)
    needs = e.working.plan.asked_needs(e.step)
    entered = sum(need in e.own for need in needs)
    if entered < len(needs):
        advice = "earlier steps" if e.step.row is None else "steps before"
    elif e.step.rule == "reading":
        advice = "reading"
    else:
        advice = "work again" if factor > ROUNDED_EARLY else "rounding"
    return {
        "start": BEGINNINGS["from entries" if entered else "alone"],
        "much": next(words for times, words in FAR_OFF if factor > times),
        "side": SIDES[e.ratio > 1],
        "advice": ADVICE[advice],
    }


# -- the tables ----------------------------------------------------------------------


@dataclass(frozen=True)
class Case:
    """One line of a table.

    name    of the case, and the key of its sentence
    state   of the verdict
    holds   whether the evidence is such; it may take for granted that no case above holds
    fields  what is filled into the sentence
    read    address of the passage that the verdict points to
    slips   keys of the slips that it names
    remarked  whether figures are remarked on
    before  names of the cases below that may hold at once
    """

    name: str
    state: State
    holds: Callable[[Evidence], bool]
    fields: Callable[[Evidence], Fields] | None = None
    read: Callable[[Evidence], str] | None = None
    slips: Callable[[Evidence], tuple[str, ...]] | None = None
    remarked: bool = False
    before: tuple[str, ...] = ()

    def verdict(self, e: Evidence) -> Verdict:
        """The verdict on an entry of this case."""
        sentence = SENTENCES[self.name]
        return Verdict(
            self.state,
            sentence.format_map(self.fields(e)) if self.fields else sentence,
            self.read(e) if self.read else "",
            self.slips(e) if self.slips else (),
            remarks_on(e) if self.remarked else (),
            self.name,
        )


#: Of a step that asks for a number.
NUMBERS: tuple[Case, ...] = (
    Case("blank", "blank", lambda e: e.entry is None),
    # what can be read two ways is a sort of unreadable: it is asked about, and not refused
    Case("two readings", "ask", lambda e: isinstance(e.entry, Ask), _why_not_read, before=("not read",)),
    Case("not read", "unread", lambda e: isinstance(e.entry, Unreadable), _why_not_read),
    # a zero has one figure too, and more noughts would not help; a span that reaches down to it does not make it right
    Case("zero", "wrong", lambda e: e.is_zero, read=_the_steps, before=("one figure", "right")),
    # one figure stands for so wide a span that a wrong number can look right, and many slips give it
    Case("one figure", "ask", lambda e: e.has_one_figure, _asked, before=("right", "minus", "slip")),
    # the earlier entry is to be mended first: this one is not simply right, though its number may be
    Case(
        "follows",
        "follows",
        lambda e: e.is_followed and bool(e.wrong),
        remarked=True,
        before=("slip",),
    ),
    # a right number is never called a slip, though a slip may come to it as well
    Case(
        "right",
        "right",
        lambda e: e.is_sound,
        remarked=True,
        before=("minus", "slip", "one of two slips", "one of several slips"),
    ),
    # slips are compared without their sign, so a minus alone is told first
    Case("minus", "wrong", lambda e: e.is_right_but_for_a_minus, before=("slip", "negative")),
    # a slip says what to mend; what a number looks like is said only where no slip gives it
    Case(
        "slip",
        "slip",
        lambda e: len(e.explained_by) == 1,
        _first_two_slips,
        read=_the_slips,
        slips=_keys,
        before=("negative", "power of ten", "unexplained"),
    ),
    Case(
        "one of two slips",
        "slip",
        lambda e: len(e.explained_by) == 2,
        _first_two_slips,
        read=_the_slips,
        slips=_keys,
        before=("unexplained",),
    ),
    Case(
        "one of several slips",
        "slip",
        lambda e: len(e.explained_by) > 2,
        _all_slips,
        read=_the_slips,
        slips=_keys,
        remarked=True,
        before=("unexplained",),
    ),
    # cutting off is one way among many that a number may come about: a slip is likelier
    Case("cut off", "right", lambda e: e.is_cut_off and not e.wrong, remarked=True, before=("unexplained",)),
    Case("follows, cut off", "follows", lambda e: e.is_cut_off, remarked=True, before=("unexplained",)),
    # from here on nothing explains the number, and it is held against what follows from the entries before it
    Case("no start", "wrong", lambda e: e.expected is None, read=_the_steps),
    Case("nothing", "wrong", lambda e: e.ratio == 0, read=_the_steps),
    # a sign tells more than a size, and a negative ratio has no power of ten
    Case("negative", "wrong", lambda e: e.ratio < 0, read=_the_steps),
    # the figures are right, so it is not said how far off the number is
    Case(
        "power of ten",
        "wrong",
        lambda e: _power_of_ten(e) != 0,
        _how_many_times,
        read=_the_steps,
        before=("unexplained",),
    ),
    Case("unexplained", "wrong", lambda e: True, _how_far_off, read=_the_steps),
)

#: Of a step that asks for a choice from a list.
CHOICES: tuple[Case, ...] = (
    Case("blank", "blank", lambda e: e.entry is None),
    Case("not offered", "unread", lambda e: not e.is_offered),
    # a right choice is right from any start: there is nothing in it to work
    Case("right", "right", lambda e: e.is_right, before=("follows",)),
    # it is to be mended with the entry that it follows from, so nothing is said against it
    Case("follows", "follows", lambda e: e.is_followed, before=("chosen wrongly",)),
    Case("chosen wrongly", "wrong", lambda e: True, _what_the_choice_says, read=_the_steps),
)


def case_of(e: Evidence) -> Case:
    """The first case of the step's table that holds."""
    for case in CHOICES if e.step.choices else NUMBERS:
        if case.holds(e):
            return case
    raise AssertionError("the last case of a table always holds")


# -- a whole sheet -------------------------------------------------------------------


def judge(working: Working, slips: Sequence[Slip], texts: Mapping[str, str], step_id: str) -> Verdict:
    """The verdict on one step.  KeyError if the sheet has no such step."""
    return judge_all(working, slips, texts)[step_id]


def judge_all(working: Working, slips: Sequence[Slip], texts: Mapping[str, str]) -> dict[str, Verdict]:
    """A verdict for every step of the sheet, from everything typed on it, by the step's id."""
    return judge_entries(working, slips, read_entries(working, texts))


def judge_entries(working: Working, slips: Sequence[Slip], entries: Mapping[str, Entry]) -> dict[str, Verdict]:
    """`judge_all` of entries that have been read."""
    evidence = gather(working, slips, entries)
    verdicts = {step_id: case_of(e).verdict(e) for step_id, e in evidence.items()}
    return verdicts | _explained_by_two(evidence, verdicts)


def _explained_by_two(evidence: Mapping[str, Evidence], verdicts: Mapping[str, Verdict]) -> dict[str, Verdict]:
    """New verdicts for wrong numbers that two slips together explain, the same two in more than one entry."""
    unexplained = [
        e
        for step_id, e in evidence.items()
        if verdicts[step_id].state == "wrong" and isinstance(e.entry, Typed) and e.entry.value
    ]
    found: dict[str, list[tuple[Pair, int]]] = {}
    for pair, step_ids in pairs_that_explain(unexplained):
        for step_id in step_ids:
            found.setdefault(step_id, []).append((pair, len(step_ids)))
    return {step_id: _two_slips(pairs) for step_id, pairs in found.items()}


def _two_slips(pairs: Sequence[tuple[Pair, int]]) -> Verdict:
    """The verdict on a number that pairs of slips explain, the likeliest first; at most two of them are named.

    pairs  each with how many entries it explains
    """
    (one, two), many = pairs[0]
    fields = {"many": many, "one": one.name, "two": two.name, "one_says": one.says, "two_says": two.says}
    case = "two slips"
    slips: tuple[str, ...] = one.key, two.key
    if len(pairs) > 1:
        three, four = pairs[1][0]
        case, fields = "two slips, or two others", {**fields, "three": three.name, "four": four.name}
        slips = (*slips, three.key, four.key)
    return Verdict("slip", SENTENCES[case].format_map(fields), one.read, slips, case=case)
