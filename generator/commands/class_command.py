"""`eight class`: a class list becomes codes, a key, pages and slips for paper, and a class file.

The files are written beside the old ones and take their place together at the
end, so that what stands in the folder is always whole.
"""

import argparse
import errno
import sys
import time
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

from exercises.classroom.class_list.class_file import Class, ClassError, make, opened
from exercises.classroom.class_list.codes import PhraseError
from exercises.classroom.class_list.given import WORDS, tasks_from
from exercises.classroom.class_list.packs import PACKS
from exercises.classroom.class_list.roster import LARGEST, RosterError, decode, look
from exercises.classroom.marking.scheme import Scheme
from generator.build.runtime import ROOT
from generator.build.trouble import Trouble
from generator.commands.whole import put

FILES, CLASS = tuple(PACKS), "class.json"
SECRET = f"{CLASS}, key.csv, key.html and working.html"
PATIENCE = 1.0  # seconds before progress is told, and between two lines of it


def add_to(commands) -> None:
    """Enter the command among those of `eight`."""
    parser = commands.add_parser("class", help="make every student's code, key and paper from a class list")
    parser.add_argument("roster", help="a CSV file, a class.json made before, or roll numbers such as 1-60")
    parser.add_argument("--phrase", help="the class phrase: the same phrase gives the same codes")
    parser.add_argument("--kinds", help="kinds of exercise, with commas between (tan-a if not given)")
    parser.add_argument("--place", help="the place whose field all sheets have")
    parser.add_argument("--step", help="the scale step in degrees, 1 or 0.5")
    parser.add_argument("--length", help="the measured length of the magnets in mm")
    parser.add_argument("--distances", help="how many distances, 4 to 6")
    parser.add_argument(
        "--for",
        dest="own",
        nargs="+",
        action="append",
        default=[],
        metavar=("KIND", "WORD=VALUE"),
        help="one kind with settings of its own, as in: --for earth place=Lima step=0.5 length=80 distances=5",
    )
    parser.add_argument("--site", help="the address of your site, for the addresses of the sheets")
    parser.add_argument("--out", default="class", help="the folder to write to (class if not given)")


def run(chosen: argparse.Namespace) -> None:
    """Make the files of a class.  Trouble, with nothing changed in the folder, if that fails."""
    try:
        made, notes = _given(chosen)
    except (RosterError, PhraseError, ClassError) as error:
        raise Trouble(str(error)) from error
    except KeyboardInterrupt:
        raise Trouble("Stopped. Nothing was written.") from None
    for note in notes:
        print(note)
    folder = Path(chosen.out)
    made = _with_marks_of(folder, made)

    def write(place: Path) -> None:
        try:
            _write(made, place)
        except ClassError as error:
            raise Trouble(str(error)) from error

    put(folder, FILES, write, "the class")
    many = len(made.students)
    print(f"{', '.join(FILES)} are in {folder}/, for {many:,} student{'s' if many > 1 else ''}.")
    print(f"Keep from students: {SECRET}. {CLASS} holds the class phrase, which is needed to make the class again.")
    if not made.site:
        print("No --site was given, so the addresses are written without the site's own at their front.")


def _given(chosen: argparse.Namespace) -> tuple[Class, tuple[str, ...]]:
    """The class of the command line, and what was taken for granted."""
    text = _text(chosen.roster)
    options = ("phrase", "kinds", *WORDS)
    if chosen.roster.lower().endswith(".json"):
        if given := [f"--{o}" for o in options if getattr(chosen, o) is not None] + ["--for"] * bool(chosen.own):
            raise Trouble(f"A class file has its own settings; leave out {', '.join(given)}, or give the class list.")
        made = opened(text)
        site = made.site if chosen.site is None else chosen.site
        return make(made.students, made.phrase, made.tasks, site, made.scheme), ()
    if chosen.phrase is None:
        raise Trouble('A class needs a phrase that only you know: --phrase "…". The same phrase gives the same codes.')
    found = look(text)
    own = _own(chosen.own)
    named = [k.strip().lower() for k in (chosen.kinds or "").split(",") if k.strip()]
    slugs = ["tan-a"] if chosen.kinds is None and not own else [*named, *own]
    common = {word: getattr(chosen, word) or "" for word in WORDS}
    return make(found.students, chosen.phrase, tasks_from(slugs, common, own), chosen.site or ""), found.notes


