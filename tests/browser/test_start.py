"""How Python starts: from the image of its memory; and whatever is amiss with that, the plain way."""

import json

import brotli
import pytest

from exercises.codes.sheet_code import SheetCode, write
from exercises.kinds.kind import all_kinds
from generator.build.image import compressed
from tests.browser.steps import CODE, breaking_down, open_sheet, right_answers, type_in

PLAIN = ("pyodide.asm.wasm", "python_stdlib.zip", "exercises.zip")  # only a plain start asks for all of these

#: A worker beside the site's own that starts Python the site's way and runs lines in it.
PROBE = """
import { start } from "./start.js";
onmessage = async ({ data: [way, lines] }) => {
  try {
    const [python] = await start(way);
    postMessage({ value: python.runPython(lines) });
  } catch (error) {
    postMessage({ error: String(error.message || error) });
  }
};
"""
RUN = """given => new Promise((resolve) => {
  const worker = new Worker(new URL("eight/probe.js", document.baseURI), { type: "module" });
  worker.onmessage = ({ data }) => {
    worker.terminate();
    resolve(data);
  };
  worker.postMessage(given);
})"""


@pytest.fixture
def page(browser, address):
    """A new visitor's page that lists the files it asks for; its errors fail the test."""
    yield from visited(browser, address)


@pytest.fixture(scope="module")
def home(browser, address):
    """One such page for all tests that start Python beside it; its own Python is not started."""
    for opened in visited(browser, address):
        opened.goto(address)
        yield opened


@pytest.fixture
def beside(home):
    """The page of `home`, which has asked for nothing yet and gets all files as they are."""
    home.asked.clear()
    yield home
    home.unroute_all()
    probe(home)


def probe(page):
    page.route("**/eight/probe.js", lambda route: route.fulfill(body=PROBE, content_type="text/javascript"))


def visited(browser, address):
    opened = browser.new_page()
    errors, opened.asked, opened.base = [], [], address
    opened.on("pageerror", lambda error: errors.append(str(error)))
    opened.on("request", lambda request: opened.asked.append(request.url.rsplit("/", 1)[-1]))
    probe(opened)
    yield opened
    opened.close()
    assert errors == []


def run(page, lines: str, way: str = "image"):
    """What lines of Python give in a Python just started: {value} or {error}."""
    return page.evaluate(RUN, [way, lines])


def answer_with(page, site, name: str, change) -> None:
    """Have a file of the site come changed."""
    content = change((site / "eight" / name).read_bytes())
    kind = "text/javascript" if name.endswith(".js") else "application/octet-stream"
    page.route(f"**/eight/{name}", lambda route: route.fulfill(body=content, content_type=kind))


def is_checked(page) -> None:
    """The main job, on the sheet that is open."""
    assert type_in(page, "mean-1", right_answers()["mean-1"])[0] == "right"
    assert type_in(page, "tan-1", "1.1")[0] in ("wrong", "slip")


def test_a_sheet_is_checked_from_the_image_alone(page):
    open_sheet(page)
    is_checked(page)
    assert "image.bin" in page.asked and not set(page.asked) & set(PLAIN)


BROKEN = {
    "not there": ("image.bin", None),
    "an old browser": (
        "worker.js",
        lambda content: content.replace(b"const modules", b"self.DecompressionStream = undefined;\nconst modules"),
    ),
}


@pytest.mark.parametrize("how", BROKEN)
def test_a_sheet_is_checked_whatever_is_amiss_with_the_image(page, site, how):
    name, change = BROKEN[how]
    if change:
        answer_with(page, site, name, change)
    else:
        page.route(f"**/{name}", lambda route: route.fulfill(status=404))
    open_sheet(page)
    is_checked(page)
    assert set(PLAIN) <= set(page.asked)


HOLES = [(10_000_000, 12_000_000), (6_000_000, 6_400_000), (1_000_000, 1_200_000)]


def with_hole(content: bytes, hole: tuple[int, int]) -> bytes:
    memory = bytearray(brotli.decompress(content))
    memory[slice(*hole)] = bytes(hole[1] - hole[0])
    return compressed(bytes(memory), 1)


