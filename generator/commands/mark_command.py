"""`eight mark`: what students handed in becomes marks, pages to give back, and a report on the class."""

import argparse
from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, replace
from itertools import groupby
from pathlib import Path
from typing import Any, TextIO

from exercises.classroom.class_list.class_file import Class, read_class
from exercises.classroom.examination.ready_page import ready_html, shares_of
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.copies import Alike
from exercises.classroom.marking.intake import Handed, Intake, take_in
from exercises.classroom.marking.marks import Marked
from exercises.classroom.marking.scheme import as_dict, from_dict
from exercises.classroom.marking.typed_in import typed_in
from exercises.classroom.refused import Refused
from exercises.classroom.report import student_pages
from exercises.classroom.report.counts import Tally
from exercises.classroom.report.marks_table import MarksRow, marks_row, problems_csv, table_of
from exercises.classroom.report.page import report_html
from exercises.files.text import LARGEST, FileError, decode
from exercises.return_slip.lines import Problem
from exercises.working.words import many
from generator.build.paper_style import paper_style
from generator.build.trouble import Trouble
from generator.commands.arguments import Commands
from generator.commands.progress import Progress
from generator.commands.replacing import replace_files
from generator.commands.returned_files import printable, read_returned

FILES = MARKS, PAGES, PROBLEMS, REPORT, READY = (
    "marks.csv",
    "students.html",
    "not-marked.csv",
    "report.html",
    "ready.html",
)
TOLD = 5  # problems that are told on the screen; all are in the file
#: Option -> (name in the scheme, what it is).
NUMBERS = {
    "step-mark": ("step_mark", "marks for each step"),
    "follows": ("follows", "share of a step's mark for right working from a wrong start, 0 to 1"),
    "figures": ("figures", "share taken off for too few or too many figures, 0 to 1"),
    "units": ("units", "share taken off where a unit was left out, 0 to 1"),
    "out-of": ("out_of", "the total that each sheet's marks are scaled to"),
}


@dataclass(frozen=True)
class _Outcome:
    """What was marked, and what of it is alike."""

    marked: list[Handed]
    alike: list[Alike]


def add_to(commands: Commands) -> None:
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
    parser.add_argument("--attempt", help="which of what was typed is marked, first or last")
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
        class_ = _class(chosen)
        intake, notes = _intake(chosen, class_)
    except KeyboardInterrupt:
        raise Trouble("Stopped. Nothing was written.") from None
    if not intake.handed:
        raise _nothing(notes, intake.problems)
    marking = ClassMarking(intake, class_.scheme)
    outcome = _Outcome([], [])
    folder = Path(chosen.out)

    def write(place: Path) -> None:
        with ExitStack() as stack:
            files = {n: stack.enter_context(open(place / n, "w", encoding="utf-8", newline="")) for n in FILES}
            _write(class_, marking, files, outcome)
            if not outcome.marked:
                raise _nothing(notes, marking.problems)

    replace_files(folder, FILES, write, "the marking")
    for sentence in (*notes, *_summary(class_, outcome, marking.problems, folder)):
        print(sentence)


def _nothing(notes: Sequence[str], problems: Sequence[Problem]) -> Trouble:
    return Trouble("\n".join(["There is nothing that can be marked.", *notes, *_told(problems, "")]))


def _class(chosen: argparse.Namespace) -> Class:
    """The class, with the scheme that the command line asks for."""
    try:
        class_ = read_class(decode(_bytes(chosen.class_file, "class file")))
        return replace(class_, scheme=from_dict(_scheme(chosen, as_dict(class_.scheme))))
    except (Refused, FileError) as error:
        raise Trouble(str(error)) from error


def _scheme(chosen: argparse.Namespace, scheme: dict[str, Any]) -> dict[str, Any]:
    """The scheme of the class as JSON can hold it, with what the command line says in its place."""
    for option, (name, _) in NUMBERS.items():
        if (text := getattr(chosen, option.replace("-", "_"))) is not None:
            scheme[name] = _number(text, f"--{option}")
    if chosen.attempt is not None:
        scheme["attempt"] = chosen.attempt.strip().lower()
    for option in chosen.mark:
        step, sign, text = option.partition("=")
        if not sign:
            raise Trouble(f"“{option[:60]}” is no mark for a step. Write it as --mark tan-a/pole=2.")
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


