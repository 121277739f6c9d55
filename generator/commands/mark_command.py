"""`eight mark`: what students handed in becomes marks, pages to give back, and a report on the class.

What came in is kept in marks.json; a second run joins it.
"""

import argparse
from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from itertools import groupby
from pathlib import Path

from exercises.classroom.class_list.class_file import Class, read_class
from exercises.classroom.class_list.roster import Student
from exercises.classroom.examination.ready_page import ready_html, shares_of
from exercises.classroom.marking.by_hand import checked
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.copies import Alike
from exercises.classroom.marking.intake import Handed, take_in
from exercises.classroom.marking.marks import Marked
from exercises.classroom.marking.marks_file import (
    NAME,
    Joined,
    MarksFile,
    begun,
    joined,
    marks_text,
    read_marks,
    taken_out,
)
from exercises.classroom.marking.totals import standing
from exercises.classroom.marking.typed_in import typed_in
from exercises.classroom.refused import Refused
from exercises.classroom.report import student_pages
from exercises.classroom.report.counts import Tally
from exercises.classroom.report.marks_table import (
    MarksRow,
    book_csv,
    csv_of,
    marks_row,
    problems_csv,
    sheet_of,
    table_rows,
)
from exercises.classroom.report.page import report_html
from exercises.classroom.report.records import records_csv
from exercises.files.text import LARGEST, FileError, decode
from exercises.return_slip.lines import Problem
from exercises.working.words import many
from generator.build.paper_style import paper_style
from generator.build.trouble import Trouble
from generator.commands import mark_options
from generator.commands.arguments import Commands
from generator.commands.asked import asked
from generator.commands.mark_book import book_of, changed_totals
from generator.commands.progress import Progress
from generator.commands.replacing import replace_files
from generator.commands.returned_files import Returned, printable, read_returned
from generator.commands.text_file import TextFile, text_file

MARKS, MARKS_SHEET, BOOK, PAGES, PROBLEMS, REPORT, READY, RECORDS, _ = FILES = (
    "marks.csv",
    "marks.xlsx",
    "book.csv",
    "students.html",
    "not-marked.csv",
    "report.html",
    "ready.html",
    "records.csv",
    NAME,
)
WRITTEN = """files that are written to the folder:
  marks.csv       every student, with every kind, the total and all notes
  marks.xlsx      the same as a workbook, in which rolls keep their zeros
  book.csv        roll and mark alone, by section
  students.html   a page for each marked sheet, to give back
  not-marked.csv  what came in and is not marked, and why
  report.html     the report on the class; it names nobody
  ready.html      who may go to the bench, by section, with strips to countersign
  records.csv     the laboratory records that came in: what each comes to, and what was found in it
  marks.json      all that came in, how it is marked, and what was set by hand; the next run joins it"""
TOLD = 5  # problems that are told on the screen; all are in the file


@dataclass(frozen=True)
class _Outcome:
    """What was marked, the totals in the order of the class list, and what is alike."""

    marked: list[Handed] = field(default_factory=list)
    totals: list[tuple[Student, float | None]] = field(default_factory=list)
    alike: list[Alike] = field(default_factory=list)


