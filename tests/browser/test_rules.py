"""The rules of axe-core on every page: WCAG 2.2 A and AA and its own best practice.

What it cannot judge and a page's room decides is looked at here too: what is cut, covered, or out of the keyboard's
reach.  test_everyone.py looks at the rest.
"""

import functools
import math
import threading
from dataclasses import replace
from itertools import zip_longest

import pytest

from exercises.record.file import written as record_file
from exercises.return_slip.text import return_slip_text
from generator.commands.serving import Server
from tests.browser.chromium import launched
from tests.browser.fonts import FONTS
from tests.browser.host import Shared
from tests.browser.steps import DESK, DOUBLED, PHONE, SCHEMES, SHEET, open_sheet, right_answers, type_in
from tests.browser.test_class_desk import PHRASE, slips_of
from tests.browser.test_pages import pages
from tests.exercises.record.test_check import record_of, rows_of, with_cell
from tests.tools import tools

#: All four looks of these pages are gone through; of the others each width and each scheme once.
FOUR = ("", "before/result/", SHEET, "class/desk/", "record/")
#: Worked examples are made alike: these are looked at whole and at a telephone's width too, the others without what
#: stands around every page.
SAMPLES = ("examples/", "examples/avocet/", "examples/dial-1/", "examples/graph-1/", "examples/fault-1/")
FULL = {
    "rules": {
        "target-size": {"enabled": True},  # WCAG 2.2, 2.5.8, which axe leaves off unless asked
        "color-contrast": {"enabled": False},  # asked for by itself, of texts that look as none before
    }
}
OWN = {**FULL, "within": "article"}  # without what stands around every page
NONE = {"none": True}  # colours alone
COLOURS = {"runOnly": {"type": "rule", "values": ["color-contrast"]}}
#: What can come out otherwise at another width, besides colours: what is shown, what scrolls and how large it is.
WIDTH = {
    "runOnly": {
        "type": "rule",
        "values": [
            "target-size",
            "scrollable-region-focusable",
            "region",
            "landmark-unique",
            "landmark-one-main",
            "heading-order",
            "page-has-heading-one",
            "bypass",
            "link-name",
            "button-name",
            "label",
            "link-in-text-block",
        ],
    }
}

#: In the page: all by which the colours of a text are judged, as one word: its size and weight, its colour, and what
#: lies behind it in the elements around it.
HOW = """window.how = (() => {
  const known = new Map(); // element -> [how opaque it and those around it are, the backgrounds behind it]
  const behind = (e) => {
    if (!e) return ["", ""];
    if (!known.has(e)) {
      const { backgroundColor: colour, backgroundImage: image, opacity } = getComputedStyle(e);
      const [faint, rest] = behind(e.parentElement);
      const own = (colour === "rgba(0, 0, 0, 0)" ? "" : colour) + (image === "none" ? "" : image);
      const covers = image === "none" && own.startsWith("rgb(");
      known.set(e, [opacity === "1" ? faint : `${faint} ${opacity}`, covers ? own : own + rest]);
    }
    return known.get(e);
  };
  const fresh = () => known.clear();
  const seen = (e) => {
    const { left, right, top, bottom } = e.getBoundingClientRect();
    return e.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && right > left + 1 &&
        bottom > top + 1 && right > 0 && bottom + scrollY > 0 && left < document.documentElement.scrollWidth;
  };
  const of = (e) => {
    const { color, fontSize, fontWeight, textShadow } = getComputedStyle(e);
    return [color, fontSize, fontWeight, textShadow, behind(e)].join();
  };
  return { fresh, seen, of };
})();"""
#: How the texts look that are to be judged: where all of them were judged elsewhere, they need not be once more.
LOOKS = """(within) => {
  how.fresh();
  window.texts = [...(within ? document.querySelector(within) : document).querySelectorAll("*")].filter((e) =>
    (e.matches("input:not([type=radio], [type=checkbox]), select, textarea") ||
      [...e.childNodes].some((n) => n.nodeType === 3 && /[\\p{L}\\p{N}]/u.test(n.data))) &&
    !e.matches(":disabled, script, style") && how.seen(e));
  return [...new Set(texts.map(how.of))];
}"""
BEGIN = """([{ within, none, ...options }, colours, looks]) => {
  window.found = null;
  window.passed = [];
  run();
  async function run() {
    const all = { selectors: false, elementRef: true, resultTypes: ["violations", "passes"] };
    const results = none ? [] : [await axe.run(within || document, { ...all, ...options })];
    const fresh = texts.filter((e) => looks.includes(how.of(e)));
    if (fresh.length) {
      results.push(await axe.run({ include: fresh }, { ...all, ...colours }));
      const judged = results.at(-1).passes.flatMap((p) => p.nodes);
      window.passed = [...new Set(judged.map((n) => how.of(n.element)))];
    }
    window.found = results.flatMap((r) => r.violations).map(v => `${v.id}: ${v.help}: ` + v.nodes.slice(0, 3).map(n =>
      n.html.slice(0, 100) + ` (${n.any.concat(n.all, n.none).map(c => c.message).join("; ").slice(0, 200)})`
    ).join(" | "));
  }
}"""
#: The keyboard is given a way to what scrolls a moment after the page's size is known.
REACHED = (
    "[...document.querySelectorAll('pre > code, .er-math, .md-typeset__scrollwrap')]"
    ".every(c => c.scrollWidth <= c.clientWidth || c.tabIndex === 0)"
)
#: A drawing is one thing with a name (role=img), and axe looks into none; without its lines it is quicker.
EMPTY = "document.querySelectorAll('svg.er-figure').forEach(s => s.replaceChildren())"
#: A formula is one thing too: a letter stands for all of it, in a box of its size.
BOXED = """() => {
  const sizes = [...document.querySelectorAll("math")].map(m => [m, m.getBoundingClientRect()]);
  for (const [math, { width, height }] of sizes) {
    const [letter, box] = ["mtext", "mspace"].map(name => document.createElementNS(math.namespaceURI, name));
    letter.textContent = "m";
    box.setAttribute("width", `${Math.max(0, width - 10)}px`);
    for (const side of ["height", "depth"]) box.setAttribute(side, `${height / 2}px`);
    math.replaceChildren(letter, box);
  }
}"""


