"""How long a class takes, and how much memory: codes, addresses and key; then slips marked, with the report.

Each size runs in a process of its own on one core, so that its memory is its own:

    python -m tests.benchmarks.classes 1000
"""

import json
import random
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable, Iterator
from pathlib import Path

from exercises.classroom.class_list import tables
from exercises.classroom.class_list.class_file import class_text, make, read_class, task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.marks_file import begun, joined, marks_text
from exercises.classroom.report.counts import count
from exercises.classroom.report.marks_table import marks_csv, problems_csv
from exercises.classroom.report.page import report_html
from exercises.files.tables import lines
from exercises.judging.diagnosis import slipped_parts
from exercises.kinds.kind import sheet_of
from exercises.kinds.sheet import written
from exercises.return_slip.text import ReturnSlip, return_slips_in
from exercises.return_slip.text import return_slip_text as slip_text
from tests.benchmarks import speed

ROOT = Path(__file__).parents[2]
SIZES = (1_000, 10_000)
LARGE = (1_000, 10_000, 100_000)


def a_class(many: int):
    students = tuple(Student(str(n), f"Plover {n}") for n in range(1, many + 1))
    return make(students, "sand and salt water", (task("tan-a"),), "https://saltmarsh.example/")


def handed_in(made) -> list[str]:
    """What a class hands in, in files of a thousand slips: two in five all right, the rest with a slip, a wrong
    entry or a gap."""
    chance, texts = random.Random("a class"), []
    for student, given in made.codes():
        for _, code in given:
            sheet = sheet_of(code)
            working = sheet.working
            values = working.all_values()
            fate = chance.random()
            if 0.4 <= fate < 0.7:
                slip = chance.choice([s for s in sheet.slips if not s.hides])
                values |= working.slipped(slip.part, slipped_parts(working, slip), values)
            answers = {s.id: written(values[s.id], s) for s in working.steps}
            step = chance.choice(working.steps)
            if 0.7 <= fate < 0.85:
                answers[step.id] = f"{values[step.id] * chance.uniform(1.05, 1.6):.3g}"
            elif 0.85 <= fate < 0.95:
                del answers[step.id]
            firsts = {step.id: "1.23"} if fate > 0.6 else {}
            texts.append(slip_text(ReturnSlip(student.roll, str(code), answers, firsts)))
    return ["\n".join(texts[at : at + 1000]) for at in range(0, len(texts), 1000)]


class Pace:
    """How fast the processor is while it works: what one turn of a plain loop takes, taken again and again.

    It changes from second to second, so that a loop before or after the work says too little.
    """

    def __init__(self) -> None:
        self.seconds, self.turns = 0.0, 0

    def along[T](self, things: Iterable[T], every: int = 50) -> Iterator[T]:
        """The things, with a short loop after each so many of them."""
        for n, thing in enumerate(things, 1):
            yield thing
            if n % every == 0:
                self.loop(10_000)

    def loop(self, turns: int) -> None:
        start, x = time.process_time(), 0.0
        for i in range(turns):
            x += i * 0.5
        self.seconds += time.process_time() - start
        self.turns += turns

    @property
    def loop_ns(self) -> float:
        return self.seconds / self.turns * 1e9


def made_seconds(many: int, pace: Pace, sheets: set | None = None) -> float:
    """Codes, addresses and key of so many students, as the text of their tables; less what the pace took.

    sheets  takes what each sheet gives, to see whether two are alike
    """
    start = time.process_time() - pace.seconds
    made, size = a_class(many), 0
    for student, given in pace.along(made.codes()):
        for one, code in given:
            sheet = sheet_of(code)
            size += len(lines([tables.address_row(made.site, student, one.kind, code)]))
            size += len(lines(tables.key_rows(student, sheet)))
            if sheets is not None:
                sheets.add(hash(tuple(sheet.working.givens.values())))
    assert size > 1000 * many
    return time.process_time() - pace.seconds - start


def marked_seconds(made, parts: list[str], pace: Pace) -> float:
    """The slips of some texts read, taken in, compared, marked and reported on; less what the pace took."""
    start = time.process_time() - pace.seconds
    slips, problems = [], []
    for n, part in enumerate(parts):
        found, wrong = return_slips_in(part, f"file {n}")
        slips += found
        problems += wrong
    intake = take_in(made, slips, problems)
    marking = ClassMarking(intake, made.scheme)
    marked = [sheet for _, sheet in pace.along(marking.marked_up_to())]
    alike = marking.copies.found()
    assert not alike, alike[:3]  # nobody copied
    out = marks_csv(marked, made), problems_csv(intake.problems), report_html(count(made, marked), made, "")
    assert len(marked) == len(made.students) and not intake.missing and all(out)
    return time.process_time() - pace.seconds - start


