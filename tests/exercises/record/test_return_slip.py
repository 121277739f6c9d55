"""A record's return slip: what is written comes back, and what was changed on the way is seen."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.record.entries import COLUMNS, HEAD, RESULTS, Record, Row
from exercises.record.return_slip import MARK, is_record, record_of, record_slip
from exercises.return_slip.lines import LONGEST_ANSWER, ReturnSlip
from exercises.return_slip.text import return_slip_text, return_slips_in

ROW = Row("21.3", ("44", "45", "44.5", "46.5", "", "", "", ""))
RECORD = Record({"length": "8.0", "B_H": "36.2", "two_l_is": "given"}, (ROW,))


def written(record, who="Knot", code="", zero=("", "")) -> str:
    slip = record_slip(record, who, code, zero)
    assert slip.ok, slip.says
    return slip.text


def back(text):
    (slip,), problems = return_slips_in(text, "mail")
    assert not problems and is_record(slip)
    return record_of(slip)


def test_it_reads_as_a_person_would():
    lines = written(RECORD, zero=("0.5", "0")).splitlines()
    assert lines[0] == "EIGHT READINGS RETURN SLIP 1" and lines[-1].startswith("END OF SLIP 9 LINES ")
    plain = [line.partition(" [")[0] for line in lines[1:-1]]
    assert plain[:8] == [
        "01 who: Knot",
        f"02 code: {MARK}",
        "03 length: 8.0",
        "04 two-l-is: given",
        "05 b-h: 36.2",
        "06 zero-1: 0.5",
        "07 zero-2: 0",
        "08 d-1: 21.3",
    ]
    assert plain[8] == "09 readings-1: 44 / 45 / 44.5 / 46.5 / ?" and all(len(line) <= 40 for line in lines)


def test_all_comes_back():
    handed = back("Dear all,\n> " + written(RECORD, code="A3H-222-222", zero=("0.5", "")).replace("\n", "\n> "))
    assert handed.record == RECORD and handed.zero == ("0.5", "") and handed.left_out == ()
    assert (handed.who, handed.code, handed.source) == ("Knot", "A3H-222-222", "mail")


#: What a cell may hold: also what is a mark of the slip itself.
CELLS = st.one_of(
    st.sampled_from(["", "?", " / ", "44/", "1 / 2", "[", "4,5", "44 ", " 44", "−3"]), st.text(max_size=30)
)


HEADS = len(HEAD) + len(RESULTS)


def _blank_is_nothing(text: str) -> str:
    return text if text.strip() else ""


@settings(max_examples=60, deadline=None)
@given(st.lists(CELLS, min_size=13, max_size=13), st.lists(CELLS, min_size=HEADS, max_size=HEADS))
def test_whatever_is_typed_comes_back(cells, head):
    keys = [f.key for f in (*HEAD, *RESULTS)]
    row = Row("21.3", tuple(cells[:8]), *cells[9:])
    record = Record(dict(zip(keys, head, strict=True)), (Row(), row))
    found = back(written(record)).record
    for given_text, came in zip(
        (*head, *cells[:8], *cells[9:]),
        (
            *(found.head.get(k, "") for k in keys),
            *found.rows[1].readings,
            *(getattr(found.rows[1], c) for c in COLUMNS),
        ),
        strict=True,
    ):
        # a slip takes some marks for the same (exercises/return_slip/characters.py)
        same = {"×": "x", "−": "-"}
        want = "".join(same.get(c, c) for c in _blank_is_nothing(given_text))
        assert "".join(same.get(c, c) for c in came) == want


def test_a_change_on_the_way_is_seen():
    text = written(RECORD).replace("44.5", "45.4")
    slips, problems = return_slips_in(text, "mail")
    assert not slips and "readings-1" in problems[0].text and "was changed on the way" in problems[0].text


@pytest.mark.parametrize(
    ("who", "code", "record", "at"),
    [
        ("", "", RECORD, "who"),
        ("Knot", "A" * 61, RECORD, "code"),
        ("Knot", "", Record({}, (Row(),)), ""),
        ("Knot", "", Record({"place": "x" * (LONGEST_ANSWER + 1)}, (ROW,)), "place"),
    ],
)
def test_what_is_to_be_done_first(who, code, record, at):
    slip = record_slip(record, who, code)
    assert not slip.ok and slip.at == at and slip.says.endswith(".") and not slip.text


def test_how_whole_it_is():
    whole = Row("20", ("44",) * 8)
    assert record_slip(Record({}, (whole,)), "Knot").says == "The slip has 1 distance with all readings."
    assert (
        record_slip(Record({}, (whole, ROW)), "Knot").says == "The slip has 2 distances, 1 of them with all readings."
    )


def test_lines_of_another_slip_are_left_out():
    slip = ReturnSlip("Knot", "record", {"mean-9": "45", "d-1": "20", "theta": "3"}, {})
    (read,), _ = return_slips_in(return_slip_text(slip), "mail")
    handed = record_of(read)
    assert handed.left_out == ("mean-9", "theta") and handed.record.rows[0].d == "20"
    assert not is_record(ReturnSlip("Knot", "A3H-222-222", {}, {})) and not is_record(ReturnSlip("Knot", "", {}, {}))