#: What is lost at the side of the screen: the page itself, or text and controls that neither wrap nor scroll into view.
CUT = """() => {
  const out = document.documentElement.scrollWidth > innerWidth ? [`${document.documentElement.scrollWidth} wide`] : [];
  const PARTS = "p, li, td, th, dd, button, input, select, textarea, h1, h2, h3, label, legend, summary, svg.er-figure";
  for (const e of document.querySelectorAll(`.md-content :is(${PARTS})`)) {
    const { left, right, width } = e.getBoundingClientRect();
    if (!width || !e.checkVisibility() ||
        e.closest(".er-scroll, .md-typeset__scrollwrap, .cd-scroll, .cd-hidden, .er-hidden")) continue;
    const clipped = e.scrollWidth > e.clientWidth + 1 && /hidden|clip/.test(getComputedStyle(e).overflowX) &&
        !e.matches("input, select");
    if (left < -1 || right > innerWidth + 1 || clipped)
      out.push(`${e.tagName} ${e.className} ${e.textContent.trim().slice(0, 40)}`);
  }
  return out;
}"""


#: Text or a formula that stands on another one.
COVERED = """() => {
  const found = [];
  for (const e of document.querySelectorAll(".md-content *")) {
    if (e.closest("math, svg") && !e.matches("math") || !e.checkVisibility() || e.closest(".cd-hidden, .er-hidden"))
      continue;
    const texts = e.matches("math") ? [e] : [...e.childNodes].filter((n) => n.nodeType === 3 && n.data.trim());
    for (const text of texts) {
      const range = document.createRange();
      range.selectNode(text);
      for (let { left, right, top, bottom } of range.getClientRects()) {
        for (let box = e; box; box = box.parentElement) {
          if (getComputedStyle(box).overflowX === "visible") continue;
          const edge = box.getBoundingClientRect();
          [left, right] = [Math.max(left, edge.left), Math.min(right, edge.right)];
          [top, bottom] = [Math.max(top, edge.top), Math.min(bottom, edge.bottom)];
        }
        if (right > left && bottom > top) found.push({ left, right, top, bottom, e });
      }
    }
  }
  found.sort((a, b) => a.top - b.top);
  const out = [];
  found.forEach((a, n) => {
    for (let m = n + 1; m < found.length && found[m].top < a.bottom; m++) {
      const b = found[m];
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - b.top;
      if (a.e !== b.e && wide > 2 && high > Math.min(a.bottom - a.top, b.bottom - b.top) / 2)
        out.push(`“${a.e.textContent.slice(0, 40)}” and “${b.e.textContent.slice(0, 40)}” stand on each other`);
    }
  });
  return out;
}"""


@pytest.fixture(scope="module")
def axe() -> str:
    return HOW + (tools() / "axe-core/axe.min.js").read_text(encoding="utf-8")


