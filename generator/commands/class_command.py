"""`eight class`: a class list becomes codes, a key, pages and code strips for paper, and a class file.

The files are written beside the old ones and take their place together at the
end, so that the folder never holds a part of a class.
"""

import argparse
import errno
from collections import Counter
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path

from exercises.classroom.class_list.alike import alike, alike_note
from exercises.classroom.class_list.class_file import Class, ClassError, checked_site, make, read_class, tasks_from
from exercises.classroom.class_list.packs import PACKS
from exercises.classroom.class_list.tables import settings_addresses
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.refused import Refused
from exercises.codes.conventions import BY_KEY, CHOICES
from exercises.files.text import LARGEST, FileError, decode
from generator.build.runtime import ROOT
from generator.build.trouble import Trouble
from generator.commands.arguments import Commands
from generator.commands.list_choice import OPTIONS, add_options, read_list
from generator.commands.progress import Progress
from generator.commands.replacing import replace_files
from generator.commands.text_file import text_file

FILES, CLASS = tuple(PACKS), "class.json"
SECRET = f"{CLASS}, key.csv, key.html and working.html"


def add_to(commands: Commands) -> None:
    """Enter the command among those of `eight`."""
    parser = commands.add_parser("class", help="make every student's code, key and paper from a class list")
    parser.add_argument("roster", help="a CSV file, a class.json made before, or roll numbers such as 1-60")
    add_options(parser)
    parser.add_argument("--phrase", help="the class phrase: the same phrase gives the same codes")
    parser.add_argument("--kinds", help="kinds of exercise, with commas between (tan-a if not given)")
    for choice in CHOICES:
        parser.add_argument(f"--{choice.key}", help=choice.help)
    parser.add_argument(
        "--for",
        dest="own",
        nargs="+",
        action="append",
        default=[],
        metavar=("KIND", "WORD=VALUE"),
        help="one kind with settings of its own, as in: --for earth field=38.2 length=80 step=0.5",
    )
    parser.add_argument("--site", help="the address of your site, for the addresses of the sheets")
    parser.add_argument("--out", default="class", help="the folder to write to (class if not given)")


def run(chosen: argparse.Namespace) -> None:
    """Make the files of a class.  Trouble, with nothing changed in the folder, if that fails."""
    try:
        class_ = _class_of(chosen)
    except (Refused, FileError) as error:
        raise Trouble(str(error)) from error
    except KeyboardInterrupt:
        raise Trouble("Stopped. Nothing was written.") from None
    folder = Path(chosen.out)
    class_ = _with_marks_of(folder, class_)

    found: Counter[str] = Counter()

    def write(place: Path) -> None:
        try:
            found.update(_write(class_, place))
        except ClassError as error:
            raise Trouble(str(error)) from error

    replace_files(folder, FILES, write, "the class")
    many = len(class_.students)
    print(f"{', '.join(FILES)} are in {folder}/, for {many:,} student{'s' if many > 1 else ''}.")
    print(f"Keep from students: {SECRET}. {CLASS} holds the class phrase, which is needed to make the class again.")
    for kinds, address in settings_addresses(class_.site, class_.tasks):
        print(f"For students’ own records, with the settings of {kinds}: {address}")
    if told := alike_note(class_, found):
        print(told)
    if not class_.site:
        print("No --site was given, so the addresses are written without the site's own at their front.")


def _class_of(chosen: argparse.Namespace) -> Class:
    """The class of the command line; how its list was read is printed."""
    text = _text(chosen.roster)
    options = ("phrase", "kinds", *OPTIONS, *BY_KEY)
    if chosen.roster.lower().endswith(".json"):
        extra = [f"--{o}" for o in options if getattr(chosen, o) is not None] + ["--for"] * bool(chosen.own)
        if extra:
            raise Trouble(f"A class file has its own settings; leave out {', '.join(extra)}, or give the class list.")
        class_ = read_class(text)
        site = class_.site if chosen.site is None else chosen.site
        return replace(class_, site=checked_site(site))
    if chosen.phrase is None:
        raise Trouble('A class needs a phrase that only you know: --phrase "…". The same phrase gives the same codes.')
    own = _own(chosen.own)
    named = [k.strip().lower() for k in (chosen.kinds or "").split(",") if k.strip()]
    slugs = ["tan-a"] if chosen.kinds is None and not own else [*named, *own]
    common = {word: getattr(chosen, word) or "" for word in BY_KEY}
    tasks = tasks_from(slugs, common, own)
    found = read_list(chosen, text)
    return make(found.students, chosen.phrase, tasks, chosen.site or "", separator=found.separator)


def _own(options: list[list[str]]) -> dict[str, dict[str, str]]:
    """What --for fixes for one kind each: kind -> word -> text."""
    found: dict[str, dict[str, str]] = {}
    for slug, *words in options:
        pairs = [word.partition("=") for word in words]
        if odd := next((w for w, (_, mark, _) in zip(words, pairs) if not mark), None):
            raise Trouble(
                f"--for {slug}: “{odd[:60]}” is no setting. Write it as word=value, with {', '.join(BY_KEY)}."
            )
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


def _with_marks_of(folder: Path, class_: Class) -> Class:
    """The class, marked as the one that is there already, if it has no marks of its own.

    Trouble where the folder holds a class of another phrase: its phrase stands nowhere else.
    """
    try:
        there = (folder / CLASS).read_text(encoding="utf-8")
    except FileNotFoundError:
        return class_
    except (OSError, ValueError) as error:
        raise Trouble(f"{folder} or the {CLASS} in it cannot be used. Give another folder with --out.") from error
    try:
        before = read_class(there)
    except Refused as error:
        raise Trouble(
            f"{folder / CLASS} cannot be used: {error} Give another folder with --out, or move that file away."
        ) from error
    if before.phrase != class_.phrase:
        raise Trouble(
            f"{folder / CLASS} is of a class with another phrase, which would be lost. "
            "Give another folder with --out, or move that one away."
        )
    return replace(class_, scheme=before.scheme) if class_.scheme == Scheme() else class_


def _write(class_: Class, place: Path) -> Counter[str]:
    """All files of the class into a folder, a sheet at a time, so that a large class needs little memory.

    Returns how many sheets of each kind have slips that cannot all be told apart.
    """
    found: Counter[str] = Counter()
    css = (ROOT / "site_assets" / "notebook.css").read_text(encoding="utf-8")
    progress = Progress(len(class_.students) * len(class_.tasks))
    with ExitStack() as stack:
        files = {n: stack.enter_context(text_file(place / n)) for n in FILES}
        for name, pack in PACKS.items():
            files[name].write(pack.head(class_, css))
        for student, assigned in class_.codes():
            for name, pack in PACKS.items():
                files[name].write(pack.piece(class_, student, assigned))
            found += alike(assigned)
            for _ in assigned:
                progress.one_more()
        for name, pack in PACKS.items():
            files[name].write(pack.foot)
    progress.end()
    return found
