"""All that the judge says, each sentence under a key; what a slip says stands in the catalogue of slips."""

from collections.abc import Sequence

#: What a verdict says, by the case that it was made by (verdict.py).  Names in braces are filled in.
SENTENCES = {
    "blank": "",
    "two readings": "{why}",
    "not read": "{why}",
    "not offered": "That is not one of the choices offered. Choose one of them.",
    "zero": "Nothing on this sheet comes to zero. Look at what was typed.",
    "one figure": "One figure is too few to tell a right number from a wrong one. Type {asked}.",
    "right": "Right.",
    "right, does not follow": (
        "Right by the numbers given, but it does not follow from what you entered above. "
        "Mend the earlier entry, then look at this one again."
    ),
    "follows": (
        "Right working from a wrong start: this follows from what you entered above. "
        "Mend the earlier entry, then come back to this one."
    ),
    "cut off": "Right, but figures were cut off. Round them: up where the next figure is 5 or more.",
    "follows, cut off": (
        "Right working from a wrong start, but figures were cut off. "
        "Mend the earlier entry, then come back to this one, and round."
    ),
    "minus, or a slip": "The figures are right but for the minus: everything on this sheet is positive. Or: {says}",
    "minus": "The figures are right: drop the minus. Everything on this sheet is positive.",
    "slip": "{says}",
    "slip, or one like it": "This looks like one of two slips. {says} Or: {or_says}",
    "one of two slips": "This looks like one of two slips. {says} Or: {or_says}",
    "one of several slips": "This looks like one of several slips: {names}. Work it once more, and look at each.",
    "two slips": (
        "This looks like two slips at once, for the same two explain {many} of your entries: "
        "{one}; and {two}. First: {one_says} Second: {two_says}"
    ),
    "two slips, or two others": (
        "This looks like two slips at once, for the same two explain {many} of your entries: "
        "{one}; and {two}. First: {one_says} Second: {two_says} Or else: {three}; and {four}."
    ),
    "chosen wrongly": "{says}",
    "no start": "What was entered above leads to no number here. Mend that first, then come back to this one.",
    "more than nothing": "{start} is not right, and no slip known here explains it. {advice}.",
    "nothing": "This does not come to nothing. Look at what was typed.",
    "negative": "Everything on this sheet is positive. A minus often comes from a calculator set to radians.",
    "negative start": (
        "From what you entered above this would be negative, and everything on this sheet is positive. "
        "Mend that first, then come back to this one."
    ),
    "power of ten": (
        "The figures are right, but the number is {many} times too {side}. Look at the powers of ten and the units."
    ),
    "unexplained": "{start} is {off}, and no slip known here explains it. {advice}.",
}

#: What is asked for where one figure was typed, by the rule of the step, or of an uncertainty.
ASKED = {
    "angle": "the angle to 0.1°",
    "tangent": "the tangent to four places",
    "uncertainty": "two figures",
    "": "three figures",
}

#: What is remarked on the figures of a number; it is no mark against it.
REMARKS = {
    "few": "Few figures: keep {asked}, so that the rounding does not grow in the next step.",
    "many": "Many figures: that is finer than the readings allow. {enough} say all that is known.",
}
#: What to keep where few figures were typed, by the rule of the step, or of an uncertainty.
TO_KEEP = {
    "angle": "angles to 0.1°",
    "tangent": "tangents to four places",
    "uncertainty": "two figures",
    "": "three figures",
}
#: How many figures of a result are enough, by `Step.fewest`.
ENOUGH = {1: "One or two", 2: "Two", 3: "Three"}

#: How the description of an unexplained number begins.
BEGINNINGS = {"from entries": "From what you entered above, this", "alone": "This"}

#: How an unexplained number ends: what to do about it.
ADVICE = {
    "work again": "Work it once more",
    "rounding": "Look at how early you rounded, and work it once more",
    "reading": "Look once more, to the last division or decimal",
    "steps before": "Fill in the steps before it, and each will be checked",
    "earlier steps": "Fill in the earlier steps, so that it can be judged from them",
}

#: How far a number is off, from the farthest: by more than so many times, in words where it is too large and too small.
FAR_OFF: Sequence[tuple[float, str, str]] = (
    (10.0, "much too large", "much too small"),
    (2.0, "more than twice as large as it should be", "less than half of what it should be"),
    (1.1, "too large", "too small"),
    (0.0, "a little too large", "a little too small"),
)
SIDES = {True: "large", False: "small"}


def by_rule(sentences: dict[str, str], rule: str) -> str:
    """The words for a rule of writing, or those for every other rule."""
    return sentences.get(rule, sentences[""])