def in_this_process(many: int) -> dict[str, float]:
    making, marking = Pace(), Pace()
    found = {"class_seconds": made_seconds(many, making)}
    found["class_MB"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    made = a_class(many)
    parts = handed_in(made)
    sheet_of.cache_clear()
    found["mark_seconds"] = marked_seconds(made, parts, marking)
    found["mark_MB"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return found | {"class_loop_ns": making.loop_ns, "mark_loop_ns": marking.loop_ns}


def sizes(wanted: tuple[int, ...] = SIZES) -> dict[str, float]:
    """The figures of each size, each from a process of its own."""
    found = {}
    for many in wanted:
        done = subprocess.run(
            [sys.executable, "-m", "tests.benchmarks.classes", str(many)],
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=True,
        )
        found |= {f"{name}_{many}": value for name, value in json.loads(done.stdout).items()}
    return found


def growth() -> dict[str, float]:
    """How the time for one student grows from the smallest class to the largest, 1 being linear; sheets that are
    alike."""
    found = sizes(LARGE)
    small, large = LARGE[0], LARGE[-1]
    for name in ("class", "mark"):
        each = [found[f"{name}_seconds_{n}"] / n for n in (small, large)]
        found[f"{name}_growth"] = each[1] / each[0]
    sheets: set[int] = set()
    made_seconds(large, Pace(), sheets)
    return found | {f"sheets_alike_{large}": large - len(sheets)}


#: In the page: the longest time for which it could answer nothing, ms.
WATCH = """() => {
  let last = performance.now();
  window.longest = 0;
  setInterval(() => {
    const now = performance.now();
    window.longest = Math.max(window.longest, now - last);
    last = now;
  }, 4);
}"""


def desk(many: int = 300) -> dict[str, float]:
    """The class desk in a browser: a class of 300, its codes and key saved, its slips pasted and marked, with the
    report."""
    with speed.page() as page:
        page.goto(f"{page.url}class/desk/")
        page.wait_for_selector(".cd .er-status[data-state=ready]")
        page.fill("#cd-list", f"1-{many}")
        page.fill("#cd-phrase", "sand and salt water")
        page.evaluate(WATCH)

        def took(*clicks: str, until: str = "", saved: bool = False) -> float:
            start = time.perf_counter()
            for click in clicks:
                if saved:
                    with page.expect_download() as waiting:
                        page.click(click)
                    assert waiting.value.path()
                else:
                    page.click(click)
            if until:
                page.wait_for_selector(until)
            return time.perf_counter() - start

        found = {
            "desk_class_seconds": took("text=Make the class", until='#cd-class-said:has-text("The class is made")')
        }
        found["desk_key_seconds"] = took('[data-save="codes.csv"]', '[data-save="key.csv"]', saved=True)
        with page.expect_download() as waiting:
            page.click('[data-save="class.json"]')
        (slips,) = handed_in(read_class(waiting.value.path().read_text()))
        # as a paste: typing so much is the browser driver's own slowness
        page.evaluate("text => document.querySelector('#cd-pasted').value = text", slips)
        found["desk_slips_seconds"] = took(
            "#cd-add-pasted", until=f'#cd-returned-said:has-text("{many} slips came in")'
        )
        found["desk_mark_seconds"] = took("#cd-mark", until=f'#cd-marks-said:has-text("{many} students marked")')
        found["desk_seconds"] = sum(found.values())
        return found | {"desk_longest_gap_ms": page.evaluate("window.longest")}


def marks_file(many: int = 10_000) -> dict[str, float]:
    """A marks file of so many students opened on the desk in a browser, where its class is open."""
    made = a_class(many)
    slips = [
        ReturnSlip(
            student.roll, str(code), {f"mean-{n}": f"{30 + n}.25°" for n in range(1, 23)}, {}, f"{student.roll}.txt"
        )
        for student, [(_, code)] in made.codes()
    ]
    file, _ = joined(begun(made), slips, [])
    with speed.page() as page, tempfile.TemporaryDirectory() as folder:
        for name, text in (("class.json", class_text(made)), ("marks.json", marks_text(file))):
            (Path(folder) / name).write_text(text, encoding="utf-8")
        page.goto(f"{page.url}class/desk/")
        page.wait_for_selector(".cd .er-status[data-state=ready]")
        page.set_input_files("#cd-class-file", Path(folder) / "class.json")
        page.wait_for_selector("#cd-students-list option", state="attached", timeout=120_000)
        page.wait_for_timeout(1000)  # the class is taken in to the end
        start = time.perf_counter()
        page.set_input_files("#cd-marks-file", Path(folder) / "marks.json")
        page.wait_for_selector("#cd-intake table", timeout=120_000)
        return {"marks_file_open_s": time.perf_counter() - start}


if __name__ == "__main__":
    print(json.dumps(in_this_process(int(sys.argv[1]))))
