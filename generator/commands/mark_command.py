"""`eight mark`: what students handed in becomes marks, pages to give back, and a report on the class."""

import argparse
from collections import Counter, defaultdict
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

from exercises.classroom.class_list.class_file import Class, ClassError, opened
from exercises.classroom.class_list.codes import PhraseError
from exercises.classroom.class_list.roster import RosterError, decode
from exercises.classroom.class_list.tables import lines
from exercises.classroom.marking.copies import Alike, Copies
from exercises.classroom.marking.intake import Handed, Intake, take_in
from exercises.classroom.marking.marking import Marked, mark
from exercises.classroom.marking.scheme import SchemeError, as_dict, from_dict
from exercises.classroom.marking.typed_in import typed_in
from exercises.classroom.report import student_pages as mark_pages
from exercises.classroom.report.marks_table import (
    BYTE_ORDER_MARK,
    alike_by_roll,
    marks_head,
    marks_row,
    problems_csv,
    with_notes,
)
from exercises.classroom.report.report import Tally
from exercises.classroom.report.report_page import report_html
from exercises.kinds.kind import open_code
from exercises.return_slip.text import Problem
from generator.build.runtime import ROOT
from generator.build.trouble import Trouble
from generator.commands.class_command import Progress
from generator.commands.gathered import LARGEST, gathered, printable
from generator.commands.whole import put

MARKS, PAGES, PROBLEMS, REPORT = FILES = ("marks.csv", "students.html", "not-marked.csv", "report.html")
TOLD = 5  # problems that are told on the screen; all are in the file
#: Option -> (name in the scheme, what it is).
NUMBERS = {
    "step-mark": ("step_mark", "marks for each step"),
    "follows": ("follows", "share of a step's mark for right working from a wrong start, 0 to 1"),
    "figures": ("figures", "share taken off for too few or too many figures, 0 to 1"),
    "units": ("units", "share taken off where a unit was left out, 0 to 1"),
    "out-of": ("out_of", "the total that each sheet's marks are scaled to"),
}


def add_to(commands) -> None:
    """Enter the command among those of `eight`."""
    parser = commands.add_parser("mark", help="mark what students handed in")
    parser.add_argument("paths", nargs="*", metavar="folder", help="folders and files with return slips")
    parser.add_argument(
        "--class", dest="class_file", default="class/class.json", help="the class file (class/class.json if not given)"
    )
    parser.add_argument(
        "--typed",
        action="append",
        default=[],
        metavar="CSV",
        help="answers copied from paper: roll, kind, step, answer",
    )
    parser.add_argument("--out", default="marks", help="the folder to write to (marks if not given)")
    for option, (_, what) in NUMBERS.items():
        parser.add_argument(f"--{option}", metavar="NUMBER", help=what)
    parser.add_argument("--attempt", help="which of what was typed is marked, last or first")
    parser.add_argument(
        "--mark",
        action="append",
        default=[],
        metavar="STEP=NUMBER",
        help="another mark for one step, such as tan-a/pole=2",
    )


def run(chosen: argparse.Namespace) -> None:
    """Mark what was handed in.  Trouble, with nothing changed in the folder, if nothing could be marked."""
    try:
        made = _class(chosen)
        intake, notes = _intake(chosen, made)
    except KeyboardInterrupt:
        raise Trouble("Stopped. Nothing was written.") from None
    if not intake.handed:
        raise Trouble("\n".join(["There is nothing that can be marked.", *notes, *_told(intake.problems, "")]))
    marked: list[Handed] = []
    problems, alike = list(intake.problems), Copies()
    folder = Path(chosen.out)

    def write(place: Path) -> None:
        with ExitStack() as stack:
            files = {n: stack.enter_context(open(place / n, "w", encoding="utf-8", newline="")) for n in FILES}
            _write(made, intake, files, marked, problems, alike)
            if not marked:
                raise Trouble("\n".join(["There is nothing that can be marked.", *notes, *_told(tuple(problems), "")]))

    put(folder, FILES, write, "the marking")
    for sentence in (*notes, *_summary(made, marked, tuple(problems), alike.found(), folder)):
        print(sentence)


def _class(chosen: argparse.Namespace) -> Class:
    """The class, with the scheme that the command line asks for."""
    try:
        made = opened(decode(_bytes(chosen.class_file, "class file")))
        return replace(made, scheme=from_dict(_scheme(chosen, as_dict(made.scheme))))
    except (ClassError, PhraseError, RosterError, SchemeError) as error:
        raise Trouble(str(error)) from error


def _scheme(chosen: argparse.Namespace, scheme: dict) -> dict:
    for option, (name, _) in NUMBERS.items():
        if (text := getattr(chosen, option.replace("-", "_"))) is not None:
            scheme[name] = _number(text, f"--{option}")
    if chosen.attempt is not None:
        scheme["attempt"] = chosen.attempt.strip().lower()
    for given in chosen.mark:
        step, sign, text = given.partition("=")
        if not sign:
            raise Trouble(f"“{given[:60]}” is no mark for a step. Write it as --mark tan-a/pole=2.")
        scheme["columns"][step.strip().lower()] = _number(text, f"--mark {step.strip()[:40]}")
    return scheme


