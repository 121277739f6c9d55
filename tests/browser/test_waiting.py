"""The first visit on a slow network: what the page says meanwhile, what can be done, and Python fetched ahead."""

import json
from pathlib import Path

import pytest

from exercises.codes.sheet_code import MISTYPED, Setting, SheetCode, write
from exercises.kinds.kind import all_kinds
from generator.pages.code_check import LOOKS_RIGHT, LOOKS_WRONG
from tests.benchmarks.pages import Host as Compressing
from tests.browser.host import Host
from tests.browser.steps import CODE, SHEET, SHIFTS, kept, open_sheet, said
from tests.generator.pages.test_code_check import looked_over

#: Every other page that starts Python.
PAGES = ("class/desk/", "record/", "record/bench/", "revision/drill/", "before/why-eight/")

WITH_SETTINGS = write(SheetCode("A", 1, 5, Setting("given", 38.2)))


def sooner(page, site, name, *changes):
    """Have a script come with shorter times."""
    text = (site / "eight" / name).read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    page.route(f"**/eight/{name}", lambda route: route.fulfill(body=text, content_type="text/javascript"))


def test_a_network_that_stalls_is_named_the_practice_sheet_is_worked_and_the_start_is_tried_again(page, site):
    sooner(page, site, "coming.js", ("SOON=2000", "SOON=0"), ("STALLED=15000", "STALLED=700"))
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.add_init_script(SHIFTS)
    page.goto(f"{page.base}exercises/tan-a/")
    bar = page.get_by_role("progressbar", name="What has come")
    page.locator('.er-coming[aria-valuetext$=" MB"]').wait_for()
    assert 0 < bar.evaluate("e => e.value") < 1
    page.click(".er-practice")
    page.fill("#er-mean-1", "50")
    page.press("#er-mean-1", "Tab")
    assert said(page, "mean-1", "waiting")[1].startswith("Will be checked")
    # so that it is on the page, too, where a start fails
    assert kept(page)[f"sheet:{page.input_value('#er-code')}"] == {"mean-1": "50"}
    page.locator(".er-status", has_text="Nothing has come for 15 s").wait_for()
    assert page.evaluate("shifts") == []
    page.unroute("**/image.bin")
    page.click(".er-status .er-again")
    assert said(page, "mean-1")[0] in ("wrong", "slip")
    assert page.inner_text(".er-status").startswith("Ready.")  # these numbers are everyone's
    assert page.input_value("#er-mean-1") == "50"
    assert page.get_attribute(".er-sheet", "data-code") == page.input_value("#er-code")
    assert bar.count() == 0 and held


def test_a_code_is_looked_over_before_python_is_there(page):
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.add_init_script(SHIFTS)
    status = page.locator(".er-status")
    wrong, other = CODE[:-1] + "2", write(SheetCode(all_kinds()["law"].letter, 1, 5))
    page.goto(f"{page.base}{SHEET}?code={wrong}")
    assert status.inner_text().endswith(LOOKS_WRONG)
    page.fill("#er-mean-1", "54.4")
    for code, sentence in (
        (f" {CODE.lower()} ", LOOKS_RIGHT),
        (other, "This sheet is opened when this page is ready."),
        (CODE[:-1], "This sheet is opened when this page is ready."),
        (wrong, LOOKS_WRONG),
    ):
        page.fill("#er-code", code)
        page.press("#er-code", "Enter")
        assert status.inner_text().endswith(sentence)
        # what was typed for the mistyped code goes with the mended one, and stays with that
        assert page.input_value("#er-mean-1") == ("54.4" if sentence == LOOKS_RIGHT else "")
    texts = [CODE, WITH_SETTINGS, wrong, other, "A3Y-MAK-9XM", "a3y mak x9m", "hello", "", f"?code={CODE}"]
    rule = json.loads(page.get_attribute(".er-code-form", "data-rule"))
    found = page.evaluate(
        """async ([texts, script, rule]) => {
          const { lookedOver } = await import(script);
          return texts.map((text) => lookedOver(text, rule));
        }""",
        [texts, f"{page.base}eight/code.js", rule],
    )
    assert found == [looked_over(text, rule) for text in texts]
    assert page.evaluate("shifts") == []
    while not held:
        page.wait_for_timeout(20)
    held.pop().continue_()
    page.wait_for_selector(".er-trouble:not([hidden])")
    assert page.inner_text(".er-trouble").startswith(MISTYPED)


def test_every_page_whose_start_stalls_or_fails_can_try_again_and_one_of_them_does(page, site):
    sooner(page, site, "coming.js", ("STALLED=15000", "STALLED=50"))
    for state, answered in (("starting", lambda route: None), ("failed", lambda route: route.abort())):
        page.route("**/eight/worker.js", answered)
        for where in PAGES:
            page.goto(f"{page.base}{where}", wait_until="commit")
            page.locator(f'.er-status[data-state="{state}"] .er-again').wait_for()
        page.unroute("**/eight/worker.js")
    page.click(".er-again")
    page.wait_for_selector('.er-status[data-state="ready"]')
    assert page.locator(".er-again").count() == 0


class Keeping(Compressing):
    """A host whose files a browser may keep for a while; what it fetches ahead begins at once."""

    def do_GET(self):
        if not self.path.endswith("/ahead.js"):
            super().do_GET()
            return
        text = Path(self.translate_path(self.path)).read_bytes()
        assert b"IDLE=2000" in text
        text = text.replace(b"IDLE=2000", b"IDLE=0")
        self.send_response(200)
        self.send_header("Content-Type", "text/javascript")
        self.send_header("Content-Length", str(len(text)))
        self.end_headers()
        self.wfile.write(text)


@pytest.fixture(scope="module")
def host(site):
    it = Host(site, handler=Keeping)
    yield it
    it.close()


@pytest.mark.parametrize("saves", [False, True], ids=["", "data are saved"])
def test_who_has_read_a_page_has_python_on_the_device(browser, host, saves):
    context = browser.new_context(service_workers="block")
    context.add_init_script(
        f"Object.defineProperty(navigator, 'connection', {{ value: {{ saveData: {str(saves).lower()} }} }})"
    )
    page = context.new_page()
    page.base = host.address
    host.asked.clear()
    page.goto(f"{host.address}before/instrument/")
    page.wait_for_load_state("networkidle")
    large = [path for path in host.asked if path.endswith(("image.bin", "runtime.bin", "glue.bin"))]
    assert len(large) == (0 if saves else 3)
    if not saves:
        page.goto(f"{host.address}before/")  # not twice
        open_sheet(page)
        assert [host.asked.count(path) for path in large] == [1, 1, 1]
    context.close()
