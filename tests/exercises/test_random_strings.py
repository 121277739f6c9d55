"""Random strings through every input: no crash, no hang; what was slow or broke once stays mended.

The ten thousand of each input are in the benchmark `random_strings_worst_ms`.
"""

import json
import random
import time

import pytest

from exercises.kinds.fault import steps as fault
from exercises.return_slip.characters import check
from exercises.return_slip.files import text_of
from exercises.return_slip.text import ReturnSlip, return_slip_text, return_slips_in
from exercises.student import desk as student
from exercises.student.why import settings_from
from tests.exercises.golden import codes_of
from tests.exercises.strings import INPUTS, REPEATED, WHOLE, text

STRINGS = 300
HANG = 0.05  # s of this processor's time; one hundredth of the strings is far longer than any honest one
CODE = codes_of("A")[0]


def seconds(call, *given) -> float:
    """This processor's time for a call, whatever else the machine does; the least of two."""
    found = []
    for _ in range(2):
        start = time.thread_time()
        call(*given)
        found.append(time.thread_time() - start)
    return min(found)


@pytest.mark.parametrize("name", INPUTS)
def test_no_string_breaks_or_holds_up_an_input(name):
    one, chance = INPUTS[name], random.Random(name)
    for _ in range(STRINGS // (3 if name.startswith(WHOLE) else 1)):
        given, state = text(chance), chance.getstate()
        start = time.thread_time()
        one(chance, given)
        if time.thread_time() - start > HANG:  # once more: what is drawn or loaded the first time is kept
            chance.setstate(state)
            start = time.thread_time()
            one(chance, given)
            assert time.thread_time() - start < HANG, ascii(given[:80])


@pytest.mark.parametrize("repeated", REPEATED)
def test_a_long_repeat_takes_no_longer_than_its_length(repeated):
    """Four times the length takes about four times as long, not sixteen: of what is typed and of a whole mail."""
    many = 20_000 // len(repeated)
    for read in (
        lambda t: student.check(CODE, json.dumps({"mean-1": t, "tan-1": t})),
        lambda t: return_slips_in(f"EIGHT READINGS RETURN SLIP 1\n01 who: {t} [22]\nEND OF SLIP 1 LINES 22222", "mail"),
    ):
        once = seconds(read, repeated * many)
        assert seconds(read, repeated * many * 4) < max(0.02, 9 * once), once


MAIL = "From: a\nMime-Version: 1.0\n"


@pytest.mark.parametrize("header", ("Content-Type: text/plain", "Content-Type: ", "Content-Transfer-Encoding: "))
@pytest.mark.parametrize("repeated", ('"', "(", ";a=b", ";a*0*=utf-8''x;", "\\", "<", "=?utf-8?q?a?= ", '; charset="'))
def test_a_mail_with_an_endless_header_is_read_at_once(header, repeated):
    raw = f"{MAIL}{header}{repeated * (40_000 // len(repeated))}\n\nhello".encode()
    assert seconds(lambda: _text_or_sentence(raw)) < HANG


@pytest.mark.parametrize(
    "repeated", ("<a b='", "<!--", "<", "</", "<!", "<![CDATA[", "&#", "&", "<script>", '<p a="', "-->", "<a ")
)
def test_a_mail_of_broken_html_is_read_at_once(repeated):
    raw = f"{MAIL}Content-Type: text/html\n\n{repeated * (40_000 // len(repeated))}".encode()
    assert seconds(lambda: _text_or_sentence(raw)) < HANG


def _text_or_sentence(raw: bytes) -> None:
    try:
        text_of(raw, "a.eml")
    except ValueError as error:
        assert str(error).startswith("It is")


def test_what_is_hidden_in_a_page_is_no_text_of_it():
    page = (
        "<html><head><title>no</title></head><style>p > a { x: 'no' }</style><!-- no <p>no</p> -->"
        "<p class='a'>one &lt; two &amp;&#32;three<br>four</p><SCRIPT>no</SCRIPT>"
        "<div>f&uuml;nf &#99999999999999999;</div>"
    )
    found = text_of(f"{MAIL}Content-Type: text/html; charset=utf-8\n\n{page}".encode(), "a.eml").split()
    assert found == ["one", "<", "two", "&", "three", "four", "fünf", "\ufffd;"]


@pytest.mark.parametrize(
    "typed",
    (
        "⁻" * 60,
        "10" + "⁰" * 40,
        "eight readings return slip 1",
        "Eight\nReadings. Return – Slip: 1",
        "END OF SLIP 5 LINES K7YER",
        "\ud800",
        "e" * 99,
    ),
)
def test_whatever_is_typed_comes_back_from_a_slip(typed):
    (slip,), problems = return_slips_in(
        return_slip_text(ReturnSlip(typed, CODE, {"mean-1": typed}, {"mean-1": f"x{typed}"})), ""
    )
    whole = typed.replace("\ud800", "\ufffd")
    assert not problems and (slip.who, slip.answers, slip.firsts) == (whole, {"mean-1": whole}, {"mean-1": f"x{whole}"})


def test_half_a_character_in_a_mail_breaks_nothing():
    assert len(check("\ud800", 2)) == 2
    assert return_slips_in("EIGHT READINGS RETURN SLIP 1\n01 who: \ud800 [22]\nEND OF SLIP 1 LINES 22222", "mail")[1]


def test_a_number_too_large_for_a_slider_is_none():
    assert settings_from({"zero_error": 10**400})["zero_error"] == 0


def test_a_code_without_numbers_gets_a_sentence(monkeypatch):
    def none(text):
        raise ArithmeticError("none")

    monkeypatch.setattr(student, "open_code", none)
    found = json.loads(student.open_sheet("tan-a", CODE))
    assert not found["ok"] and found["text"].endswith("ask for another code.")


def test_the_plans_of_many_sheets_are_not_all_kept():
    assert fault.plan_for.cache_info().maxsize <= 16