@pytest.mark.parametrize("hole", HOLES[1:])
def test_no_start_from_an_image_with_a_hole(beside, site, hole):
    """It looks whole, and a piece of Python's own objects is gone: it fails, answers wrongly, or runs for ever.

    Where it answers nothing, the page gives it up by its watch, which the test below has run down.
    """
    answer_with(beside, site, "image.bin", lambda content: with_hole(content, hole))
    found = beside.evaluate(
        f"given => Promise.race([({RUN})(given), new Promise(r => setTimeout(r, 4000, {{}}))])", ["image", "1"]
    )
    assert found.get("error") or found == {}


@pytest.mark.parametrize("hole", HOLES[:1])
def test_a_sheet_is_checked_where_the_image_has_a_hole(page, site, hole):
    """The plain start follows, also on an image that never answers: the watch on it is set to three seconds here."""
    answer_with(page, site, "image.bin", lambda content: with_hole(content, hole))
    answer_with(page, site, "python.js", lambda content: content.replace(b"ALIVE=15000", b"ALIVE=3000"))
    open_sheet(page)
    is_checked(page)
    assert set(PLAIN) <= set(page.asked)


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("image.bin", lambda content: compressed(brotli.decompress(content) + b"more", 1)),
        ("image.json", lambda content: content.replace(rb"B_H\": ", rb"B_H\": 1")),
    ],
    ids=["too long", "a wrong answer"],
)
def test_no_start_from_an_image_that_is_not_right(beside, site, name, change):
    """Each ends in an error and none in waiting for ever; test_hostile.py has what harms a file on its way."""
    answer_with(beside, site, name, change)
    assert run(beside, "1")["error"]


EVERY = """
import importlib, json, pkgutil, random
import exercises.classroom, exercises.record
for room in (exercises.classroom, exercises.record):
    for module in pkgutil.walk_packages(room.__path__, room.__name__ + "."):
        importlib.import_module(module.name)
from exercises.classroom.desk import classes
from exercises.record import file
from exercises.student import desk as student
numbers = [student.numbers(code) for code in {codes}]
checked = student.check({code!r}, '{{"mean-1": "54.4"}}')
slip = student.return_slip({code!r}, "Ringed Plover", '{{"mean-1": "54.4"}}', "{{}}")
read = [file.decode("\xe9,\u03b8".encode(name, "ignore")) for name in ("utf-16", "utf-8-sig", "cp1252")]
rest = [student.solution({code!r}), student.why("{{}}"), student.drill("null", "7")]
found = json.dumps([random.random(), numbers, checked, slip, read, rest])
found
"""


def test_python_that_breaks_down_is_started_again_and_the_work_goes_on(page, site):
    """After some failures the runtime can answer nothing more."""
    worker = (site / "eight/worker.js").read_text()
    given = [breaking_down(worker, "check")]
    page.route(
        "**/eight/worker.js",
        lambda route: route.fulfill(body=given.pop() if given else worker, content_type="text/javascript"),
    )
    open_sheet(page)
    assert given == []
    is_checked(page)
    assert page.asked.count("worker.js") == 2


def test_while_python_starts_again_the_open_sheet_stays(page, site):
    """The worker dies on a sheet that is open, and the next one never gets ready."""
    given = [breaking_down((site / "eight/worker.js").read_text(), "check")]
    page.route(
        "**/eight/worker.js",
        lambda route: route.fulfill(body=given.pop(), content_type="text/javascript") if given else None,
    )
    open_sheet(page)
    page.wait_for_function("document.querySelector('.er-trouble').textContent.includes('That did not work')")
    said = page.inner_text(".er-trouble")
    assert "can no longer be used). What you typed is kept" in said and ".." not in said
    page.fill("#er-code", "A37-222-49M")
    page.press("#er-code", "Enter")
    assert "This page is not ready" in page.inner_text(".er-status")
    assert page.get_attribute(".er-sheet", "data-code") == CODE


