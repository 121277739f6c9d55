"""`eight mark`: what students handed in becomes marks, pages to give back, and a report on the class.

What came in is kept in marks.json; a second run joins it.
"""

import argparse
from collections.abc import Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from itertools import groupby
from pathlib import Path

from exercises.classroom.class_list.class_file import Class, read_class
from exercises.classroom.class_list.roster import Student
from exercises.classroom.examination.ready_page import ready_html, shares_of
from exercises.classroom.marking.by_hand import ByHand, Counted, checked
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.copies import Alike
from exercises.classroom.marking.intake import Handed, Intake, take_in
from exercises.classroom.marking.marks import Marked
from exercises.classroom.marking.marks_file import (
    NAME,
    MarksFile,
    begun,
    joined,
    marks_text,
    read_marks,
    taken_out,
)
from exercises.classroom.marking.scheme import Scheme
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
from exercises.files.text import FileError, decode
from exercises.kinds.kind import listed_kinds
from exercises.return_slip.lines import Problem
from exercises.return_slip.text import check_of
from generator.build.paper_style import paper_style
from generator.build.trouble import Trouble
from generator.commands import mark_options
from generator.commands.arguments import Commands
from generator.commands.given_file import bytes_of_file
from generator.commands.mark_book import book_of, changed_totals
from generator.commands.mark_said import MARKS, PROBLEMS, summary, told_problems
from generator.commands.progress import Progress
from generator.commands.replacing import replace_files
from generator.commands.returned_files import Returned, printable, read_returned
from generator.commands.text_file import TextFile, text_file, write_text

_, MARKS_SHEET, BOOK, PAGES, _, REPORT, READY, RECORDS, _ = FILES = (
    MARKS,
    "marks.xlsx",
    "book.csv",
    "students.html",
    PROBLEMS,
    "report.html",
    "ready.html",
    "records.csv",
    NAME,
)
#: What is given by its name, and what is said of it where it is not there.
CLASS_FILE = "class file", "Give one that was made with eight class."
TABLE = "table", "Give a table of answers copied from paper."
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
        epilog=f"{WRITTEN}\nKIND is one of: {', '.join(kind.slug for kind in listed_kinds())}",
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
        before = _there(folder / NAME)
        class_, file, told = _class_and_file(chosen, folder, before)
        returned = _returned(chosen, class_, bool(file.slips))
        file, gained = joined(file, returned.return_slips, returned.problems)
        intake = take_in(class_, file.slips, file.problems, file.by_hand.counted)
        file = replace(file, by_hand=_settled(file.by_hand, intake))
    except KeyboardInterrupt:
        raise Trouble("Stopped. Nothing was written.") from None
    if not intake.handed and not intake.records:
        raise _nothing(class_, returned, intake.problems, folder)
    marking = ClassMarking(intake, class_.scheme, file.by_hand)
    outcome, totals_before = _Outcome(), book_of(folder / BOOK)

    def write(place: Path) -> None:
        with ExitStack() as stack:
            files = {n: stack.enter_context(text_file(place / n)) for n in FILES}
            _write(class_, marking, files, outcome)
            files[NAME].write(marks_text(file))
            if not outcome.marked and not intake.records:
                raise _nothing(class_, returned, marking.problems, folder)
        if _there(folder / NAME) != before:
            raise Trouble(
                f"{folder / NAME} was changed by another run while this one was marking, so nothing was written. Run "
                "the command again: it joins what that run put in."
            )

    replace_files(folder, FILES, write, "the marking")
    changes = map(printable, changed_totals(totals_before, book_of(folder / BOOK)))
    said = summary(class_, outcome.marked, outcome.alike, marking, gained)
    where = f"{', '.join(FILES)} are in {folder}/."
    for sentence in (*told, *returned.notes, *said, where, f"All of them name students but {REPORT}.", *changes):
        print(sentence)


