"""What the class desk, the marks, the report, the lab record and the checker say in full, of work that was made up.

It is kept in golden/approved/ (see tests/keep.py).  Where another test shows that a sentence is right, these show
that no other has changed.
"""

import json
import random
from collections.abc import Iterable
from pathlib import Path

from exercises.bench.instrument import ALONE, Faults, Magnet, eight_readings
from exercises.classroom.class_list.class_file import Class, make, task
from exercises.classroom.class_list.class_file import class_text as class_file
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk import classes as desk_classes
from exercises.classroom.desk import returned as desk_returned
from exercises.classroom.desk import scheme_form as desk_scheme
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.report.counts import count
from exercises.classroom.report.marks_table import marks_csv, problems_csv
from exercises.classroom.report.page import report_fragment
from exercises.classroom.report.reading_out import paragraphs
from exercises.classroom.report.student_pages import page
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written as value_written
from exercises.record import page as record_page
from exercises.record.entries import as_plain
from exercises.record.position import TAN_B
from exercises.return_slip.text import ReturnSlip, return_slips_in
from exercises.return_slip.text import return_slip_text as slip_text
from exercises.student import desk as student
from exercises.student.why import SLIDERS, fragment, sentence, settings_from
from exercises.working.mathematics import symbols
from tests.benchmarks.records import MISREADS, as_record, simulated
from tests.exercises.approved_inputs import read_in
from tests.exercises.classwork import NAMES, right, slipped
from tests.exercises.golden import FOLDER, codes_of
from tests.exercises.in_words import lines_of
from tests.exercises.record.test_check import record_of, with_cell

KEPT = FOLDER / "approved"


def checked(slug: str) -> list[str]:
    """Of one sheet: what is said of right entries, of each slip made alone, of rough, strange and missing entries."""
    code = codes_of(all_kinds()[slug].letter)[5]
    sheet = open_code(code)
    kind, working = sheet.kind, sheet.working
    values, out = working.all_values(), []

    def said(what: str, entries: dict[str, str], all_right: bool = False) -> None:
        verdicts = json.loads(student.check(code, json.dumps(entries)))["verdicts"]
        for step, v in verdicts.items():
            shown = v.pop("html")  # the same words, as they are set
            assert shown == symbols(" ".join((v["text"], *v.get("remarks", ()))))
            told = {k: x for k, x in v.items() if k != "state" and x}
            if told != {"text": "Right."} or all_right:
                more = json.dumps(told, ensure_ascii=False) if told else ""
                out.append(f"{what} | {step} {entries.get(step, '')} | {v['state']} {more}".rstrip())

    said("all right", right(code), True)
    for step in working.steps:
        if step.choices:
            for choice, *_ in step.choices:
                said("chosen", {step.id: choice}, True)
            continue
        value = values[step.id]
        for text in (
            f"{value:.1g}",
            f"{value:.2g}",
            f"{value * 10:.4g}",
            f"{-value:.4g}",
            f"{value * 1.04:.4g}",
            f"{value:.9g}",
            "x",
            "0",
        ):
            said("alone", {step.id: text}, True)
    for slip in kind.slips:
        if not slip.hides:
            said(slip.key, {k: v for k, v in slipped(code, slip.key).items() if not working.by_id[k].choices})
    return out


def sheet(slug: str) -> list[str]:
    """The sheet as it is shown, its hints and its solution."""
    code = codes_of(all_kinds()[slug].letter)[6]
    working = open_code(code).working
    out = lines_of(json.loads(student.open_sheet(slug, code))["html"])
    for step in working.steps:
        hints = [json.loads(student.hint(code, step.id, n)) for n in range(5)]
        out.append(
            f"{step.id}: " + " / ".join(f"{h['text']} [{h['read']}, {h['left']}]" for h in hints[: len(step.hints) + 1])
        )
    return [*out, "--", *lines_of(json.loads(student.solution(code))["html"])]


