"""How a record knows the magnetic length 2l: as it says itself, or as its laboratory does."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from exercises.codes.sheet_code import TWO_L, Setting
from exercises.kinds.deflection.lengths import LengthRule, rule_of
from exercises.record import passages
from exercises.record.entries import Numbers, Record
from exercises.record.finding import Finding
from exercises.working.numbers import centimetres

CELL = "two_l_is"
STATED, GIVEN, FIVE_SIXTHS = TWO_L
#: What a record may say, without spaces and marks, besides the words of TWO_L.
_OTHER_WORDS = {
    "own": STATED,
    "2lstated": STATED,
    "length": GIVEN,
    "lengthgiven": GIVEN,
    "thelengthgiven": GIVEN,
    "56": FIVE_SIXTHS,
    "56ofthemeasuredlength": FIVE_SIXTHS,
    "56ofmeasuredlength": FIVE_SIXTHS,
    "fivesixthsofthemeasuredlength": FIVE_SIXTHS,
}
#: What each rule is called on the form and in what is said of a record.
WORDS = {STATED: "stated as a number", GIVEN: "the length given", FIVE_SIXTHS: "5/6 of the measured length"}


@dataclass(frozen=True)
class MagneticLength:
    """The rule that holds and 2l by it in m; None where the record does not say enough.

    notes     what was taken for granted, or is to be said
    problems  a sentence for each cell that is not as the rule needs it, by cell name
    """

    rule: LengthRule | None
    two_l: float | None
    notes: tuple[Finding, ...] = ()
    problems: Mapping[str, str] = field(default_factory=dict)


def rule_named(text: str) -> LengthRule | None:
    """The rule that a cell names in words, or None.

    >>> rule_named("The length given").key, rule_named("5/6").key, rule_named("as ever")
    ('given', 'five-sixths', None)
    """
    letters = "".join(c for c in text.casefold() if c.isalnum())
    words = {"".join(c for c in key if c.isalnum()): key for key in TWO_L} | _OTHER_WORDS
    return rule_of(Setting(two_l=words[letters])) if letters in words else None


def magnetic_length(record: Record, numbers: Numbers) -> MagneticLength:
    """2l of a record by the rule that it names.  Where it names none, only a 2l that is typed is taken, as stated."""
    text, typed, length = record.head.get(CELL, "").strip(), numbers.get("two_l"), numbers.get("length")
    rule = rule_named(text)
    if rule is None and text:
        return MagneticLength(None, None, problems={CELL: _not_read(text)})
    if rule is None:
        return _not_said(typed, length, record.position.bracket)
    if rule.key == STATED:
        lacks = typed is None and "two_l" not in numbers.problems
        problems = {"two_l": "The record says that 2l is stated, so it is needed here."} if lacks else {}
        return MagneticLength(rule, typed, problems=problems)
    if length is None:
        lacks = "length" not in numbers.problems
        needed = f"The record says that 2l is {WORDS[rule.key]}, so that length is needed here."
        return MagneticLength(rule, None, problems={"length": needed} if lacks else {})
    two_l = rule.two_l(length, length)
    notes = () if typed is None or abs(typed / two_l - 1) < SAME else (_not_used(rule, two_l, typed),)
    return MagneticLength(rule, two_l, notes)


SAME = 0.006  # of 2l: a length in whole millimetres is rounded by no more


def _not_read(text: str) -> str:
    return f"“{text[:30]}” was not read. 2l is one of these: {', '.join(TWO_L)}."


def _not_said(typed: float | None, length: float | None, bracket: str) -> MagneticLength:
    if typed is not None:
        said = "The record does not say how 2l is known. A 2l is typed, so it is taken as stated."
        note = Finding("note", "two-l", said, passages.MAGNETIC_LENGTH, (CELL,))
        return MagneticLength(rule_of(Setting(two_l=STATED)), typed, (note,))
    if length is None:
        return MagneticLength(None, None)
    asked = (
        "How does your laboratory know 2l? Say whether it is stated, is the length given, or is 5/6 of the measured "
        f"length. Until then the columns from {bracket} on are not judged."
    )
    return MagneticLength(None, None, (Finding("look", "no-rule", asked, passages.MAGNETIC_LENGTH, (CELL,)),))


def _not_used(rule: LengthRule, two_l: float, typed: float) -> Finding:
    text = (
        f"2l was taken as {WORDS[rule.key]}, {centimetres(two_l, 2)} cm. The {centimetres(typed, 2)} cm that were "
        "typed for 2l were not used. If they are right, say that 2l is stated."
    )
    return Finding("look", "two-l", text, passages.MAGNETIC_LENGTH, (CELL, "two_l"))
