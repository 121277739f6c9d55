"""The site for everyone: with a keyboard alone, a screen reader, large letters, few colours, little motion, no mouse.

The rules are those of axe-core (WCAG 2.2 A and AA and its own best practice), run in the page; what it cannot judge,
the keyboard, what is read out, and the room of a page at 200 %, is looked at here.
"""

import math
import re
from dataclasses import replace
from itertools import zip_longest

import pytest

from exercises.record.file import written as record_file
from exercises.return_slip.text import return_slip_text
from tests.benchmarks.pages import OPENED, hosted, moved, weight
from tests.browser.chromium import launched
from tests.browser.fonts import FONTS
from tests.browser.steps import CODE, SHEET, open_sheet, right_answers, said, type_in
from tests.browser.test_class_desk import PHRASE, slips_of
from tests.browser.test_pages import pages
from tests.exercises.record.test_check import record_of, rows_of, with_cell
from tests.tools import tools

DESK, PHONE = {"width": 1280, "height": 900}, {"width": 360, "height": 800}
DOUBLED = {"width": 640, "height": 450}  # what is left of a desk's screen at 200 % (WCAG 2.2, 1.4.4)
#: All four looks of these pages are gone through; of the others each width and each scheme once.
FOUR = ("", "before/result/", SHEET, "class/desk/", "record/")
#: Worked examples are made alike: these are looked at whole and at a telephone's width too, the others without what
#: stands around every page.
SAMPLES = ("examples/", "examples/avocet/", "examples/dial-1/", "examples/graph-1/", "examples/fault-1/")
SCHEMES = {"light": "notebook", "dark": "evening"}
FULL = {"rules": {"target-size": {"enabled": True}}}  # WCAG 2.2, 2.5.8, which axe leaves off unless asked
OWN = {**FULL, "within": "article"}  # without what stands around every page
COLOURS = {"runOnly": {"type": "rule", "values": ["color-contrast"]}}
#: What can come out otherwise at another width: colours, what is shown at all, what scrolls and how large it is.
WIDTH = {
    "runOnly": {
        "type": "rule",
        "values": [
            "color-contrast",
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

#: What can come out otherwise with other fonts: how large a thing is and what scrolls; and, where the page is so narrow
#: that a formula may come to stand before something else, the colour behind it.
FONT = {"runOnly": {"type": "rule", "values": ["target-size", "scrollable-region-focusable"]}}
FONT_NARROW = {"runOnly": {"type": "rule", "values": [*FONT["runOnly"]["values"], "color-contrast"]}}

BEGIN = """({ within, ...options }) => { window.found = null; axe.run(within || document,
    {resultTypes: ["violations"], ...options}).then(r => {
  window.found = r.violations.map(v => `${v.id}: ${v.help}: ` + v.nodes.slice(0, 3).map(n =>
    n.target.join(" ") + ` (${n.any.concat(n.all, n.none).map(c => c.message).join("; ").slice(0, 200)})`
  ).join(" | ")); }) }"""
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


@pytest.fixture(scope="module")
def axe() -> str:
    return (tools() / "axe-core/axe.min.js").read_text(encoding="utf-8")


@pytest.fixture
def reader(browser, address):
    """A page that asks for little motion, without a service worker, its errors noted."""
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    page.base, page.errors = address, []
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    page.on("dialog", lambda dialog: dialog.accept())
    yield page
    context.close()
    assert page.errors == []


def looked_at(pages_and_looks) -> list[str]:
    """What breaks a rule on pages that are gone through side by side: [(page, size, scheme, options)]."""
    for page, size, scheme, options in pages_and_looks:
        page.set_viewport_size(size)
        # the theme looks at what the device likes only as a page is opened; afterwards its own switch sets this
        page.evaluate("name => { document.body.dataset.mdColorScheme = name; }", SCHEMES[scheme])
        page.wait_for_function(REACHED)
        page.evaluate(BEGIN, options)
    out = []
    for page, *_ in pages_and_looks:
        page.wait_for_function("window.found !== null")
        out += page.evaluate("found")
    return out


def violations(page, axe) -> list[str]:
    """Of a page as it stands, at both widths and in both schemes."""
    page.evaluate(axe)
    page.evaluate(BOXED)
    looks = ((DESK, "light", FULL), (DESK, "dark", COLOURS), (PHONE, "dark", FULL), (PHONE, "light", COLOURS))
    return [text for look in looks for text in looked_at([(page, *look)])]


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


@pytest.fixture(params=FONTS)
def fonted(playwright, say, request):
    """A Chromium that sees one set of fonts, and the name of the set."""
    chromium = launched(playwright, say, request.param)
    yield chromium, request.param
    chromium.close()


def test_no_page_breaks_a_rule(fonted, site, address, axe):
    browser, fonts = fonted
    context = browser.new_context(reduced_motion="reduce", service_workers="block")
    context.route("**/worker.js", lambda route: None)  # Python is starting, and stays so
    context.route("**/search*.js*", lambda route: None)  # the index of the search takes longer than the page
    context.add_init_script(axe)
    opened = [context.new_page() for _ in range(2)]
    wrong, every, first, inside, narrow, four = [], pages(), FULL, OWN, WIDTH, FOUR
    if fonts == "mathematics":  # it sets formulas and nothing else, and those of one kind's examples are alike
        every = [where for where in every if not where.startswith("examples/") or where in SAMPLES]
        every = [where for where in every if "<math" in (site / where / "index.html").read_text(encoding="utf-8")]
        first, inside, narrow, four = FONT, {**FONT, "within": "article"}, FONT_NARROW, ()
    for group in zip_longest(every[::2], every[1::2]):
        pair = [(page, where) for page, where in zip(opened, group) if where is not None]
        for page, where in pair:  # both are loaded at the same time
            page.goto(address + where, wait_until="commit")
        for page, _ in pair:
            page.wait_for_load_state()
        both = [(page, where) for page, where in pair if not where.startswith("examples/") or where in SAMPLES]
        rest = [p for p in pair if p not in both]
        more = [(page, where) for page, where in pair if where in four]
        for page, where in both:  # with its formulas
            for size in (DESK, PHONE):
                page.set_viewport_size(size)
                page.wait_for_function(REACHED)
                wrong += [(where, size["width"], text) for text in page.evaluate(UNREACHED)]
                if size is DESK:  # on a phone the heads stand beside each number
                    wrong += [(where, text) for text in page.evaluate(BROKEN)]
            page.set_viewport_size(DOUBLED)
            wrong += [(where, text) for text in page.evaluate(CUT)]
        for page, _ in pair:
            page.evaluate(EMPTY)
            page.evaluate(BOXED)
        for size, scheme, options, seen in (
            (DESK, "light", first, both),
            (DESK, "light", inside, rest),
            (PHONE, "dark", narrow, both),
            (PHONE, "dark", FULL, more),
            (DESK, "dark", COLOURS, more),
            (PHONE, "light", COLOURS, more),
        ):
            wrong += [(group, text) for text in looked_at([(page, size, scheme, options) for page, _ in seen])]
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


#: The element with the keyboard: what it is, and whether one sees that it has it.
STOP = """() => {
  const e = document.activeElement;
  if (e === document.body) return null;
  const seen = e.matches(".md-option") ? e.nextElementSibling : e;
  const look = () => {
    const s = getComputedStyle(seen);
    return [s.outlineStyle, s.outlineWidth, s.outlineColor, s.boxShadow, s.opacity].join();
  };
  const focused = look(), box = seen.getBoundingClientRect(), s = getComputedStyle(seen);
  const shown = box.width > 1 && box.height > 1 && s.visibility === "visible" && box.right > 0 && box.bottom > 0 &&
      box.left < innerWidth && box.top < innerHeight;
  e.blur();
  const plain = look();
  e.focus({ preventScroll: true });
  const labels = e.labels && [...e.labels].map(l => l.textContent).join(" ").trim();
  const places = ["md-header", "md-tabs", "md-sidebar", "md-content", "md-footer"];
  return { what: e.id || e.className || e.textContent.trim().slice(0, 40), tag: e.tagName,
           y: box.top + scrollY, x: box.left, shown, marked: focused !== plain,
           name: e.ariaLabel || labels || e.title || e.textContent.trim() || e.alt,
           place: places.find(c => e.closest("." + c)) || "before" };
}"""


def stop(page, key="Tab"):
    """Press a key; what has the keyboard then, which must be seen, be seen to have it, and have a name."""
    page.keyboard.press(key)
    return seen_stop(page)


def seen_stop(page):
    """What has the keyboard, which must be seen, be seen to have it, and have a name."""
    found = page.evaluate(STOP)
    assert found and found["shown"] and found["marked"] and found["name"], found
    return found


def test_a_sheet_is_solved_with_the_keyboard_alone(reader):
    page = reader
    page.set_viewport_size(DESK)
    open_sheet(page)
    page.wait_for_selector('.er-status[data-state="ready"]')
    assert stop(page)["what"].startswith("md-skip")
    page.keyboard.press("Enter")
    passed = [stop(page)]
    while passed[-1]["what"] != "er-mean-1":
        passed.append(stop(page))
        assert len(passed) < 40
    assert {s["place"] for s in passed} == {"md-content"}  # the header and the lists of pages were skipped
    answers = right_answers()
    for n, (step, answer) in enumerate(answers.items()):
        assert page.evaluate("document.activeElement.id") == f"er-{step}"
        if n in (0, 10):
            for key in ("Tab", "Shift+Tab"):  # the hint and back
                stop(page, key)
        page.keyboard.type(answer)
        page.keyboard.press("Enter")  # it goes on once the verdict is there
        page.wait_for_function("step => document.activeElement.id !== step", arg=f"er-{step}")
        assert seen_stop(page)["what"] in (
            f"er-{list(answers)[n + 1]}" if n + 1 < len(answers) else "er-check focus-visible",
        )
    page.locator(".er-score", has_text="All 26 steps are right").wait_for()
    while stop(page)["what"] != "er-who":
        pass
    page.keyboard.type("Sanderling")
    page.keyboard.press("Enter")
    page.locator(".er-slip-holder").wait_for()
    while not stop(page)["what"].startswith("er-slip "):
        pass
    assert "Sanderling" in page.input_value(".er-slip") and CODE in page.input_value(".er-slip")
    assert stop(page)["what"].startswith("er-copy")


@pytest.mark.parametrize("size", [DESK, DOUBLED], ids=["desk", "doubled"])
@pytest.mark.parametrize("where", [SHEET, "class/desk/"])
def test_every_stop_is_seen_and_comes_in_order(reader, where, size):
    page = reader
    page.set_viewport_size(size)
    page.goto(page.base + where)
    page.wait_for_selector('.er-status[data-state="ready"]', timeout=60_000)
    if where == SHEET:  # the practice sheet gives way to one of the student's own
        page.wait_for_selector(".er-holder:not(.er-waiting) .er-sheet")
    stops = []
    while (found := (page.keyboard.press("Tab"), page.evaluate(STOP))[1]) and found not in stops:
        stops.append(found)
        assert found["shown"] and found["marked"] and found["name"], found
    order = ["before", "md-header", "md-tabs", "md-sidebar", "md-content", "md-footer"]
    places = [order.index(s["place"]) for s in stops]
    assert places == sorted(places) and {4, 5} < set(places)
    down = [s["y"] for s in stops if s["place"] == "md-content"]
    assert all(b > a - 60 for a, b in zip(down, down[1:]))  # down the page; what stands in one row counts as one height


#: Notes what a screen reader is told: text put into a live region that was there before the text.
HEAR = """() => {
  window.heard = []; window.lost = [];
  const LIVE = "[role=status], [role=alert]", known = new WeakSet(document.querySelectorAll(LIVE));
  new MutationObserver((records) => {
    const fresh = new Set(), told = new Set();
    for (const r of records) for (const n of r.addedNodes) if (n.matches)
      for (const e of [n, ...n.querySelectorAll(LIVE)]) if (e.matches(LIVE) && !known.has(e)) fresh.add(e);
    for (const r of records) {
      const e = (r.target.closest ? r.target : r.target.parentElement)?.closest(LIVE);
      if (e) told.add(e);
    }
    for (const e of told) if (e.textContent && e.getAttribute("aria-live") !== "off" && e.checkVisibility())
      (fresh.has(e) ? lost : heard).push(e.textContent);
    for (const e of fresh) { if (e.textContent && !told.has(e)) lost.push(e.textContent); known.add(e); }
  }).observe(document.body, { childList: true, subtree: true, characterData: true });
}"""


def test_a_screen_reader_is_told_each_thing_once(reader):
    page = reader
    open_sheet(page)
    page.wait_for_selector('.er-status[data-state="ready"]')
    page.evaluate(HEAR)

    def heard(expected: str) -> list[str]:
        page.wait_for_function("text => heard.some(t => t.includes(text))", arg=expected)
        page.wait_for_timeout(100)
        return page.evaluate("heard.splice(0)")

    answers = right_answers()
    type_in(page, "mean-1", answers["mean-1"])
    assert heard("1 of 26") == [said(page, "mean-1")[1], "1 of 26 steps right."]
    type_in(page, "tan-1", "0.5")
    assert heard(said(page, "tan-1")[1]) == [said(page, "tan-1")[1]]  # the score is as before, and is not said again
    page.click('[data-step="tan-2"] .er-hint')
    assert len(heard("Hint: ")) == 1
    page.click(".er-check")
    page.wait_for_timeout(300)
    assert page.evaluate("heard.splice(0)") == []
    # a whole sheet opened again is told by its score, not by 26 verdicts
    page.evaluate(
        "([code, all]) => localStorage.setItem(`eight-readings:sheet:${code}`, JSON.stringify(all))", [CODE, answers]
    )
    page.fill("#er-code", CODE)
    page.press("#er-code", "Enter")
    assert heard("All 26 steps are right.") == ["All 26 steps are right."]
    page.fill("#er-code", "hello")
    page.press("#er-code", "Enter")
    assert len(heard("code")) == 1
    assert page.evaluate("lost") == []
    named = page.locator(".er-entry").evaluate_all(
        "all => all.filter(e => e.querySelector('input, select').getAttribute('aria-describedby')"
        " === e.querySelector('.er-said').id).length"
    )
    assert named == 26


def test_few_colours_and_no_motion(reader):
    page = reader
    page.emulate_media(forced_colors="active", reduced_motion="reduce")
    open_sheet(page)
    type_in(page, "tan-1", "0.5")
    marks = {}
    for state in ("right", "wrong", "slip", "follows", "ask", "unread", "waiting"):
        page.evaluate("state => document.querySelector('[data-step=tan-1]').dataset.state = state", state)
        marks[state] = page.evaluate(
            "getComputedStyle(document.querySelector('[data-step=tan-1] .er-said'), '::before').content"
        )
    assert all(re.fullmatch('"."', mark) for mark in marks.values()), marks
    assert len({marks[s] for s in ("right", "wrong", "follows", "ask", "waiting")}) == 5
    bare = page.locator(":is(.er-desk, .er-handin) :is(button, input, select)").evaluate_all(
        "all => all.filter(e => e.checkVisibility() && parseFloat(getComputedStyle(e).borderTopWidth) < 1)"
        ".map(e => e.outerHTML)"
    )
    assert bare == []
    page.goto(f"{page.base}before/tangent-law/")
    # what is drawn is drawn in the system's own colours
    drawn = page.evaluate("""() => { const p = document.createElement("p"); document.body.append(p);
      const named = ["CanvasText", "Canvas", "LinkText", "GrayText"];
      const system = named.map(c => (p.style.color = c, getComputedStyle(p).color));
      return [...document.querySelectorAll(".er-figure *")].flatMap(e => { const s = getComputedStyle(e);
          return [s.stroke, s.fill]; }).filter(c => c !== "none" && !system.includes(c)); }""")
    assert set(drawn) <= {"rgb(0, 0, 0)"}, set(drawn)  # the fill that nothing has asked for, of groups and lines
    for where in ("", "before/tangent-law/", "class/desk/"):
        page.goto(page.base + where)
        moving = page.evaluate("""() => {
          const times = (e, part) => {
            const s = getComputedStyle(e, part || null);
            return [s.transitionDuration, s.animationName === "none" ? "0s" : s.animationDuration].join();
          };
          const elements = [...document.querySelectorAll("*")];
          const all = elements.flatMap(e => ["", "::before", "::after"].map(part => times(e, part)));
          return all.filter(t => /[1-9]/.test(t)).length;
        }""")
        assert moving == 0, where


def test_nothing_moves_when_python_comes(browser, address):
    places = (OPENED, "class/desk/", "revision/drill/", "record/", "record/bench/", "before/why-eight/")
    shifts = moved(browser, address, places, slow=True)
    assert len(shifts) == 2 * len(places) and not any(shifts.values()), shifts


def test_the_first_paint_waits_for_no_script(browser, address, site):
    for path in site.rglob("*.html"):
        head = path.read_text(encoding="utf-8").partition("</head>")[0]
        for tag in re.findall(r"<script[^>]* src=[^>]*>", head):
            assert re.search(r'type="module"|\bdefer\b|\basync\b', tag), (path, tag)
    page = browser.new_context(service_workers="block").new_page()
    page.route(re.compile(r"\.m?js$"), lambda route: None)  # none of them ever comes
    page.goto(address + SHEET, wait_until="commit")
    page.wait_for_function("performance.getEntriesByName('first-contentful-paint').length")
    assert page.is_visible(".er-sheet") and page.is_visible(".er-bar")
    page.context.close()


def test_a_page_is_light(browser, site):
    """Without the runtime, by a host that compresses: the benchmark page_kB_max weighs all pages."""
    with hosted() as base:
        for where in ("class/desk/", "exercises/dial/", "examples/plover/"):
            assert weight(browser, base + where) <= 250_000, where


def test_a_page_opens_in_the_scheme_that_the_device_likes(browser, address):
    for liked, name in SCHEMES.items():
        page = browser.new_context(color_scheme=liked, service_workers="block").new_page()
        page.goto(address)
        assert page.get_attribute("body", "data-md-color-scheme") == name
        page.context.close()
