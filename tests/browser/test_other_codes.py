"""A code that a page refuses touches nothing that is kept: entries belong to the sheet of their code."""

import json

import pytest

from exercises.codes.sheet_code import ALPHABET, SheetCode, write
from exercises.kinds.kind import all_kinds, open_code
from generator.pages.code_check import LOOKS_WRONG
from tests.browser.steps import kept

#: One sheet of each kind, and what is typed on it: the same words for no two sheets.
CODES = {kind.slug: write(SheetCode(kind.letter, kind.edition, 77)) for kind in all_kinds().values()}
TYPED = {
    slug: {
        step.id: f"{7 + n}.{at}" for at, step in enumerate(s for s in open_code(code).working.steps if not s.choices)
    }
    for n, (slug, code) in enumerate(CODES.items())
}
#: The script is one for all kinds; these pages have whole numbers, choices, several tables and a single one.
SOME, OTHERS = ("tan-a", "setting", "graph", "dial"), ("compare", "distances", "uncertainty")
STORED = {f"sheet:{code}": TYPED[slug] for slug, code in CODES.items()}
FIELDS = ".er-entry :is(input, select)"
SHOWN = (
    f"Object.fromEntries([...document.querySelectorAll('{FIELDS}')].filter(f => f.value).map(f => [f.name, f.value]))"
)
#: The worker as it is where Python cannot start.
NO_PYTHON = 'postMessage({ failed: "no Python here", from: self.name });'


@pytest.fixture(scope="module")
def visitor(browser, address):
    """A page whose device keeps a sheet of every kind; its errors fail the test."""
    context = browser.new_context(viewport={"width": 360, "height": 900})
    opened = context.new_page()
    errors = []
    opened.base = address
    opened.on("pageerror", lambda error: errors.append(str(error)))
    opened.goto(address)
    opened.evaluate("localStorage.clear()")
    opened.evaluate(
        "all => Object.entries(all).forEach(([key, value]) => localStorage.setItem('eight-readings:' + key, value))",
        {key: json.dumps(typed) for key, typed in STORED.items()},
    )
    yield opened
    context.close()
    assert errors == []


def others(slug: str) -> list[str]:
    return [code for kind, code in CODES.items() if kind != slug]


def mistyped(code: str) -> str:
    """The code with another check character."""
    return code[:-1] + ALPHABET[(ALPHABET.index(code[-1]) + 1) % len(ALPHABET)]


def opened_by_form(page, code: str) -> None:
    page.fill("#er-code", code)
    page.press("#er-code", "Enter")


def refused_by_form(page, code: str) -> None:
    page.evaluate("document.querySelector('.er-trouble').hidden = true")
    opened_by_form(page, code)
    page.wait_for_selector(".er-trouble:not([hidden])")


def is_untouched(page, shown: dict[str, str]) -> None:
    """The entries of every sheet are as they were, and the fields hold what is given."""
    found = kept(page)
    assert {key: found[key] for key in STORED} == STORED
    assert page.evaluate(SHOWN) == shown


@pytest.mark.parametrize("slug", SOME)
def test_no_code_of_another_kind_touches_what_is_kept(visitor, slug):
    page, own = visitor, CODES[slug]
    first, *rest = [*others(slug), mistyped(own), mistyped(others(slug)[0]), "hello"]
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.goto(f"{page.base}exercises/{slug}/?code={first}")
    is_untouched(page, {})
    for code in rest:  # wanted, while Python starts
        opened_by_form(page, code)
        is_mistyped = code in (mistyped(own), mistyped(others(slug)[0]))
        assert page.inner_text(".er-status").endswith(
            LOOKS_WRONG if is_mistyped else "This sheet is opened when this page is ready."
        )
        is_untouched(page, {})
    opened_by_form(page, first)
    while not held:
        page.wait_for_timeout(20)
    held.pop().continue_()
    page.unroute("**/image.bin")
    page.wait_for_selector(".er-trouble:not([hidden])", timeout=60_000)
    is_untouched(page, {})
    assert page.inner_text(".er-status").startswith("Go to that exercise")
    for code in rest:  # refused, while no sheet is open
        refused_by_form(page, code)
        is_untouched(page, {})
    assert page.inner_text(".er-status").startswith("Mend the sheet code")
    opened_by_form(page, own)
    page.wait_for_selector(f'.er-holder:not(.er-waiting) .er-sheet[data-code="{own}"]')
    assert page.inner_text(".er-status").startswith("Your numbers are here")  # no code is asked for any more
    is_untouched(page, TYPED[slug])
    for code in (first, *rest):  # refused, while the page's own sheet is open
        refused_by_form(page, code)
        is_untouched(page, TYPED[slug])


@pytest.mark.parametrize("slug", OTHERS)
def test_where_python_cannot_start_no_code_of_another_kind_touches_what_is_kept(visitor, slug):
    page = visitor
    following = [*CODES, *CODES][list(CODES).index(slug) + 1 :]
    page.route("**/worker.js", lambda route: route.fulfill(body=NO_PYTHON, content_type="text/javascript"))
    for code in (CODES[following[0]], CODES[following[4]], mistyped(CODES[slug])):
        page.goto(f"{page.base}exercises/{slug}/?code={code}", wait_until="commit")
        page.wait_for_selector('.er-status[data-state="failed"]')
        assert "here is the practice sheet" in page.inner_text(".er-trouble")
        is_untouched(page, {})
    for code in others(slug):
        opened_by_form(page, code)
        assert "practice sheet" not in page.inner_text(".er-trouble")
        assert "press Try again" in page.inner_text(".er-status")
        is_untouched(page, {})
    page.goto(f"{page.base}exercises/{slug}/?code={CODES[slug]}")
    page.wait_for_selector('.er-status[data-state="failed"]')
    page.unroute("**/worker.js")
    is_untouched(page, {})  # the practice sheet; the entries of the code's own come with its numbers
    page.click(".er-again")
    page.wait_for_selector(f'.er-holder:not(.er-waiting) .er-sheet[data-code="{CODES[slug]}"]', timeout=60_000)
    is_untouched(page, TYPED[slug])


def test_what_was_typed_for_a_refused_code_goes_with_the_mended_one(visitor):
    """It was typed while Python started, so it belongs to no sheet yet; a reload in between does not lose it."""
    page, own = visitor, write(SheetCode("A", all_kinds()["tan-a"].edition, 78))
    page.route("**/worker.js", lambda route: None)
    for _ in range(2):
        page.goto(f"{page.base}exercises/tan-a/?code={mistyped(own)}")
        page.fill("#er-mean-1", "54.4")
    page.unroute("**/worker.js")
    page.reload()
    page.wait_for_selector(".er-trouble:not([hidden])", timeout=60_000)
    is_untouched(page, {"mean-1": "54.4"})
    opened_by_form(page, own)
    page.wait_for_selector(f'.er-holder:not(.er-waiting) .er-sheet[data-code="{own}"]')
    is_untouched(page, {"mean-1": "54.4"})
    assert kept(page)[f"sheet:{own}"] == {"mean-1": "54.4"}
    opened_by_form(page, CODES["tan-a"])
    page.wait_for_selector(f'.er-sheet[data-code="{CODES["tan-a"]}"]')
    is_untouched(page, TYPED["tan-a"])