def test_two_starts_draw_different_numbers_and_agree_in_all_else_with_this_python(beside):
    codes = [write(SheetCode(kind.letter, kind.edition, 77)) for kind in all_kinds().values()]
    lines = EVERY.format(codes=codes, code=CODE)
    here = {}
    exec(lines, here)
    one, two = (json.loads(run(beside, lines)["value"]) for _ in range(2))
    assert one[0] != two[0]
    assert one[1:] == two[1:] == json.loads(here["found"])[1:]
    assert not set(beside.asked) & set(PLAIN)  # all that is done every day is in the image


GONE = """
import gc, json, textwrap, traceback, unicodedata, weakref
try:
    json.loads("{")
except ValueError as error:
    told = traceback.format_exception(error)[-2].split()[-1]
class Round:
    pass
ring = Round()
ring.itself = ring
gone = [weakref.ref(ring), weakref.ref(textwrap.indent)]
del ring, textwrap.indent
gc.collect()
try:
    import _codecs_cn
except ImportError as error:
    said = error.name
f"{[ref() for ref in gone]} {said} {hasattr(unicodedata, 'name')} {len(gc.get_objects()) < 10_000} {told}"
"""


def test_what_the_image_has_lost_is_missed_by_nothing_and_never_answers_wrongly(beside):
    """Its objects are in none of the collector's lists; tables that are zeros have nobody who reads them."""
    assert run(beside, GONE) == {"value": "[None, None] _codecs_cn False True raw_decode"}


LATE = """
import sys
before = "email" in sys.modules
import email, email.policy
mail = email.message_from_bytes(b"Subject: =?cp1257?q?plover?=", policy=email.policy.default)
text = "\u661f\u4e00\uc77c\u30a2"  # star, one, one, the syllable a
names = "gb2312 gbk gb18030 big5 big5hkscs shift_jis euc_jp iso2022_jp euc_kr cp949"
far = {name: text.encode(name, "ignore").hex() for name in names.split()}
f"{before} {mail['subject']} {bytes([254]).decode('cp1257')} {far}"
"""


def test_what_is_imported_late_is_fetched_then_and_every_codec_is_whole(beside):
    here = {}
    exec(LATE.replace('f"{before}', "found = f\"{'email' in ()}"), here)
    assert here["found"].startswith("False plover \u017e")
    assert run(beside, LATE) == {"value": here["found"]}
    assert beside.asked.count("python_stdlib.zip") == beside.asked.count("tables.bin") == 1
    # it is of one version of the site, and the next one may be up by now; those two stay as long as the runtime
    assert "exercises.zip" not in beside.asked


def test_a_late_import_that_cannot_be_fetched_is_an_error_and_the_next_one_tries_again(beside):
    beside.route("**/python_stdlib.zip", lambda route: route.fulfill(status=503), times=1)
    lines = (
        "try:\n    import email\nexcept Exception as error:\n    said = str(error)\nimport email\nsaid + email.__name__"
    )
    said = run(beside, lines)["value"]
    assert "python_stdlib.zip: 503" in said and said.endswith("email")


def test_a_page_whose_script_does_not_arrive_says_so(page, site):
    """A host that sends scripts by a wrong media type does this to all of them but the plain ones."""
    answer_with(page, site, "offline.js", lambda content: content.replace(b"HELPLESS=8000", b"HELPLESS=300"))
    page.route("**/eight/keep.js", lambda route: route.fulfill(body="<html>", content_type="text/html"))
    page.goto(f"{page.base}exercises/tan-a/")
    page.wait_for_selector(".er-from-file")
    assert "did not arrive" in page.inner_text(".er-from-file") and "can be checked here" in page.inner_text(
        ".er-status"
    )
    assert page.is_visible(".er-answers")


def test_a_page_whose_scripts_arrive_says_nothing_of_the_kind(page, site):
    answer_with(page, site, "offline.js", lambda content: content.replace(b"HELPLESS=8000", b"HELPLESS=0"))
    open_sheet(page)
    assert page.locator(".er-from-file").count() == 0
