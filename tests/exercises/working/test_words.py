"""Lists and counts as a sentence has them."""

from exercises.working.words import listed, many


def test_a_list_has_commas_and_one_and():
    assert (
        listed(["a", "b", "c"], "or") == "a, b or c"
        and listed(["a"]) == "a"
        and listed(["a", "b"]) == "a and b"
        and listed(["a", "b", "c"]) == "a, b and c"
    )


def test_one_is_told_from_none_and_several():
    assert [many(n, "sheet") for n in (0, 1, 1200)] == ["0 sheets", "1 sheet", "1,200 sheets"]
    assert many(1, "entry", "entries") == "1 entry" and many(2, "entry", "entries") == "2 entries"
