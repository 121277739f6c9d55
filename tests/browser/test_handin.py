"""A student hands in: the slip is made, read back, copied, saved; what was typed first is kept."""

import re
from itertools import count

import pytest

from exercises.codes.sheet_code import SheetCode, write
from exercises.return_slip.text import return_slips_in
from tests.browser.steps import PYTHON, kept, open_sheet, right_answers, said, type_in

SEEDS = count(1)


@pytest.fixture(scope="module")
def opened(context, address):
    """One page for all tests here, since Python takes seconds to start."""
    page = context.new_page()
    page.base = address
    open_sheet(page)
    page.evaluate("localStorage.clear()")
    yield page
    page.close()


@pytest.fixture
def sheet(opened):
    """A sheet on which nothing was typed yet: the page, its code as `code`."""
    opened.code = write(SheetCode("A", 1, next(SEEDS)))
    opened.fill("#er-code", opened.code)
    opened.press("#er-code", "Enter")
    opened.wait_for_selector(f'.er-sheet[data-code="{opened.code}"]')
    return opened


def make(page, who="Ringed Plover"):
    """Make the slip, and read it from the page."""
    page.fill("#er-who", who)
    page.click(".er-handin-form button")
    page.wait_for_selector(".er-slip-holder:not([hidden]) .er-slip:not([data-older])")
    page.wait_for_function("document.querySelector('.er-handin-says').textContent !== ''")
    return page.input_value(".er-slip")  # as it is shown, without its last line end


def read(text):
    (slip,), problems = return_slips_in(text, "page")
    assert problems == []
    return slip


def test_the_slip_has_what_was_typed_last_and_first(sheet):
    page = sheet
    answers = right_answers(page.code)
    type_in(page, "mean-1", "12")
    type_in(page, "mean-1", answers["mean-1"])
    page.fill("#er-tan-1", "0.12")  # looked at by Enter, and put right before the field is left
    page.press("#er-tan-1", "Enter")
    said(page, "tan-1")
    type_in(page, "tan-1", answers["tan-1"])
    type_in(page, "mean-moment", "4.1 × 10⁻³  A·m²")
    type_in(page, "mean-2", "50.1")
    page.fill("#er-mean-2", "")
    page.press("#er-mean-2", "Tab")
    page.fill("#er-pole", " <b>16</b>")  # not left yet, so never a first
    slip = read(make(page))
    assert (slip.who, slip.code) == ("Ringed Plover", page.code)
    assert slip.answers == {
        "mean-1": answers["mean-1"],
        "tan-1": answers["tan-1"],
        "mean-moment": "4.1 × 10⁻³  A·m²",
        "pole": " <b>16</b>",
    }
    assert slip.firsts == {"mean-1": "12", "tan-1": "0.12", "mean-2": "50.1"}
    assert (
        page.inner_text(".er-handin-says")
        == f"{len(answers) - 4} of {len(answers)} steps are still blank. The slip is made all the same."
    )


def test_a_whole_sheet_makes_a_whole_slip(sheet):
    page = sheet
    answers = right_answers(page.code)
    for step, answer in answers.items():
        page.fill(f"#er-{step}", answer)
    text = make(page, "7")
    assert read(text).answers == answers
    assert page.inner_text(".er-handin-says") == f"The slip has all {len(answers)} steps."
    box = page.locator(".er-slip")
    assert box.evaluate("e => e.scrollHeight <= e.clientHeight + 1 && e.scrollWidth <= e.clientWidth")
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]
    assert max(map(len, text.splitlines())) <= 40


def test_without_a_name_there_is_a_sentence(sheet):
    page = sheet
    page.fill("#er-who", " - ")
    page.click(".er-handin-form button")
    page.wait_for_function("document.querySelector('.er-handin-says').textContent !== ''")
    assert "Type your roll number or your name first" in page.inner_text(".er-handin-says")
    assert not page.is_visible(".er-slip")
    assert page.evaluate("document.activeElement.id") == "er-who"