def add_to(commands: Commands) -> None:
    """Enter the command among those of `eight`."""
    parser = commands.add_parser(
        "mark",
        help="mark what students handed in",
        epilog=WRITTEN,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("paths", nargs="*", metavar="folder", help="folders and files with return slips")
    parser.add_argument(
        "--class", dest="class_file", default="class/class.json", help="the class file (class/class.json)"
    )
    parser.add_argument(
        "--typed",
        action="append",
        default=[],
        metavar="CSV",
        help="answers copied from paper: roll, kind, step, answer",
    )
    parser.add_argument("--out", default="marks", help="the folder to write to (marks)")
    parser.add_argument(
        "--take-out",
        action="append",
        default=[],
        metavar="FILE",
        help="forget what came in from a file before, named as it is in not-marked.csv",
    )
    parser.add_argument("--anew", action="store_true", help="begin marks.json anew: what is in it now is lost")
    mark_options.add_to(parser)


def run(chosen: argparse.Namespace) -> None:
    """Mark what was handed in.  Trouble, with nothing changed in the folder, if nothing could be marked."""
    folder = Path(chosen.out)
    try:
        class_, file = _class_and_file(chosen, folder)
        returned = _returned(chosen, class_, bool(file.slips))
        file, gained = joined(file, returned.return_slips, returned.problems)
        intake = take_in(class_, file.slips, file.problems, file.by_hand.counted)
    except KeyboardInterrupt:
        raise Trouble("Stopped. Nothing was written.") from None
    if not intake.handed and not intake.records:
        raise _nothing(class_, returned, intake.problems, folder)
    marking = ClassMarking(intake, class_.scheme, file.by_hand)
    outcome, before = _Outcome(), book_of(folder / BOOK)

    def write(place: Path) -> None:
        with ExitStack() as stack:
            files = {n: stack.enter_context(text_file(place / n)) for n in FILES}
            _write(class_, marking, files, outcome)
            files[NAME].write(marks_text(file))
            if not outcome.marked and not intake.records:
                raise _nothing(class_, returned, marking.problems, folder)

    replace_files(folder, FILES, write, "the marking")
    changes = map(printable, changed_totals(before, book_of(folder / BOOK)))
    for sentence in (*returned.notes, *_summary(class_, outcome, marking, folder, gained), *changes):
        print(sentence)


def _nothing(class_: Class, returned: Returned, problems: Sequence[Problem], folder: Path) -> Trouble:
    """What is said where nothing can be marked.  The problems are all in their file then too; no other is changed."""
    said = ["There is nothing that can be marked.", *returned.notes, *_told(problems)]
    if returned.files or returned.return_slips:
        text = problems_csv(problems, class_.separator)
        replace_files(folder, [PROBLEMS], lambda place: _write_text(place / PROBLEMS, text), "the list")
        said.append(f"Why is in {folder / PROBLEMS}; no other file was changed.")
    return Trouble("\n".join(said))


def _write_text(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="")


def _class_and_file(chosen: argparse.Namespace, folder: Path) -> tuple[Class, MarksFile]:
    """The class and its marks file, with the scheme and what is set by hand that the command line asks for."""
    try:
        class_ = read_class(decode(_bytes(chosen.class_file, "class file")))
        file = _before(folder / NAME, class_, chosen.anew)
        for source in chosen.take_out:
            file = taken_out(file, source)
        class_ = replace(class_, scheme=mark_options.scheme_from(chosen, file.scheme))
        by_hand = file.by_hand
        for set_, entry in mark_options.by_hand(chosen, class_):
            (entry,) = checked([entry], class_, fresh=set_)
            by_hand = by_hand.plus(entry) if set_ else by_hand.minus(entry)
        return class_, replace(file, scheme=class_.scheme, by_hand=by_hand)
    except (Refused, FileError) as error:
        raise Trouble(str(error)) from error


def _before(path: Path, class_: Class, anew: bool) -> MarksFile:
    """The marks file that is there, or a new one.  Trouble, with a sentence, if it cannot be joined."""
    if anew or not path.exists():
        return begun(class_)
    try:
        return read_marks(path.read_text(encoding="utf-8"), class_)
    except (Refused, OSError, ValueError) as error:
        raise Trouble(
            f"{path} cannot be joined: {error} Give another folder with --out, or begin it anew with --anew; what is "
            "in it is then lost."
        ) from error


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


def _returned(chosen: argparse.Namespace, class_: Class, before: bool) -> Returned:
    """All that is handed in now.

    before  whether something came in before: then nothing need come in now
    """
    if not chosen.paths and not chosen.typed and not before:
        raise Trouble("Give a folder or files with return slips, or --typed with a table of answers copied from paper.")
    returned = read_returned(chosen.paths, [Path(chosen.out), Path(chosen.class_file), *map(Path, chosen.typed)])
    for name in chosen.typed:
        try:
            slips, problems = typed_in(decode(_bytes(name, "table")), class_, Path(name).name)
        except FileError as error:
            raise Trouble(f"{name}: {error}") from error
        returned.return_slips += slips
        returned.problems += problems
    return returned


def _write(class_: Class, marking: ClassMarking, files: Mapping[str, TextFile], outcome: _Outcome) -> None:
    """Write all files but the marks file, and enter what was marked in the outcome.

    A page is written as soon as its sheet is marked, so that a large class needs little memory.
    """
    css = paper_style()
    progress, tally = Progress(len(marking.intake.handed)), Tally(class_)
    assigned = {student.roll: (student, of) for student, of in class_.codes()}
    rows: dict[str, MarksRow] = {}
    totals: dict[str, float | None] = {}
    shares: dict[str, dict[str, float]] = {}
    files[PAGES].write(student_pages.head(css))

    def enter(roll: str, sheets: Sequence[Marked]) -> None:
        of_student = standing(class_, *assigned[roll], sheets, marking.by_hand)
        rows[roll], totals[roll] = marks_row(of_student), of_student.total
        for sheet in of_student.sheets.values():
            tally.add(sheet)
        if of_student.sheets:
            shares[roll] = shares_of(of_student.sheets)

    for roll, sheets in groupby(
        (sheet for _, sheet in marking.marked_up_to()), lambda sheet: sheet.handed.student.roll
    ):
        of_roll = []
        for sheet in sheets:
            of_roll.append(sheet)
            outcome.marked.append(sheet.handed)
            files[PAGES].write(student_pages.page(sheet, class_))
            progress.one_more()
        enter(roll, of_roll)
    files[PAGES].write(student_pages.FOOT)
    for roll in assigned:
        if roll not in rows:
            enter(roll, ())
    outcome.alike.extend(marking.copies.found())
    outcome.totals.extend((student, totals[roll]) for roll, (student, _) in assigned.items())
    table = table_rows(class_, (rows[roll] for roll in assigned), outcome.alike)
    files[MARKS].write(csv_of(class_, table))
    files[MARKS_SHEET].write(sheet_of(table))
    files[BOOK].write(book_csv(class_, outcome.totals))
    files[PROBLEMS].write(problems_csv(marking.problems, class_.separator))
    files[REPORT].write(report_html(tally.report(), class_, css))
    files[RECORDS].write(records_csv(marking.intake.records, class_))
    files[READY].write(ready_html(class_, shares, css))
    progress.end()


def _summary(class_: Class, outcome: _Outcome, marking: ClassMarking, folder: Path, gained: Joined) -> list[str]:
    """What was marked, what is to be looked at first, and where the files are, a sentence a line."""
    marked, alike, problems = outcome.marked, outcome.alike, marking.problems
    students = len({handed.student.roll for handed in marked})
    said = [gained.text] if gained.text else ["Nothing came in now; the marks are made again from what is there."]
    said.append(f"{many(len(marked), 'sheet')} of {many(students, 'student')} marked:")
    came = {(handed.student.roll, handed.task.kind.slug) for handed in marked}
    by_kind = Counter(slug for _, slug in came)
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
    said += map(printable, asked(marking.intake, class_))
    if problems:
        said.append(f"{many(len(problems), 'thing')} that came in {'is' if len(problems) == 1 else 'are'} not marked:")
        said += _told(problems)
    said.append(f"{', '.join(FILES)} are in {folder}/.")
    said.append(f"All of them name students but {REPORT}.")
    return said


def _told(problems: Sequence[Problem]) -> list[str]:
    said = []
    for problem in problems[:TOLD]:
        about = ", ".join(part[:80] for part in (problem.source, problem.who, problem.code) if part)
        said.append(printable(f"  {about}: {problem.text}"))
    if len(problems) > TOLD:
        said.append(f"  … and {len(problems) - TOLD:,} more; all are in {PROBLEMS}.")
    return said
