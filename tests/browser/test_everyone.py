"""The site for everyone: with a keyboard alone, a screen reader, large letters, few colours, little motion, no mouse.

What rules can judge, test_rules.py does; here are the keyboard, what is read out, and what moves.
"""

import re

import pytest

from tests.benchmarks.pages import OPENED, hosted, moved, weight
from tests.browser.steps import CODE, DESK, DOUBLED, SCHEMES, SHEET, open_sheet, right_answers, said, type_in

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