def the_class() -> Class:
    scheme = Scheme(attempt="last", columns=(("tan-a/pole", 2.0),), follows=0.75, figures=0.1, units=0.25, out_of=20.0)
    students = [Student(f"S{n + 1:02d}", name) for n, name in enumerate(NAMES)]
    return make(
        students,
        "sand and salt water",
        [task("tan-a"), task("earth"), task("uncertainty")],
        "https://saltmarsh.example/",
        scheme,
    )


def slips_handed_in(made: Class) -> tuple[list[ReturnSlip], str]:
    """Work of a class: right, slipped, copied, half done, late, under another's code; and what was sent with it."""
    out, chance = [], random.Random("handed in")
    for n, (who, given) in enumerate(made.codes()):
        for which, (_, code) in enumerate(given):
            sheet = open_code(str(code))
            working = sheet.working
            entries = right(code)
            keys = [s.key for s in sheet.slips if not s.hides]
            if n in (2, 3, 4, 5, 8):
                wrong = slipped(code, keys[(5 * n + which) % len(keys)])
                entries |= {k: v for k, v in wrong.items() if not working.by_id[k].choices}
            ids = list(entries)
            if n == 5:  # half of it
                entries = {k: entries[k] for k in ids[: len(ids) // 2]}
            if n == 6:  # unreadable, rounded off, without units
                entries |= {ids[1]: "about a third", ids[2]: "1/2"}
                entries = {k: v.split()[0] for k, v in entries.items()}
            firsts = {k: chance.choice(("1", "0.5", "a lot")) for k in ids[n % 3 :: 4]} if n % 2 else {}
            if n < 9 and (n, which) != (7, 1):
                out.append(ReturnSlip(who.roll if n % 3 else who.name, str(code), entries, firsts, f"mail {n + 1}"))
    wrong_code = next(str(c) for _, c in made.codes()[0][1])
    more = [
        ReturnSlip("S02", wrong_code, {"mean-1": "45"}, {}, "mail 20"),  # another's code
        ReturnSlip("Heron", out[0].code, {"mean-1": "45"}, {}, "mail 21"),
        ReturnSlip("S01", "A37-222-49M", {"mean-1": "45"}, {}, "mail 22"),
        ReturnSlip("S03", out[6].code, {**out[6].answers, "pole": "7.7 A·m"}, {}, "mail 23"),  # a second, other one
        ReturnSlip("S04", out[9].code, {"strange": "1", **out[9].answers}, {}, "mail 24"),
    ]
    damaged = slip_text(out[1]).replace("0", "O", 1) + "\n\n" + slip_text(out[2])[:200]
    return out + more, damaged


def _without_handles(answer: str) -> str:
    """What Python answers a page with, but for the handles, which are others each time."""
    fields = {name: value for name, value in json.loads(answer).items() if name not in ("session", "work")}
    return json.dumps(fields, ensure_ascii=False)


def class_work() -> dict[str, list[str]]:
    """The files and pages of a class whose work was handed in."""
    made = the_class()
    handed_in, damaged = slips_handed_in(made)
    through_mail = "\n\n".join(slip_text(s) for s in handed_in)
    found, bad = return_slips_in(through_mail + "\n\n" + damaged, "mail.txt")
    intake = take_in(made, found, bad)
    marking = ClassMarking(intake, made.scheme)
    marked = [sheet for _, sheet in marking.marked_up_to()]
    alike = marking.copies
    report = count(made, marked)
    session = json.loads(desk_classes.open_file(class_file(made)))["session"]
    slips_json = json.dumps({"slips": [vars(s) for s in found[:12]], "problems": []})
    return {
        "slips": [line for s in handed_in[:6] for line in slip_text(s).splitlines()],
        "intake": [
            *(
                f"{h.student.roll} {h.task.kind.slug} {h.return_slip.source}: {' / '.join(h.notes)}"
                for h in intake.handed
            ),
            *(f"{p.source}: {p.who}: {p.code}: {p.text}" for p in intake.problems),
            *(f"missing: {s.roll} {t.kind.slug}" for s, t in intake.missing),
            *(one.text for one in alike.found()),
        ],
        "marks": marks_csv(marked, made, alike.found()).splitlines(),
        "not-marked": problems_csv(intake.problems).splitlines(),
        "pages": [line for m in marked[:14] for line in lines_of(page(m, made))],
        "report": [*lines_of(report_fragment(report, made.site)), *"\n\n".join(paragraphs(report)).splitlines()],
        "desk": [
            *lines_of(_without_handles(desk_scheme.form(session))),
            *lines_of(_without_handles(desk_returned.take_in(session, slips_json))),
        ],
    }


def _rows(faults: Faults, seed: int, ds, m: float, l: float, step: float):
    chance = random.Random(seed)
    return [
        (
            d,
            list(
                eight_readings(
                    Magnet(m, l),
                    36e-6,
                    d,
                    faults=faults,
                    errors=tuple(chance.gauss(0, 0.2) for _ in range(8)),
                    step=step,
                )
            ),
        )
        for d in ds
    ]


def records() -> list[str]:
    """What is said of lab records: honest ones, each fault of the instrument, misread and mistyped entries."""
    ds = (0.16, 0.175, 0.185, 0.199, 0.216)
    given = [
        ("honest", record_of()),
        ("honest, far", record_of(_rows(Faults(), 3, (0.19, 0.22, 0.26), 1.5, 1 / 30, 0.5))),
        ("zero error", record_of(_rows(ALONE["zero"](2.0), 4, ds, 1.5, 1 / 30, 0.5))),
        ("first turn left out", record_of(_rows(ALONE["first-turn"](4.0), 5, ds, 1.5, 1 / 30, 0.5))),
        ("second turn left out", record_of(_rows(ALONE["second-turn"](5.0), 5, ds, 1.5, 1 / 30, 0.5))),
        ("second turn left out, far", record_of(_rows(ALONE["second-turn"](3.0), 5, (0.21, 0.216), 1.5, 1 / 30, 1.0))),
        ("neither turn made", record_of(_rows(Faults(arm_off=5.0, box_turned=-2.0), 5, ds, 1.5, 1 / 30, 0.5))),
        ("box to one side", record_of(_rows(Faults(box_shift=0.004), 6, ds, 1.5, 1 / 30, 0.5))),
        ("bar not at its middle", record_of(_rows(Faults(centre_shift=0.004), 7, ds, 1.5, 1 / 30, 0.5))),
        ("one distance", record_of(_rows(Faults(), 8, ds[:1], 1.5, 1 / 30, 1.0), step="1")),
        ("two distances", record_of(_rows(Faults(), 9, ds[:2], 1.5, 1 / 30, 0.5))),
        ("another length", record_of(length="12.0")),
        ("another field", record_of(B_H="20")),
        ("no columns", record_of(filled=False)),
        ("tan B", simulated(random.Random("tan B"), Faults(), 4, TAN_B)[0]),
        (
            "tan B, box and pivot to one side",
            simulated(random.Random("tan B"), Faults(1e-3, box_shift=4e-3), 5, TAN_B)[0],
        ),
    ]
    honest = record_of()
    changed = {
        "reading3-2": "31",
        "reading5-1": "abc",
        "reading1-3": "",
        "mean-1": "50",
        "tan-2": "0.8",
        "bracket-1": "0.0009",
        "moment-3": "1.2 A",
        "mean-moment": "15",
        "pole": "2",
        "d-2": "15",
        "length": "-3",
        "B_H": "36 T",
        "step": "7",
        "place": "Atlantis",
        "position": "tan-b",
    }
    for name, text in changed.items():
        given.append((f"{name} = {text}", with_cell(honest, name, text)))
    out = []
    for title, record in given:
        said = json.loads(record_page.check(json.dumps(as_plain(record))))
        out.append(f"-- {title}: {said['summary']}")
        out += [f"{f['level']} {f['cells']} {f['read']}: {' '.join(lines_of(f['html']))}" for f in said["findings"]]
        out += [f"{name}: {c['state']} {c['text']}" for name, c in said["cells"].items() if not c.get("quiet")]
        out += (
            lines_of(said["paper"])
            if title in ("honest", "zero error", "two distances", "mean-1 = 50", "one distance", "tan B")
            else []
        )
    return out


def doubted() -> list[str]:
    """What is found, and the result, in made-up records with nothing, one thing or two things amiss."""
    out = []
    for seed in range(48):
        chance = random.Random(f"doubted {seed}")
        faults = ALONE["first-turn"](chance.uniform(-4, 4)) if seed % 4 == 3 else None
        _, rows = simulated(chance, faults, chance.choice((2, 3, 4, 5, 6)))
        head = {"length": chance.choice(("6.0", "8.0", "10.0")), "B_H": f"{chance.uniform(15, 40):.4g}", "step": "0.5"}
        for _ in range(seed % 3):
            at, reading = chance.randrange(len(rows)), chance.randrange(8)
            d, readings = rows[at]
            if chance.random() < 0.5:
                readings[reading] += chance.choice(MISREADS)
            else:
                rows[at] = d + chance.choice((0.005, -0.005, 0.01)), readings
        if seed % 5 == 4:
            head |= {"place": "Pune", "date": "2026-10-05", "B_H": ""}
        said = json.loads(record_page.check(json.dumps(as_plain(as_record(head, rows)))))
        out.append(f"-- {seed}: {said['summary']}")
        out += [f"{f['level']} {f['cells']}: {' '.join(lines_of(f['html']))}" for f in said["findings"]]
        out += [line for line in lines_of(said["paper"]) if "±" in line or "%" in line]
        out += [f"{name} {value}" for name, value in said["computed"].items() if "mean" in name or name == "pole"]
    return out


def explained() -> list[str]:
    """Why eight readings: each fault alone, and all."""
    names, out = [s.name for s in SLIDERS], []
    for settings in ({}, *({n: 1.5} for n in names), dict.fromkeys(names, 1.0)):
        found = settings_from(settings)
        out += [f"-- {settings}: {sentence(found)}", *lines_of(fragment(found))]
    return out


def of_kind(slug: str) -> dict[str, list[str]]:
    """File name -> lines, of what is said of one kind."""
    return {f"checked-{slug}": checked(slug), f"sheet-{slug}": sheet(slug)}


def everything() -> dict[str, list[str]]:
    """File name -> lines."""
    found = {name: lines for slug in all_kinds() for name, lines in of_kind(slug).items()}
    found |= {f"class-{name}": lines for name, lines in class_work().items()}
    return found | read_in() | {"records": records(), "doubted": doubted(), "why": explained(), "values": _values()}


def _values() -> list[str]:
    """Numbers as they are written in a solution and on paper."""
    step = open_code(codes_of("A")[0]).working.steps[0]
    return [f"{x!r}: {value_written(x, step)}" for x in (0.0, 1.0, 44.6875, 1234.5678, 1.5e-7, -3.0)]


def keep(slugs: Iterable[str] | None = None, folder: Path = KEPT) -> None:
    """Write anew the files of these kinds; of None, all files, and delete what is no longer written."""
    folder.mkdir(exist_ok=True)
    if slugs is None:
        found = everything()
        for old in folder.glob("*.txt"):
            if old.stem not in found:
                old.unlink()
    else:
        found = {name: lines for slug in slugs for name, lines in of_kind(slug).items()}
    for name, lines in found.items():
        (folder / f"{name}.txt").write_bytes(f"{'\n'.join(lines)}\n".encode())
