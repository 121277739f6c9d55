"""The evidence on each step becomes a verdict in plain words, by a table of cases.

`NUMBERS` and `CHOICES` are read from top to bottom: the first case that holds
makes the verdict.  A case may take for granted that none above it holds.  Where
two cases hold at once, the upper one names the lower in `before`, and the
comment above it says why it comes first.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from exercises.judging import filled_in
from exercises.judging.answer import Ask, Typed, Unreadable
from exercises.judging.entries import Entry, read_entries
from exercises.judging.evidence import Evidence, gather
from exercises.judging.filled_in import Fields
from exercises.judging.plain import plainly_right
from exercises.judging.remarks import remarks_on
from exercises.judging.sentences import SENTENCES
from exercises.judging.slip_pairs import Pair, pairs_that_explain
from exercises.slips.catalogue import Slip
from exercises.working.steps import Working

type State = Literal["blank", "right", "follows", "slip", "wrong", "ask", "unread"]


@dataclass(frozen=True)
class Verdict:
    """What is said of one entry.

    state    "blank", "right" (by the numbers given: its `case` tells whether it follows from the entries before it),
             "follows" (right from a wrong start), "slip", "wrong", "ask" (typed so that it cannot be judged), "unread"
    text     one to three plain sentences
    read     address of a passage, or ""
    slips    keys of the slips that explain the number; of two at once, two and two
    remarks  about figures; never a mark against
    case     the case that made it: its name in the table, and the key of its sentence
    like     keys of slips that hide and come to the same figures: spoken of after `slips`, and counted nowhere
    """

    state: State
    text: str
    read: str = ""
    slips: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    case: str = ""
    like: tuple[str, ...] = ()

    @property
    def is_plain(self) -> bool:
        """Whether nothing is said but that the entry is right, or nothing at all; of its figures something may be."""
        return self.case in ("right", "blank")

    def as_dict(self) -> dict[str, str | tuple[str, ...]]:
        """The verdict as pages and files get it."""
        return {
            "state": self.state,
            "text": self.text,
            "read": self.read,
            "slips": self.slips,
            "remarks": self.remarks,
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
    like    keys of the slips that it speaks of besides
    remarked  whether figures are remarked on
    before  names of the cases below that may hold at once
    """

    name: str
    state: State
    holds: Callable[[Evidence], bool]
    fields: Callable[[Evidence], Fields] | None = None
    read: Callable[[Evidence], str] | None = None
    slips: Callable[[Evidence], tuple[str, ...]] | None = None
    like: Callable[[Evidence], tuple[str, ...]] | None = None
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
            self.like(e) if self.like else (),
        )


