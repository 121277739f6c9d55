"""The check character against a second implementation, on every single error and every swap.

Source of the scheme: the weighted check sums of the ISBN-10 and ISO 7064 family,
here with the prime 23.  This file does not use sheet_code's arithmetic: the
check character is found by trying all of them.
"""

import itertools

import pytest

from exercises.codes.sheet_code import ALPHABET, LOOK_ALIKES, SEEDS, CodeError, Setting, SheetCode, Station, read, write

CODES = (
    SheetCode("A", 1, 0),
    SheetCode("A", 1, SEEDS - 1),
    SheetCode("C", 22, 123456, Setting("given", Station(23, 2029, 12), 200, 10, 8, 0.5)),
    SheetCode("2", 0, 7, Setting(field=10.0)),
    SheetCode("Y", 9, 98765432, Setting(scale_step=1.0, distances=4, length_mm=75)),
    SheetCode("A", 2, 31415926, Setting("five-sixths", Station(20, 2025, 1))),
)
WRITTEN = tuple(write(code).replace("-", "") for code in CODES)


def _weighted(text: str) -> int:
    """Position times place in the alphabet, added up: the definition, from the docstring of the module."""
    return sum((i + 1) * "23456789ACEFHJKMNPRTWXY".index(c) for i, c in enumerate(text))


def _refused_by_the_check(text: str) -> bool:
    try:
        read(text)
    except CodeError as error:
        return "check character" in str(error)
    return False


@pytest.mark.parametrize("text", WRITTEN)
def test_one_check_character_of_all_fits_and_it_is_the_one_written(text):
    fitting = [c for c in ALPHABET if _weighted(text[:2] + c + text[3:]) % 23 == 0]
    assert fitting == [text[2]]


@pytest.mark.parametrize("text", WRITTEN)
def test_every_single_wrong_character_is_caught(text):
    tried = 0
    for at, other in itertools.product(range(len(text)), ALPHABET):
        if other != text[at]:
            wrong = text[:at] + other + text[at + 1 :]
            assert _weighted(wrong) % 23
            assert _refused_by_the_check(wrong), wrong
            tried += 1
    assert tried == len(text) * 22


@pytest.mark.parametrize("text", WRITTEN)
def test_every_swap_is_caught_of_neighbours_and_of_any_two(text):
    """Neighbours are what is promised; any two places differ by less than 23, so any swap is caught."""
    for i, j in itertools.combinations(range(len(text)), 2):
        if text[i] != text[j]:
            swapped = list(text)
            swapped[i], swapped[j] = swapped[j], swapped[i]
            assert _refused_by_the_check("".join(swapped)), (i, j)


@pytest.mark.parametrize("text", WRITTEN)
def test_look_alikes_are_no_error_and_everything_else_outside_the_alphabet_is(text):
    for at in range(len(text)):
        for symbol in map(chr, range(33, 127)):
            symbol_read = LOOK_ALIKES.get(symbol.upper(), symbol.upper())
            tried = text[:at] + symbol + text[at + 1 :]
            if symbol_read == text[at]:
                assert read(tried) == read(text)
            elif symbol != "-":
                with pytest.raises(CodeError):
                    read(tried)


def test_a_code_typed_at_random_passes_once_in_twenty_three():
    """All 23² endings of one beginning: exactly 23 of them are good."""
    start = WRITTEN[0][:7]
    good = 0
    for pair in itertools.product(ALPHABET, repeat=2):
        text = start + "".join(pair)
        passes = _weighted(text) % 23 == 0
        assert passes is not _refused_by_the_check(text)
        good += passes
    assert good == 23
