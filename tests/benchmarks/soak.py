"""One browser tab for a long evening: five hundred sheets, five thousand checks; random strings in every input.

Memory is the resident memory of the tab's own process as the system counts it, in which everything is: the heap of
the browser's Python, which grows and never shrinks, the page and its script.  (The page cannot ask for the first: the
worker keeps its runtime to itself, and measureUserAgentSpecificMemory wants a page isolated from others.)
"""

import json
import random
import statistics
import time
from pathlib import Path

from exercises.kinds.kind import all_kinds, open_code
from tests.benchmarks.judging import typed
from tests.benchmarks.speed import page as served
from tests.exercises.strings import INPUTS, WHOLE, text

SHEETS, CHECKS = 500, 10  # checks of each sheet
ROUND = 25  # sheets between two looks at the memory
WARM = 0.2  # of the sheets: until then everything is loaded and written once

#: On the page: new numbers as a student asks for them; its code.
FRESH = """async () => {
  const sheet = () => document.querySelector(".er-sheet").dataset.code, old = sheet();
  document.querySelector(".er-fresh").click();
  while (sheet() === old) await new Promise((resolve) => setTimeout(resolve, 2));
  return sheet();
}"""
#: On the page: each set of entries typed into the sheet and checked; the time of each in ms.
TYPED = """async (all) => {
  const score = document.querySelector(".er-score"), taken = [];
  for (const entries of all) {
    for (const [step, typed] of Object.entries(entries)) {
      const input = document.querySelector(`#er-${step}`);
      input.value = typed;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    }
    score.textContent = "";
    const start = performance.now();
    let looking;
    const said = new Promise((resolve) =>
      (looking = new MutationObserver(resolve)).observe(score, { childList: true }));
    document.querySelector(".er-entry input").dispatchEvent(new Event("change", { bubbles: true }));
    await said;
    taken.push(performance.now() - start);
    looking.disconnect();
  }
  return taken;
}"""
#: Beside it: sheets of every kind, asked of one Python that is started once.
ASKED = """async ([slug, noise, calls]) => {
  if (!window.other) {
    const { Python } = await import(new URL("eight/python.js", location.origin));
    window.other = await new Promise((resolve, reject) => {
      const made = new Python({ onready: () => resolve(made), onfailed: reject });
    });
  }
  if (!calls) {
    const { code } = await window.other.ask("fresh", slug, noise);
    await window.other.ask("open_sheet", slug, code);
    return code;
  }
  for (const call of calls) await window.other.ask("check", ...call);
  for (const call of ["solution", "numbers"]) await window.other.ask(call, calls[0][0]);
}"""


def _entries(code: str, chance: random.Random) -> list[dict[str, str]]:
    """What is typed on a sheet, one check after the other: right, wrong and unreadable."""
    working = open_code(code).working
    values = working.all_values()
    found = []
    for _ in range(CHECKS):
        found.append(
            {
                s.id: values[s.id]
                if s.choices
                else typed(values[s.id] * chance.choice((1, 1, 1.3, chance.uniform(0.5, 2))), s)
                if chance.random() < 0.95
                else "1,234.5"
                for s in working.steps
            }
        )
    return found


def _resident(page) -> float:
    """Resident memory of the tab's process, the largest renderer, in MB, after the page's rubbish is out."""
    session = page.context.new_cdp_session(page)
    session.send("HeapProfiler.collectGarbage")
    session.detach()
    session = page.context.browser.new_browser_cdp_session()
    found = [p["id"] for p in session.send("SystemInfo.getProcessInfo")["processInfo"] if p["type"] == "renderer"]
    session.detach()
    return max(_kilobytes(pid) for pid in found) / 1024


def _kilobytes(pid: int) -> int:
    try:
        status = Path(f"/proc/{pid}/status").read_text()
    except OSError:  # ended since
        return 0
    return next((int(line.split()[1]) for line in status.splitlines() if line.startswith("VmRSS")), 0)


def soak() -> dict[str, float]:
    """Sheets by the hundred in one tab: errors, memory, and the time of a check at the beginning and at the end."""
    chance, slugs = random.Random("soak"), list(all_kinds())
    errors, taken, memory = [], [], []
    with served() as opened:
        opened.on("pageerror", lambda error: errors.append(str(error)))
        opened.goto(opened.url + "exercises/tan-a/")
        opened.wait_for_selector(".er-holder:not(.er-waiting) .er-sheet", timeout=60_000)
        opened.evaluate("window.confirm = () => true")
        for at in range(SHEETS):
            if at % 2:  # typed on the page
                code = opened.evaluate(FRESH)
                taken += opened.evaluate(TYPED, _entries(code, chance))
            else:
                slug = slugs[at // 2 % len(slugs)]
                code = opened.evaluate(ASKED, [slug, f"{chance.getrandbits(64):x}", None])
                opened.evaluate(ASKED, [slug, "", [[code, json.dumps(e)] for e in _entries(code, chance)]])
            if opened.is_visible(".er-trouble"):
                errors.append(opened.inner_text(".er-trouble")[:200])
                opened.evaluate("document.querySelector('.er-trouble').hidden = true")
            if (at + 1) % ROUND == 0:
                memory.append(_resident(opened))
    for error in errors[:5]:
        print(f"soak: {error}")
    tenth = len(taken) // 10
    warm = memory[round(len(memory) * WARM) - 1]
    return {
        "soak_errors": len(errors),
        "soak_memory_MB": memory[-1],
        "soak_memory_growth_MB": memory[-1] - warm,
        "soak_memory_growth_late_MB": memory[-1] - memory[len(memory) // 2 - 1],
        "soak_check_ms_first": statistics.median(taken[:tenth]),
        "soak_check_ms_last": statistics.median(taken[-tenth:]),
    }


STRINGS = 10_000  # through every input
ON_A_SHEET = 20  # strings that one call of a whole sheet or record takes


def _busy(one, chance: random.Random, given: str) -> float:
    """This processor's time for a string at one of the inputs, in ms."""
    start = time.thread_time()
    one(chance, given)
    return (time.thread_time() - start) * 1000


def random_strings() -> dict[str, float]:
    """The longest that one of ten thousand random strings keeps an input busy, in ms of this processor's time."""
    worst, crashes, at = 0.0, 0, ""
    for name, one in INPUTS.items():
        chance = random.Random(f"{name} 2")
        for _ in range(STRINGS // (ON_A_SHEET if name.startswith(WHOLE) else 1)):
            given, state = text(chance), chance.getstate()
            try:
                busy = _busy(one, chance, given)
                if busy > worst:  # once more: what is drawn or loaded the first time is kept
                    chance.setstate(state)
                    busy = min(busy, _busy(one, chance, given))
            except Exception as error:
                crashes += 1
                print(f"{name}: {type(error).__name__} for {ascii(given[:60])}")
                continue
            if busy > worst:
                worst, at = busy, f"{name}, {ascii(given[:20])} of {len(given)}"
    print(f"the longest: {at}")
    return {"random_strings_worst_ms": worst, "random_strings_crashes": crashes}