def _intake(chosen: argparse.Namespace, class_: Class) -> tuple[Intake, list[str]]:
    """All that was handed in, set against the class, and sentences on what was left out."""
    if not chosen.paths and not chosen.typed:
        raise Trouble("Give a folder or files with return slips, or --typed with a table of answers copied from paper.")
    returned = read_returned(chosen.paths, [Path(chosen.out), Path(chosen.class_file), *map(Path, chosen.typed)])
    for name in chosen.typed:
        try:
            slips, problems = typed_in(decode(_bytes(name, "table")), class_, Path(name).name)
        except FileError as error:
            raise Trouble(f"{name}: {error}") from error
        returned.return_slips += slips
        returned.problems += problems
    return take_in(class_, returned.return_slips, returned.problems), returned.notes


def _write(class_: Class, marking: ClassMarking, files: Mapping[str, TextIO], outcome: _Outcome) -> None:
    """Write all files, and enter what was marked in the outcome.

    A page is written as soon as its sheet is marked, so that a large class needs little memory.
    """
    css = paper_style()
    progress, tally = Progress(len(marking.intake.handed)), Tally(class_)
    assigned = {student.roll: (student, {task.kind.slug: code for task, code in of}) for student, of in class_.codes()}
    rows: dict[str, MarksRow] = {}
    shares: dict[str, dict[str, float]] = {}
    files[PAGES].write(student_pages.head(css))
    for roll, sheets in groupby(
        (sheet for _, sheet in marking.marked_up_to()), lambda sheet: sheet.handed.student.roll
    ):
        of_student: dict[str, Marked] = {}
        for sheet in sheets:
            of_student[sheet.handed.task.kind.slug] = sheet
            tally.add(sheet)
            outcome.marked.append(sheet.handed)
            files[PAGES].write(student_pages.page(sheet, class_))
            progress.one_more()
        shares[roll] = shares_of(of_student)
        rows[roll] = marks_row(class_, *assigned[roll], of_student)
    files[PAGES].write(student_pages.FOOT)
    all_rows = (rows.get(roll) or marks_row(class_, *of, {}) for roll, of in assigned.items())
    outcome.alike.extend(marking.copies.found())
    files[MARKS].write(table_of(class_, all_rows, outcome.alike))
    files[PROBLEMS].write(problems_csv(marking.problems))
    files[REPORT].write(report_html(tally.report(), class_, css))
    files[READY].write(ready_html(class_, shares, css))
    progress.end()


def _summary(class_: Class, outcome: _Outcome, problems: Sequence[Problem], folder: Path) -> list[str]:
    """What was marked, what is to be looked at first, and where the files are, a sentence a line."""
    marked, alike = outcome.marked, outcome.alike
    students = len({handed.student.roll for handed in marked})
    said = [f"{many(len(marked), 'sheet')} of {many(students, 'student')} marked:"]
    by_kind = Counter(handed.task.kind.slug for handed in marked)
    said += [
        f"  {task.kind.title}: {by_kind[task.kind.slug]:,} of {len(class_.students):,} handed in"
        for task in class_.tasks
    ]
    if noted := sum(bool(handed.notes) for handed in marked):
        said.append(
            f"{noted:,} of them {'has' if noted == 1 else 'have'} a note beside the marks; look at these first."
        )
    if alike:
        said.append(
            f"{many(len(alike), 'time')} work of different students is alike where their sheets are not "
            f"(see the notes in {MARKS}):"
        )
        said += [printable(f"  {one.text}") for one in alike[:TOLD]]
        said += [f"  … and {len(alike) - TOLD:,} more."] if len(alike) > TOLD else []
    if problems:
        said.append(f"{many(len(problems), 'thing')} that came in could not be marked:")
        said += _told(problems, f"  … and {len(problems) - TOLD:,} more; all are in {PROBLEMS}.")
    said.append(f"{', '.join(FILES)} are in {folder}/.")
    said.append(f"{MARKS}, {PAGES} and {READY} name students; {REPORT} does not.")
    return said


def _told(problems: Sequence[Problem], more: str) -> list[str]:
    said = []
    for problem in problems[:TOLD]:
        about = ", ".join(part[:80] for part in (problem.source, problem.who, problem.code) if part)
        said.append(printable(f"  {about}: {problem.text}"))
    if len(problems) > TOLD:
        said.append(more or f"  … and {len(problems) - TOLD:,} more.")
    return said
