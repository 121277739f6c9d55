"""What a student does on the page, and what is seen of it."""

import json
import re

from exercises.kinds.kind import open_code
from exercises.kinds.sheet import written

#: What no start of Python does without, from the image or the plain way.
PYTHON = re.compile(r"\.wasm$|runtime\.bin$")
CODE = "A3Y-MAK-X9M"  # six distances, half degrees
SHEET = "exercises/tan-a/"
DESK, PHONE = {"width": 1280, "height": 900}, {"width": 360, "height": 800}
DOUBLED = {"width": 640, "height": 450}  # what is left of a desk's screen at 200 % (WCAG 2.2, 1.4.4)
SCHEMES = {"light": "notebook", "dark": "evening"}


#: Kept before the page's own scripts run: how far anything moved that nobody had moved.
SHIFTS = """window.shifts = [];
new PerformanceObserver((list) => {
  for (const e of list.getEntries()) if (!e.hadRecentInput)
    shifts.push([e.value, e.sources.map((s) => s.node && (s.node.className || s.node.nodeName)).join(" ")]);
}).observe({ type: "layout-shift", buffered: true });"""


def open_sheet(page, code=CODE, sheet=SHEET):
    """Open a sheet, of tan A unless told, and wait until its own numbers are there."""
    page.goto(f"{page.base}{sheet}?code={code}" if code else f"{page.base}{sheet}")
    page.wait_for_selector(".er-holder:not(.er-waiting) .er-sheet", timeout=60_000)


def enter_code(page, code):
    """Open another sheet on a page that has one."""
    page.fill("#er-code", code)
    page.press("#er-code", "Enter")
    page.wait_for_selector(f'.er-sheet[data-code="{code}"]')


def type_in(page, step, text):
    """Type an answer and leave the field, as a student does; the verdict's element."""
    page.fill(f"#er-{step}", text)
    page.press(f"#er-{step}", "Tab")
    return said(page, step)


def said(page, step, state=None):
    """(state, text) of a step's verdict, waiting for one."""
    entry = f'.er-entry[data-step="{step}"]'
    wanted = (
        f'{entry}[data-state="{state}"]'
        if state
        else f'{entry}[data-state]:not([data-state=""]):not([data-state="waiting"])'
    )
    page.wait_for_selector(wanted)
    return page.get_attribute(entry, "data-state"), page.inner_text(f"{entry} .er-said")


def right_answers(code=CODE):
    """Every step's right answer, written as it should be."""
    working = open_code(code).working
    values = working.all_values()
    return {step.id: written(values[step.id], step) for step in working.steps}


def kept(page):
    """What the browser keeps: key -> value."""
    found = page.evaluate("Object.fromEntries(Object.entries(localStorage))")
    return {key.removeprefix("eight-readings:"): json.loads(value) for key, value in found.items() if ":" in key}


def breaking_down(worker: str, call: str) -> str:
    """The worker's script, made so that the runtime breaks down for good when a page asks for `call`."""
    breakdown = 'const [python] = await started; try { python._api.fatal_error(new Error("on purpose")); } catch {}'
    broken = worker.replace("try{", f'try {{\n    if (call === "{call}") {{ {breakdown} python.runPython; }}', 1)
    assert broken != worker
    return broken