def test_an_older_slip_is_said_to_be(sheet):
    page = sheet
    type_in(page, "mean-1", "12")
    one = read(make(page))
    assert one.number == 1 and re.fullmatch(r"20\d\d-\d\d-\d\d \d\d:\d\d", one.written)
    assert page.inner_text(".er-older") == ""
    page.fill("#er-mean-1", "13")
    assert "changed after this slip was made" in page.inner_text(".er-older")
    page.fill("#er-mean-1", "12")
    assert page.inner_text(".er-older") == ""
    page.fill("#er-who", "Knot")
    assert "changed after" in page.inner_text(".er-older")
    again = read(make(page, "Knot"))
    assert (again.who, again.number) == ("Knot", 2)
    assert page.inner_text(".er-older") == ""
    page.once("dialog", lambda d: d.accept())
    page.click(".er-clear")
    page.wait_for_function("document.querySelector('.er-older').textContent !== ''")
    page.click(".er-fresh")  # another sheet has no slip yet
    page.wait_for_selector(".er-slip-holder[hidden]", state="attached")
    assert page.inner_text(".er-handin-says") == ""


def test_name_and_firsts_are_kept(sheet):
    page = sheet
    type_in(page, "mean-1", "12")
    make(page, "نورس البحر")
    type_in(page, "mean-1", "13")
    page.once("dialog", lambda d: d.accept())
    page.click(".er-clear")
    page.reload()
    page.wait_for_selector(".er-handin:not([hidden])", timeout=60_000)
    assert page.input_value("#er-who") == "نورس البحر"
    assert kept(page)[f"firsts:{page.code}"] == {"mean-1": "12"}
    type_in(page, "mean-1", "14")
    page.click(".er-handin-form button")
    page.wait_for_selector(".er-slip-holder:not([hidden])")
    slip = read(page.input_value(".er-slip"))
    assert (slip.who, slip.answers, slip.firsts) == ("نورس البحر", {"mean-1": "14"}, {"mean-1": "12"})


@pytest.mark.parametrize("allowed", [True, False], ids=["allowed", "refused"])
def test_copy(sheet, allowed):
    page = sheet
    type_in(page, "mean-1", "12°")
    text = make(page)
    page.evaluate(
        "ok => Object.defineProperty(navigator, 'clipboard', { configurable: true, value: "
        "{ writeText: async (t) => { if (!ok) throw new Error('no'); window.copied = t; } } })",
        allowed,
    )
    page.click(".er-copy")
    page.wait_for_function("document.querySelector('.er-slip-says').textContent !== ''")
    if allowed:
        assert page.evaluate("window.copied") == text + "\n"
        assert "Copied" in page.inner_text(".er-slip-says")
    else:
        assert (
            page.evaluate("e = document.querySelector('.er-slip'), e.value.slice(e.selectionStart, e.selectionEnd)")
            == text
        )
        assert "selected" in page.inner_text(".er-slip-says")


def test_save_as_a_file(sheet, tmp_path):
    page = sheet
    type_in(page, "mean-1", "12°")
    text = make(page, "../Ringed Plover: 7")
    with page.expect_download() as got:
        page.click(".er-save")
    assert got.value.suggested_filename == f"return-Ringed-Plover-7-{page.code}.txt"
    got.value.save_as(tmp_path / "slip.txt")
    assert (tmp_path / "slip.txt").read_bytes() == f"{text}\n".encode()


# those that open a page of their own come last: with it all others of this browser are closed


def test_it_is_there_only_with_python_and_never_on_paper(page):
    page.route(PYTHON, lambda route: route.abort())
    page.goto(f"{page.base}exercises/tan-a/")
    page.wait_for_selector('.er-status[data-state="failed"]', timeout=60_000)
    assert not page.is_visible(".er-handin")
    for typed in ("12", "13"):  # on a sheet that has no code yet
        page.fill("#er-mean-1", typed)
        page.press("#er-mean-1", "Tab")
    page.unroute(PYTHON)
    page.click(".er-again")
    page.wait_for_selector(".er-handin:not([hidden])", timeout=60_000)
    code = page.get_attribute(".er-sheet", "data-code")
    assert (kept(page)[f"firsts:{code}"], kept(page)[f"sheet:{code}"]) == ({"mean-1": "12"}, {"mean-1": "13"})
    page.emulate_media(media="print")
    assert not page.is_visible(".er-handin")
    page.emulate_media(media="screen")


def test_choices_and_other_kinds_go_on_a_slip(page):
    open_sheet(page, code=None, sheet="exercises/fault/")
    code = page.get_attribute(".er-sheet", "data-code")
    page.select_option("#er-fault", "zero")
    page.select_option("#er-fault", "second-turn")
    slip = read(make(page, "9"))
    assert (slip.code, slip.answers, slip.firsts) == (code, {"fault": "second-turn"}, {"fault": "zero"})
