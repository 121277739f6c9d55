"""`eight class`: a class list becomes codes, a key, pages and slips for paper, and a class file.

The files are written beside the old ones and take their place together at the
end, so that what stands in the folder is always whole.
"""

import argparse
import errno
import sys
import tempfile
import time
from contextlib import ExitStack
from pathlib import Path

from exercises.classroom import prints, tables
from exercises.classroom.class_file import Class, ClassError, make, opened, place_number, written
from exercises.classroom.codes import PhraseError
from exercises.classroom.roster import LARGEST, RosterError, decode, look
from exercises.kinds import open_code
from exercises.sheet_code import Setting
from generator.runtime import ROOT
from generator.trouble import Trouble, about_disk

CODES, KEY, SHEETS, SLIPS, CLASS = FILES = ("codes.csv", "key.csv", "sheets.html", "slips.html", "class.json")
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
    parser.add_argument("--site", help="the address of your site, for the addresses of the sheets")
    parser.add_argument("--out", default="class", help="the folder to write to (class if not given)")


def run(chosen: argparse.Namespace) -> None:
    """Make the files of a class.  Trouble, with nothing changed in the folder, if that fails."""
    try:
        made, notes = _given(chosen)
    except (RosterError, PhraseError, ClassError) as error:
        raise Trouble(str(error)) from error
    for note in notes:
        print(note)
    folder = Path(chosen.out)
    _is_of_this_class(folder, made)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder, prefix=".making-") as place:
            _write(made, Path(place))
            # known before the first is replaced, so that never only some are
            if taken := [name for name in FILES if (folder / name).is_dir()]:
                raise Trouble(f"{folder / taken[0]} is a folder, so no file can be written there. Move it away.")
            for name in FILES:
                (Path(place) / name).replace(folder / name)
    except OSError as error:
        raise about_disk(error, "the class") from error
    except KeyboardInterrupt:
        raise Trouble("Stopped. No file of the class was changed.") from None
    many = len(made.students)
    print(f"{', '.join(FILES)} are in {folder}/, for {many:,} student{'s' if many > 1 else ''}.")
    print(f"{CLASS} holds the class phrase, which is needed to make the class again: keep it and {KEY} from students.")
    if not made.site:
        print("No --site was given, so the addresses are written without the site's own at their front.")


def _given(chosen: argparse.Namespace) -> tuple[Class, tuple[str, ...]]:
    """The class of the command line, and what was taken for granted."""
    text = _text(chosen.roster)
    options = ("phrase", "kinds", "place", "step", "length", "distances")
    if chosen.roster.lower().endswith(".json"):
        if given := [f"--{o}" for o in options if getattr(chosen, o) is not None]:
            raise Trouble(f"A class file has its own settings; leave out {', '.join(given)}, or give the class list.")
        made = opened(text)
        again = make(
            made.students, made.phrase, [k.slug for k, _ in made.kinds], made.setting,
            made.site if chosen.site is None else chosen.site, [e for _, e in made.kinds],
        )  # fmt: skip
        return again, ()
    if chosen.phrase is None:
        raise Trouble('A class needs a phrase that only you know: --phrase "…". The same phrase gives the same codes.')
    found = look(text)
    setting = Setting(
        None if chosen.place is None else place_number(chosen.place),
        _number(chosen.step, "scale step"),
        _number(chosen.distances, "number of distances", whole=True),
        _number(chosen.length, "length in mm", whole=True),
    )
    slugs = ["tan-a"] if chosen.kinds is None else [k.strip().lower() for k in chosen.kinds.split(",") if k.strip()]
    return make(found.students, chosen.phrase, slugs, setting, chosen.site or ""), found.notes


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


def _number(text: str | None, what: str, whole: bool = False):
    if text is None:
        return None
    try:
        return int(text) if whole else float(text)
    except ValueError:
        raise Trouble(f"The {what} must be a {'whole ' if whole else ''}number; “{text[:40]}” is not.") from None


def _is_of_this_class(folder: Path, made: Class) -> None:
    """Trouble where the folder holds a class of another phrase: its phrase stands nowhere else."""
    try:
        there = (folder / CLASS).read_text(encoding="utf-8")
    except FileNotFoundError:
        return
    except (OSError, ValueError) as error:
        raise Trouble(f"{folder} or the {CLASS} in it cannot be used. Give another folder with --out.") from error
    try:
        same = opened(there).phrase == made.phrase
    except (ClassError, PhraseError):
        same = False
    if not same:
        raise Trouble(
            f"{folder / CLASS} is of a class with another phrase, which would be lost. "
            "Give another folder with --out, or move that one away."
        )


def _write(made: Class, place: Path) -> None:
    """All files of the class into a folder, a sheet at a time, so that a large class needs little memory."""
    css = (ROOT / "site_assets" / "notebook.css").read_text(encoding="utf-8")
    progress = Progress(len(made.students) * len(made.kinds))
    with ExitStack() as stack:
        # the byte-order mark tells a spreadsheet that the names are UTF-8
        codes, key, sheets, slips, class_file = (
            stack.enter_context(open(place / n, "w", encoding="utf-8-sig" if n.endswith("csv") else "utf-8", newline=""))
            for n in FILES
        )
        class_file.write(written(made))
        codes.write(tables.lines([tables.ADDRESS_HEAD]))
        key.write(tables.lines([tables.KEY_HEAD]))
        sheets.write(prints.head("Sheets of a class", css))
        slips.write(prints.head("Slips to cut", css))
        for student, given in made.codes():
            slips.write(prints.slip(student, given, made.site))
            codes.write(tables.lines(tables.address_row(made.site, student, kind, code) for kind, code in given))
            for kind, code in given:
                try:
                    _, scenario, working = open_code(str(code))
                except ArithmeticError as error:
                    raise Trouble(
                        f"With these settings no consistent numbers were found for {kind.slug} {code}. "
                        "Leave the length or the number of distances open, or change the phrase."
                    ) from error
                key.write(tables.lines(tables.key_rows(student, kind, code, working)))
                sheets.write(prints.sheet(student, kind, scenario, working))
                progress.one_more()
        sheets.write(prints.FOOT)
        slips.write(prints.FOOT)
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