def _nothing(class_: Class, returned: Returned, problems: Sequence[Problem], folder: Path) -> Trouble:
    """What is said where nothing can be marked.  The problems are all in their file then too; no other is changed."""
    said = ["There is nothing that can be marked.", *returned.notes, *told_problems(problems)]
    if returned.files or returned.return_slips:
        text = problems_csv(problems, class_.separator)
        replace_files(folder, [PROBLEMS], lambda place: write_text(place / PROBLEMS, text), "the list")
        said.append(f"Why is in {folder / PROBLEMS}; no other file was changed.")
    return Trouble("\n".join(said))


def _class_and_file(
    chosen: argparse.Namespace, folder: Path, before: bytes | None
) -> tuple[Class, MarksFile, list[str]]:
    """The class and its marks file, with the scheme and what is set by hand that the command line asks for.

    before  what the marks file holds, or None
    Also sentences on what of the two does not agree.
    """
    try:
        class_ = read_class(decode(_bytes(chosen.class_file, *CLASS_FILE)))
        file = begun(class_) if chosen.anew or before is None else _before(folder / NAME, before, class_)
        for source in chosen.take_out:
            file = taken_out(file, source)
        told = []
        if class_.scheme not in (Scheme(), file.scheme):
            told.append(f"How it is marked stands otherwise in {chosen.class_file} and in {NAME}; {NAME} counts.")
        class_ = replace(class_, scheme=mark_options.scheme_from(chosen, file.scheme))
        by_hand = file.by_hand
        for set_, entry in mark_options.by_hand(chosen, class_):
            (entry,) = checked([entry], class_, fresh=set_)
            by_hand = by_hand.plus(entry) if set_ else by_hand.minus(entry)
        return class_, replace(file, scheme=class_.scheme, by_hand=by_hand), told
    except (Refused, FileError) as error:
        raise Trouble(str(error)) from error


def _there(path: Path) -> bytes | None:
    """What a file holds, or None where there is none.  Trouble, with a sentence, if it cannot be read."""
    try:
        return path.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError as error:
        raise Trouble(f"{path} could not be read: {error.strerror}. Mend that, or give another folder.") from error


def _before(path: Path, raw: bytes, class_: Class) -> MarksFile:
    """The marks file that is there.  Trouble, with a sentence, if it cannot be joined."""
    try:
        return read_marks(raw.decode(), class_)
    except (Refused, UnicodeError) as error:
        told = str(error) if isinstance(error, Refused) else "Its letters are not stored as UTF-8. Save it again so."
        raise Trouble(
            f"{path} cannot be joined: {told} Give another folder with --out, or begin it anew with --anew; what is "
            "in it is then lost."
        ) from error


def _settled(by_hand: ByHand, intake: Intake) -> ByHand:
    """With the slip that was chosen by its number kept by the characters at its end: numbers change as more comes."""
    for one in intake.several:
        if one.why == "chosen" and by_hand.counted[one.key].strip().isdecimal():
            by_hand = by_hand.plus(Counted(one.key, check_of(one.counted.slip)))
    return by_hand


def _bytes(name: str, what: str, wanted: str) -> bytes:
    """What a file holds that must be there.  Trouble, with a sentence, if it cannot be read.

    what  it is;  wanted  the sentence that says what to give
    """
    raw = bytes_of_file(name, wanted)
    if raw is None:
        raise Trouble(f"There is no {what} {name[:200]}. {wanted}")
    return raw


def _returned(chosen: argparse.Namespace, class_: Class, before: bool) -> Returned:
    """All that is handed in now.

    before  whether something came in before: then nothing need come in now
    """
    if not chosen.paths and not chosen.typed and not before:
        raise Trouble("Give a folder or files with return slips, or --typed with a table of answers copied from paper.")
    returned = read_returned(chosen.paths, [Path(chosen.out), Path(chosen.class_file), *map(Path, chosen.typed)])
    for name in chosen.typed:
        try:
            slips, problems = typed_in(decode(_bytes(name, *TABLE)), class_, printable(Path(name).name))
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