def looked_at(pages_and_looks, passed: set[str]) -> list[str]:
    """What breaks a rule on pages that are gone through side by side: [(page, size, scheme, options)].

    passed  how those texts look whose colours were judged to be good: they are judged once, and added here
    """
    for page, size, scheme, options in pages_and_looks:
        page.set_viewport_size(size)
        # the theme looks at what the device likes only as a page is opened; afterwards its own switch sets this
        page.evaluate("name => { document.body.dataset.mdColorScheme = name; }", SCHEMES[scheme])
        page.wait_for_function(REACHED)
        looks = [look for look in page.evaluate(LOOKS, options.get("within")) if look not in passed]
        page.evaluate(BEGIN, [options, COLOURS, looks])
    out = []
    for page, *_ in pages_and_looks:
        page.wait_for_function("window.found !== null")
        out += page.evaluate("found")
        passed.update(page.evaluate("passed"))
    return out


def violations(page, axe) -> list[str]:
    """Of a page as it stands, at both widths and in both schemes."""
    page.evaluate(axe)
    page.evaluate(BOXED)
    looks = ((DESK, "light", FULL), (DESK, "dark", NONE), (PHONE, "dark", FULL), (PHONE, "light", NONE))
    passed = set()
    return [text for look in looks for text in looked_at([(page, *look)], passed)]


#: What cannot be got at: a box that scrolls sideways without the keyboard's way to it, a role and a name; and a formula
#: that is cut above or below.
UNREACHED = """() => [...document.querySelectorAll(".md-content *")].flatMap(e => {
  const wide = e.scrollWidth > e.clientWidth && e.checkVisibility() &&
      /auto|scroll/.test(getComputedStyle(e).overflowX);
  const reached = e.tabIndex === 0 && (e.role || e.matches("button, a, input, textarea")) && e.ariaLabel;
  const cut = e.matches(".er-math") && e.scrollHeight > e.clientHeight;
  const lost = wide && !reached && !e.matches("pre > code, textarea");
  return [...(lost ? [`not reached: ${e.outerHTML.slice(0, 80)}`] : []),
          ...(cut ? [`cut: ${e.textContent.slice(0, 80)}`] : [])];
})"""


#: Words in the heads of a sheet's tables that begin on one line and end on another.
BROKEN = """() => [...document.querySelectorAll(".er-book th")].flatMap(e => {
  const words = [...e.childNodes].filter(n => n.nodeType === Node.TEXT_NODE)
      .flatMap(n => [...n.textContent.matchAll(/\\S+/g)].map(m => [n, m.index, m[0]]));
  return words.filter(([node, at, word]) => {
    const range = document.createRange();
    range.setStart(node, at);
    range.setEnd(node, at + word.length);
    return new Set([...range.getClientRects()].map(box => Math.round(box.top))).size > 1;
  }).map(([, , word]) => `broken: ${word} in ${e.textContent}`);
})"""


class Still(Shared):
    """A host with which Python is starting, and stays so."""

    def do_GET(self):
        if not self.path.endswith("/worker.js"):
            super().do_GET()
            return
        self.tag = None
        self.send_response(200)
        self.send_header("Content-Type", "text/javascript")
        self.send_header("Content-Length", "0")
        self.end_headers()