#: Of a step that asks for a number.
NUMBERS: tuple[Case, ...] = (
    Case("blank", "blank", lambda e: e.entry is None),
    # what can be read two ways is a sort of unreadable: it is asked about, and not refused
    Case("two readings", "ask", lambda e: isinstance(e.entry, Ask), filled_in.why_not_read, before=("not read",)),
    Case("not read", "unread", lambda e: isinstance(e.entry, Unreadable), filled_in.why_not_read),
    # a zero has one figure too, and more noughts would not help; a span that reaches down to it does not make it right
    Case("zero", "wrong", lambda e: e.is_zero, read=filled_in.the_steps, before=("one figure", "right")),
    # one figure stands for so wide a span that a wrong number can look right, and many slips give it
    Case("one figure", "ask", lambda e: e.has_one_figure, filled_in.asked, before=("right", "minus", "slip")),
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
    # it earns as much as any right number, but it is told from one that right entries lead to
    Case(
        "right, does not follow",
        "right",
        lambda e: e.is_right_apart,
        remarked=True,
        before=(
            "slip",
            "one of two slips",
            "one of several slips",
            "more than nothing",
            "no start",
            "negative start",
            "power of ten",
            "unexplained",
        ),
    ),
    # where settings leave no slips that can be told apart, one may give the right figures with a minus: both are said
    Case(
        "minus, or a slip",
        "slip",
        lambda e: e.is_right_but_for_a_minus and e.is_slip_with_its_minus,
        filled_in.first_two_slips,
        read=filled_in.the_slips,
        slips=filled_in.keys,
        before=("minus", "slip", "negative"),
    ),
    # slips are compared without their sign, so a minus alone is told first
    Case("minus", "wrong", lambda e: e.is_right_but_for_a_minus, before=("slip", "negative")),
    # where the figures tell two slips apart no longer, both are said
    Case(
        "slip, or one like it",
        "slip",
        lambda e: len(e.explained_by) == 1 and bool(e.like_explained),
        filled_in.slip_and_one_like_it,
        read=filled_in.the_slips,
        slips=filled_in.keys,
        like=filled_in.keys_of_those_like_it,
        before=("slip", "negative", "unexplained"),
    ),
    # a slip says what to mend; what a number looks like is said only where no slip gives it
    Case(
        "slip",
        "slip",
        lambda e: len(e.explained_by) == 1,
        filled_in.first_two_slips,
        read=filled_in.the_slips,
        slips=filled_in.keys,
        before=("negative", "power of ten", "unexplained"),
    ),
    Case(
        "one of two slips",
        "slip",
        lambda e: len(e.explained_by) == 2,
        filled_in.first_two_slips,
        read=filled_in.the_slips,
        slips=filled_in.keys,
        before=("unexplained",),
    ),
    Case(
        "one of several slips",
        "slip",
        lambda e: len(e.explained_by) > 2,
        filled_in.all_slips,
        read=filled_in.the_slips,
        slips=filled_in.keys,
        before=("unexplained",),
    ),
    # cutting off is one way among many that a number may come about: a slip is likelier
    Case("cut off", "right", lambda e: e.is_cut_off and not e.wrong, remarked=True, before=("unexplained",)),
    Case("follows, cut off", "follows", lambda e: e.is_cut_off, remarked=True, before=("unexplained",)),
    # from here on nothing explains the number, and it is held against what follows from the entries before it
    # two means may be alike: zero is then right, and no number is any number of times too large for it
    Case(
        "more than nothing",
        "wrong",
        lambda e: e.comes_to_nothing,
        filled_in.what_to_do,
        read=filled_in.the_steps,
        before=("no start",),
    ),
    Case("no start", "wrong", lambda e: e.expected is None, read=filled_in.the_steps),
    Case("nothing", "wrong", lambda e: e.ratio == 0, read=filled_in.the_steps),
    # a sign tells more than a size, and a negative ratio has no power of ten
    Case("negative", "wrong", lambda e: e.ratio < 0 and e.number.value < 0, read=filled_in.the_steps),
    Case("negative start", "wrong", lambda e: e.ratio < 0, read=filled_in.the_steps),
    # the figures are right, so it is not said how far off the number is
    Case(
        "power of ten",
        "wrong",
        lambda e: filled_in.power_of_ten(e) != 0,
        filled_in.how_many_times,
        read=filled_in.the_steps,
        before=("unexplained",),
    ),
    Case("unexplained", "wrong", lambda e: True, filled_in.how_far_off, read=filled_in.the_steps),
)

#: Of a step that asks for a choice from a list.
CHOICES: tuple[Case, ...] = (
    Case("blank", "blank", lambda e: e.entry is None),
    Case("not offered", "unread", lambda e: not e.is_offered),
    # a right choice is right from any start: there is nothing in it to work
    Case("right", "right", lambda e: e.is_right, before=("follows",)),
    # it is to be mended with the entry that it follows from, so nothing is said against it
    Case("follows", "follows", lambda e: e.is_followed, before=("chosen wrongly",)),
    Case("chosen wrongly", "wrong", lambda e: True, filled_in.what_the_choice_says, read=filled_in.the_steps),
)


def case_of(e: Evidence) -> Case:
    """The first case of the step's table that holds."""
    for case in CHOICES if e.step.choices else NUMBERS:
        if case.holds(e):
            return case
    raise AssertionError("the last case of a table always holds")


#: Of most entries there is nothing else to say.
RIGHT = Verdict("right", SENTENCES["right"], case="right")
BLANK = Verdict("blank", SENTENCES["blank"], case="blank")


# -- a whole sheet -------------------------------------------------------------------


def judge(working: Working, slips: Sequence[Slip], texts: Mapping[str, str], step_id: str) -> Verdict:
    """The verdict on one step.  KeyError if the sheet has no such step."""
    return judge_all(working, slips, texts)[step_id]


def judge_all(working: Working, slips: Sequence[Slip], texts: Mapping[str, str]) -> dict[str, Verdict]:
    """A verdict for every step of the sheet, from everything typed on it, by the step's id."""
    return judge_entries(working, slips, read_entries(working, texts))


def judge_entries(working: Working, slips: Sequence[Slip], entries: Mapping[str, Entry]) -> dict[str, Verdict]:
    """`judge_all` of entries that have been read."""
    plain = plainly_right(working, entries)
    verdicts = {s.id: RIGHT if s.id in plain else BLANK for s in working.steps}
    if len(plain) == len(entries):
        return verdicts
    evidence = gather(working, slips, entries, {s.id for s in working.steps if s.id in plain or s.id not in entries})
    verdicts |= {step_id: case_of(e).verdict(e) for step_id, e in evidence.items()}
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