def _own(given: list[list[str]]) -> dict[str, dict[str, str]]:
    """What was fixed for one kind each: kind -> word -> text."""
    found: dict[str, dict[str, str]] = {}
    for slug, *words in given:
        pairs = [word.partition("=") for word in words]
        if odd := next((w for w, (_, mark, _) in zip(words, pairs) if not mark), None):
            raise Trouble(f"--for {slug}: “{odd[:60]}” is no setting. Write it as word=value, with {', '.join(WORDS)}.")
        if slug.lower() in found:
            raise Trouble(f"--for {slug} is given twice. Put all its settings after one --for.")
        found[slug.lower()] = {word.strip().lower(): text for word, _, text in pairs}
    return found


def _text(roster: str) -> str:
    """What the file holds, or the argument itself where it is roll numbers."""
    path, raw = Path(roster), None
    try:
        if roster and path.exists():
            if not path.is_file():
                raise Trouble(f"{roster} is not a file. Give a class list as CSV, or roll numbers such as 1-60.")
            if (size := path.stat().st_size) > LARGEST:
                raise Trouble(f"{roster} has {size:,} bytes; at most {LARGEST:,} are read.")
            raw = path.read_bytes()
    except PermissionError as error:
        raise Trouble(f"{roster} may not be read. Mend its permissions.") from error
    except (OSError, ValueError) as error:  # a text too long or too strange for a path, or a disk that fails
        if getattr(error, "errno", None) not in (None, errno.ENAMETOOLONG):
            raise Trouble(f"{roster} could not be read: {error}.") from error
    if raw is not None:
        return decode(raw)
    if any(c.isalpha() for c in roster) or not any(c.isdecimal() for c in roster):
        raise Trouble(f"There is no file {roster[:200]}. Give a class list as CSV, or roll numbers such as 1-60.")
    return roster


def _with_marks_of(folder: Path, made: Class) -> Class:
    """The class, marked as the one that is there already, if it has no marks of its own.

    Trouble where the folder holds a class of another phrase: its phrase stands nowhere else.
    """
    try:
        there = (folder / CLASS).read_text(encoding="utf-8")
    except FileNotFoundError:
        return made
    except (OSError, ValueError) as error:
        raise Trouble(f"{folder} or the {CLASS} in it cannot be used. Give another folder with --out.") from error
    try:
        before = opened(there)
    except (ClassError, PhraseError):
        before = None
    if before is None or before.phrase != made.phrase:
        raise Trouble(
            f"{folder / CLASS} is of a class with another phrase, which would be lost. "
            "Give another folder with --out, or move that one away."
        )
    return replace(made, scheme=before.scheme) if made.scheme == Scheme() else made


def _write(made: Class, place: Path) -> None:
    """All files of the class into a folder, a sheet at a time, so that a large class needs little memory."""
    css = (ROOT / "site_assets" / "notebook.css").read_text(encoding="utf-8")
    progress = Progress(len(made.students) * len(made.tasks))
    with ExitStack() as stack:
        files = {n: stack.enter_context(open(place / n, "w", encoding="utf-8", newline="")) for n in FILES}
        for name, pack in PACKS.items():
            files[name].write(pack.head(made, css))
        for student, given in made.codes():
            for name, pack in PACKS.items():
                files[name].write(pack.piece(made, student, given))
            for _ in given:
                progress.one_more()
        for name, pack in PACKS.items():
            files[name].write(pack.foot)
    progress.end()


class Progress:
    """How far long work is: a line on the error stream that is written over where that is a terminal."""

    def __init__(self, total: int, stream=None, clock=time.monotonic):
        self.total, self.done, self.told = total, 0, False
        self.stream, self.clock = stream or sys.stderr, clock
        self.last = clock()

    def one_more(self) -> None:
        self.done += 1
        if self.clock() - self.last >= PATIENCE:
            self.last, self.told = self.clock(), True
            over = self.stream.isatty()
            text = f"{self.done:,} of {self.total:,} sheets ({100 * self.done // self.total} %)"
            print(f"\r{text}" if over else text, end="" if over else "\n", file=self.stream, flush=True)

    def end(self) -> None:
        """Leave the line on a terminal, whole."""
        if self.told and self.stream.isatty():
            print(f"\r{self.total:,} of {self.total:,} sheets (100 %)", file=self.stream, flush=True)