@pytest.fixture(scope="module")
def still(site):
    """The address of such a host."""
    server = Server(("127.0.0.1", 0), functools.partial(Still, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()


@pytest.fixture(params=FONTS)
def fonted(playwright, say, request):
    """A Chromium that sees one set of fonts, and the name of the set."""
    chromium = launched(playwright, say, request.param)
    yield chromium, request.param
    chromium.close()


def test_no_page_breaks_a_rule(fonted, site, still, axe):
    browser, fonts = fonted
    context = browser.new_context(reduced_motion="reduce", service_workers="block")
    context.add_init_script(axe)
    opened = [context.new_page() for _ in range(2)]
    wrong, passed, every = [], set(), pages()
    formulas_alone = fonts == "mathematics"  # it sets nothing else, and those of one kind's examples are alike
    if formulas_alone:
        every = [where for where in every if not where.startswith("examples/") or where in SAMPLES]
        every = [where for where in every if "<math" in (site / where / "index.html").read_text(encoding="utf-8")]
    for group in zip_longest(every[::2], every[1::2]):
        pair = [(page, where) for page, where in zip(opened, group) if where is not None]
        for page, where in pair:  # both are loaded at the same time
            page.goto(still + where, wait_until="commit")
        for page, _ in pair:
            page.wait_for_load_state()
        both = [(page, where) for page, where in pair if not where.startswith("examples/") or where in SAMPLES]
        rest = [p for p in pair if p not in both]
        more = [(page, where) for page, where in pair if where in FOUR]
        for page, where in both:  # with its formulas
            for size in (DESK, PHONE):
                page.set_viewport_size(size)
                page.wait_for_function(REACHED)
                # on a phone the heads stand beside each number
                looks = (UNREACHED, COVERED, BROKEN) if size is DESK else (UNREACHED, COVERED)
                wrong += [(where, size["width"], text) for look in looks for text in page.evaluate(look)]
            page.set_viewport_size(DOUBLED)
            wrong += [(where, text) for text in page.evaluate(CUT)]
        if formulas_alone:  # to axe a formula is a box, with any font
            continue
        for page, _ in pair:
            page.evaluate(EMPTY)
            page.evaluate(BOXED)
        for size, scheme, options, seen in (
            (DESK, "light", FULL, both),
            (DESK, "light", OWN, rest),
            (PHONE, "dark", WIDTH, [p for p in both if p not in more]),
            (PHONE, "dark", FULL, more),
            (DESK, "dark", NONE, more),
            (PHONE, "light", NONE, more),
        ):
            wrong += [(group, text) for text in looked_at([(page, size, scheme, options) for page, _ in seen], passed)]
    context.close()
    assert wrong == [], "\n".join(map(str, wrong))[:3000]


def test_no_state_of_a_page_breaks_a_rule(reader, axe):
    page = reader
    # a sheet with right, wrong, slipped and unreadable answers, a hint, the working, a slip, and an error
    open_sheet(page)
    answers = right_answers()
    type_in(page, "mean-1", answers["mean-1"])
    sine = math.sin(math.radians(float(answers["mean-1"].rstrip("°"))))
    assert type_in(page, "tan-1", f"{sine:.4f}")[0] == "slip"
    assert type_in(page, "tan-3", "0.5123")[0] == "wrong"
    assert type_in(page, "moment-1", "hello")[0] == "unread"
    page.fill("#er-mean-2", answers["mean-2"].rstrip("°"))
    page.click('[data-step="tan-2"] .er-hint')
    page.wait_for_selector(".er-hinted")
    for _ in range(2):
        page.click(".er-solution")
    page.wait_for_selector(".er-solved .er-working")
    page.fill("#er-who", "Sanderling")
    page.click(".er-handin-form button")
    page.wait_for_selector(".er-slip-holder:not([hidden])")
    page.fill("#er-who", "Dunlin")
    page.fill("#er-code", "hello")
    page.press("#er-code", "Enter")
    page.wait_for_selector(".er-trouble:not([hidden])")
    assert not (found := violations(page, axe)), found

    page.goto(f"{page.base}revision/drill/")
    page.wait_for_selector(".er-question:not(:empty)", timeout=60_000)
    page.click(".er-model")
    page.wait_for_selector(".er-answer:not(:empty)")
    assert not (found := violations(page, axe)), found

    # a record with what is amiss found in it
    page.goto(f"{page.base}record/")
    page.wait_for_selector('.er-status[data-state="ready"]', timeout=60_000)
    rows = rows_of()
    rows[1][1][2] += 10
    record = with_cell(with_cell(record_of(rows, name="Ringed Plover"), "tan-1", "0.8631"), "pole", "hello")
    page.set_input_files(
        ".rc-open input", {"name": "r.csv", "mimeType": "text/csv", "buffer": record_file(record).encode()}
    )
    page.wait_for_selector(".rc-findings li")
    assert not (found := violations(page, axe)), found

    # the class desk: what is wrong, a class, marks and the report
    page.goto(f"{page.base}class/desk/")
    page.wait_for_selector('.cd .er-status[data-state="ready"]', timeout=60_000)
    page.click("text=Make the class")
    page.wait_for_selector(".cd-wrong:not([hidden])")
    page.fill("#cd-list", "1,Dunlin\n2,Knot")
    page.fill("#cd-phrase", PHRASE)
    page.uncheck("#cd-kind-tan-a")
    page.check("#cd-kind-law")
    page.locator(".cd-kind:has(#cd-kind-law) summary").click()
    page.click("text=Make the class")
    page.locator("#cd-class-said", has_text="The class is made").wait_for()
    with page.expect_download() as waiting:
        page.click('[data-save="class.json"]')
    slips = slips_of(waiting.value.path().read_text(encoding="utf-8"))
    page.fill("#cd-pasted", return_slip_text(slips[0]) + return_slip_text(replace(slips[0], answers={})))
    page.click("text=Add what is pasted")
    page.locator("#cd-returned-said", has_text="2 slips came in").wait_for()
    page.locator("#cd-paper > summary").click()
    page.fill("#cd-who", "2")
    page.click("text=Open the form of this sheet")
    page.wait_for_selector(".cd-paper-head")
    page.click("#cd-mark")
    page.locator("#cd-marks-said", has_text="marked").wait_for()
    page.wait_for_selector("#cd-report figure")
    for details in page.locator("#cd-intake details").all():
        details.evaluate("d => d.open = true")
    assert not (found := violations(page, axe)), found