def _number(text: str, option: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise Trouble(f"{option} must be a number; “{text[:40]}” is not.") from None


def _bytes(name: str, what: str) -> bytes:
    """What a file holds.  Trouble, with a sentence, if it cannot be read."""
    path = Path(name)
    try:
        if not path.is_file():
            raise Trouble(f"There is no {what} {name[:200]}. Give one that was made with eight class.")
        if (size := path.stat().st_size) > LARGEST:
            raise Trouble(f"{name} has {size:,} bytes; at most {LARGEST:,} are read.")
        return path.read_bytes()
    except PermissionError as error:
        raise Trouble(f"{name} may not be read. Mend its permissions.") from error
    except (OSError, ValueError) as error:
        raise Trouble(f"{name[:200]} could not be read: {error}.") from error


def _intake(chosen: argparse.Namespace, made: Class) -> tuple[Intake, list[str]]:
    """All that was handed in, set against the class, and sentences on what was left out."""
    if not chosen.paths and not chosen.typed:
        raise Trouble("Give a folder or files with return slips, or --typed with a table of answers copied from paper.")
    slips, problems, notes = gathered(
        chosen.paths, [Path(chosen.out), Path(chosen.class_file), *map(Path, chosen.typed)]
    )
    for name in chosen.typed:
        try:
            more, troubles = typed_in(decode(_bytes(name, "table")), made, Path(name).name)
        except RosterError as error:
            raise Trouble(f"{name}: {error}") from error
        slips += more
        problems += troubles
    return take_in(made, slips, problems), notes


def _write(
    made: Class, intake: Intake, files: dict, marked: list[Handed], problems: list[Problem], alike: Copies
) -> None:
    """All files, a student at a time, so that a large class needs little memory."""
    css = (ROOT / "site_assets" / "notebook.css").read_text(encoding="utf-8")
    progress, tally = Progress(len(intake.handed)), Tally(made)
    by_roll: dict[str, list[Handed]] = defaultdict(list)
    for handed in intake.handed:
        by_roll[handed.student.roll].append(handed)
    rows = []
    files[PAGES].write(mark_pages.head(css))
    for student, given in made.codes():
        sheets: dict[str, Marked] = {}
        for handed in by_roll.get(student.roll, ()):
            try:
                sheet = sheets[handed.task.kind.slug] = mark(handed, made.scheme)
            except ArithmeticError:
                told = "The sheet of this code has no consistent numbers, so it cannot be marked. Look at the settings of the class."
                problems.append(Problem(handed.slip.source, student.roll, str(handed.code), told, handed.slip))
                continue
            tally.add(sheet)
            alike.add(handed, open_code(str(handed.code)).working)
            marked.append(sheet.handed)
            files[PAGES].write(mark_pages.page(sheet, made))
            progress.one_more()
        rows.append(marks_row(made, student, {t.kind.slug: c for t, c in given}, sheets))
    files[PAGES].write(mark_pages.FOOT)
    about = alike_by_roll(alike.found())
    rows = [with_notes(row, about.get(row[0], ())) for row in rows]
    files[MARKS].write(BYTE_ORDER_MARK + lines([marks_head(made), *rows]))
    files[PROBLEMS].write(problems_csv(problems))
    files[REPORT].write(report_html(tally.report(), made, css))
    progress.end()


def _summary(
    made: Class, marked: list[Handed], problems: tuple[Problem, ...], alike: list[Alike], folder: Path
) -> list[str]:
    students = len({handed.student.roll for handed in marked})
    said = [f"{len(marked):,} sheet{_s(marked)} of {students:,} student{'' if students == 1 else 's'} marked:"]
    by_kind = Counter(handed.task.kind.slug for handed in marked)
    many = len(made.students)
    said += [f"  {task.kind.title}: {by_kind[task.kind.slug]:,} of {many:,} handed in" for task in made.tasks]
    if noted := sum(bool(handed.notes) for handed in marked):
        said.append(
            f"{noted:,} of them {'has' if noted == 1 else 'have'} a note beside the marks; look at these first."
        )
    if alike:
        said.append(
            f"{len(alike):,} time{_s(alike)} work of different students is alike where their sheets are not (see the notes in {MARKS}):"
        )
        said += [printable(f"  {one.text}") for one in alike[:TOLD]]
        said += [f"  … and {len(alike) - TOLD:,} more."] if len(alike) > TOLD else []
    if problems:
        said.append(f"{len(problems):,} thing{_s(problems)} that came in could not be marked:")
        said += _told(problems, f"  … and {len(problems) - TOLD:,} more; all are in {PROBLEMS}.")
    said.append(f"{', '.join(FILES)} are in {folder}/.")
    said.append(f"{MARKS} and {PAGES} name students; {REPORT} does not.")
    return said


def _told(problems: tuple[Problem, ...], more: str) -> list[str]:
    said = []
    for problem in problems[:TOLD]:
        about = ", ".join(part[:80] for part in (problem.source, problem.who, problem.code) if part)
        said.append(printable(f"  {about}: {problem.text}"))
    if len(problems) > TOLD:
        said.append(more or f"  … and {len(problems) - TOLD:,} more.")
    return said


def _s(things) -> str:
    return "" if len(things) == 1 else "s"
