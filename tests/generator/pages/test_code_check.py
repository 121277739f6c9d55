"""The tables that a page looks codes over with say nothing of a code that Python does not say too."""

import json
import random
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.codes.sheet_code import (
    ALPHABET,
    LENGTH,
    SEEDS,
    CodeError,
    Setting,
    SheetCode,
    Station,
    read,
    write,
)
from exercises.kinds.kind import all_kinds, kind_of, open_code
from generator.pages.code_check import LOOKS_RIGHT, LOOKS_WRONG, code_check
from generator.pages.desk import desk

KINDS = list(all_kinds().values())
SETTINGS = (
    Setting("given", 38.2, 75, 10, 5, 0.5),
    Setting("five-sixths"),
    Setting(field=Station(3, 2026, 5), scale_step=1.0),
    Setting(length_mm=200, grid_mm=5, distances=8),
)
RULES = {kind.letter: json.loads(code_check(kind)) for kind in KINDS}


def looked_over(text: str, rule: dict) -> str:
    """What the page's script says, with the tables alone."""
    read_as = {c: n for n, same in enumerate(rule["characters"]) for c in same}
    values = [read_as.get(c) for c in text if c not in rule["between"]]
    if len(text) > rule["longest"] or None in values or len(values) not in rule["lengths"]:
        return ""
    if sum(w * v for w, v in zip(rule["weights"], values)) % rule["modulus"] != rule["sum"]:
        return rule["wrong"]
    return rule["right"] if any(values[: len(begin)] == begin for begin in rule["begins"]) else ""


def agrees_with_python(text: str, rule: dict, letter: str) -> str:
    """What is said of a text, once Python has been asked too."""
    said = looked_over(text, rule)
    try:
        code = read(text)
    except CodeError as error:
        assert said in ("", LOOKS_WRONG) or error.position == LENGTH + 1, text
        return said
    assert said == "" or (said == LOOKS_RIGHT and kind_of(code).letter == letter), text
    return said


def as_typed(code: str, chance: random.Random) -> str:
    """A code with other capitals, look-alikes, hyphens and spaces."""
    alike = {"2": "2Zz", "5": "5Ss", "8": "8Bb", "6": "6Gg"}
    symbols = (chance.choice(alike.get(c, c + c.lower())) for c in code.replace("-", ""))
    return "".join(c + chance.choice(("", "", "-", " ", " - ")) for c in symbols)


@pytest.mark.parametrize("kind", KINDS, ids=[kind.slug for kind in KINDS])
def test_thousands_of_codes_mistyped_codes_and_codes_of_others(kind):
    chance, rule = random.Random(kind.letter), RULES[kind.letter]
    for turn in range(400):
        letter = kind.letter if turn % 2 else chance.choice(ALPHABET)
        setting = chance.choice(SETTINGS) if turn % 4 < 2 else Setting()
        text = write(SheetCode(letter, kind.edition, chance.randrange(SEEDS), setting))
        own = letter == kind.letter
        for typed in (text, as_typed(text, chance)):
            assert agrees_with_python(typed, rule, kind.letter) == (LOOKS_RIGHT if own else "")
        plain = text.replace("-", "")
        at, put = chance.randrange(len(plain)), chance.choice(ALPHABET)
        if put != plain[at]:
            assert agrees_with_python(plain[:at] + put + plain[at + 1 :], rule, kind.letter) == LOOKS_WRONG
        at = chance.randrange(len(plain) - 1)
        if plain[at] != plain[at + 1]:
            swapped = plain[:at] + plain[at + 1] + plain[at] + plain[at + 2 :]
            assert agrees_with_python(swapped, rule, kind.letter) == LOOKS_WRONG
        for other in (plain[:-1], plain + put, f"?code={text}", text.replace("-", "–"), f"{text}\n", plain[:LENGTH]):
            agrees_with_python(other, rule, kind.letter)


TEXTS = st.text(st.sampled_from(f"{ALPHABET.lower()}{ALPHABET}ZSBG -_.,+=&?<OIl–·")) | st.text()


@given(TEXTS)
def test_of_any_text_no_more_is_said_than_python_says(text):
    for letter, rule in RULES.items():
        agrees_with_python(text, rule, letter)


def test_an_edition_that_a_kind_does_not_have_is_left_to_python():
    assert looked_over(write(SheetCode("A", 2, 5)), RULES["A"]) == ""


def test_a_text_is_read_up_to_a_length():
    good = write(SheetCode("A", 1, 5))
    rule = RULES["A"]
    assert looked_over(good + " " * (rule["longest"] - len(good)), rule) == LOOKS_RIGHT
    assert agrees_with_python(good + " " * rule["longest"], rule, "A") == ""


def test_the_tables_stand_in_the_page():
    code = write(SheetCode("A", 1, 5))
    html = desk("tan-a", open_code(code))
    _, _, rest = html.partition('data-rule="')
    assert json.loads(unescape(rest.partition('"')[0])) == RULES["A"]
