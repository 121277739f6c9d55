"""`eight class`: a class list becomes codes, a key, pages and code strips for paper, and a class file.

The files are written beside the old ones and take their place together at the
end, so that the folder never holds a part of a class.
"""

import argparse
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from contextlib import ExitStack
from dataclasses import asdict, replace
from pathlib import Path

from exercises.classroom.class_list.alike import alike, alike_note
from exercises.classroom.class_list.cells import rolls_of
from exercises.classroom.class_list.class_file import (
    Class,
    ClassError,
    checked_site,
    class_text,
    make,
    read_class,
    tasks_from,
)
from exercises.classroom.class_list.heading import ASKED, heading_from
from exercises.classroom.class_list.packs import EXAMINATION, PACKS, Pack
from exercises.classroom.class_list.set_again import set_again
from exercises.classroom.class_list.tables import settings_addresses
from exercises.classroom.examination.mark_sheet import USUAL as WEIGHTS
from exercises.classroom.examination.mark_sheet import weights_from
from exercises.classroom.examination.readiness import USUAL as KINDS
from exercises.classroom.examination.readiness import USUAL_PERCENT as PERCENT
from exercises.classroom.examination.readiness import readiness_from
from exercises.classroom.refused import Refused
from exercises.codes.conventions import BY_KEY, CHOICES, OPEN
from exercises.files.text import FileError, decode
from exercises.kinds.kind import listed_kinds
from exercises.working.words import many
from generator.build.paper_style import paper_style
from generator.build.trouble import Trouble
from generator.commands.arguments import Commands
from generator.commands.class_before import CLASS, joined_to
from generator.commands.given_file import bytes_of_file
from generator.commands.list_choice import OPTIONS, add_options, read_list
from generator.commands.progress import Progress
from generator.commands.replacing import replace_files
from generator.commands.text_file import text_file, write_text

FILES = tuple(PACKS)
SECRET = (CLASS, "key.csv", "key.html", "working.html", "examiner.html")


def add_to(commands: Commands) -> None:
    """Enter the command among those of `eight`."""
    parser = commands.add_parser(
        "class",
        help="make every student's code, key and paper from a class list",
        epilog=_offered(),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("roster", help="a CSV file, a class.json made before, or roll numbers such as 1-60")
    add_options(parser)
    parser.add_argument("--phrase", help="the class phrase: the same phrase gives the same codes")
    parser.add_argument(
        "--kinds",
        help="kinds of exercise, with commas between (tan-a if not given); beside a class file, those of the attempt",
    )
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
    for line, asked in ASKED.items():
        parser.add_argument(f"--{line}", help=f"{asked.lower()}, printed at the top of every paper")
    parser.add_argument(
        "--ready", metavar="KINDS", help=f"kinds that show who may go to the bench ({', '.join(KINDS)})"
    )
    parser.add_argument("--ready-at", metavar="PERCENT", help=f"the mark that each must reach ({PERCENT:g} %%)")
    parser.add_argument("--examination", action="store_true", help="make the papers of a practical examination too")
    parser.add_argument(
        "--weights",
        nargs="+",
        default=[],
        metavar="PART=MARKS",
        help=f"what the parts of its mark sheet count ({' '.join(f'{part}={n:g}' for part, n in WEIGHTS)})",
    )
    parser.add_argument(
        "--attempt",
        metavar="NUMBER",
        help="set it again, with new numbers: 2 is a second attempt; of a class file, --kinds are those set again",
    )
    parser.add_argument("--rolls", help="for whom a further attempt is, such as 7,9-12 (everyone)")
    parser.add_argument("--anew", action="store_true", help="give up another class that is in the folder")
    parser.add_argument("--out", default="class", help="the folder to write to (class)")


def _offered() -> str:
    """What may stand after the options, and the files that are written."""
    width = max(len(kind.slug) for kind in listed_kinds())
    kinds = [f"  {kind.slug:{width}}  {kind.title}" for kind in listed_kinds()]
    usual = [f"  --{choice.key:9}  {'the draw' if choice.usual == OPEN else choice.usual}" for choice in CHOICES]
    places = ", ".join(text for text, _ in BY_KEY["place"].offered)
    lines = [
        "kinds of exercise (the first, if none is named):",
        *kinds,
        "what holds where a setting is left out:",
        *usual,
        f"places: {places}",
        f"files that are written to the folder: {', '.join(FILES)};",
        f"with --examination also {', '.join(EXAMINATION)}; of a further attempt in attempt-2/",
    ]
    return "\n".join(lines).replace("%", "%%")


def run(chosen: argparse.Namespace) -> None:
    """Make the files of a class.  Trouble, with nothing changed in the folder, if that fails."""
    if chosen.rolls is not None and chosen.attempt is None:
        raise Trouble("--rolls says for whom a further attempt is. Add --attempt 2, or leave it out.")
    folder = Path(chosen.out)
    try:
        class_ = _class_of(chosen)
        of_list = not chosen.roster.lower().endswith(".json")
        unsaid = [name for name in ("site", *ASKED) if getattr(chosen, name) is None] if of_list else None
        class_ = _with_readiness(joined_to(folder, class_, chosen.anew, unsaid), chosen)
    except (Refused, FileError) as error:
        raise Trouble(str(error)) from error
    except KeyboardInterrupt:
        raise Trouble("Stopped. Nothing was written.") from None
    packs = PACKS | EXAMINATION if chosen.examination else PACKS
    if chosen.attempt is not None:
        _further_attempt(chosen, class_, folder, packs)
        return
    found = _make(class_, folder, packs)
    print(f"{', '.join(packs)} are in {folder}/, for {many(len(class_.students), 'student')}.")
    secret = ", ".join(name for name in SECRET if name in packs)
    print(f"Keep from students: {secret}. {CLASS} holds the class phrase, which is needed to make the class again.")
    for kinds, address in settings_addresses(class_.site, class_.tasks):
        print(f"For students’ own records, with the settings of {kinds}: {address}")
    if told := alike_note(class_, found):
        print(told)
    if told := _left(folder, packs):
        print(told)
    if not class_.site:
        print("No --site was given, so the addresses are written without the site's own at their front.")


def _make(class_: Class, folder: Path, packs: Mapping[str, Pack], attempt: int = 1) -> Counter[str]:
    """Make files of a class; see `_write`.  Trouble, with nothing changed in the folder, if that fails."""
    found: Counter[str] = Counter()

    def write(place: Path) -> None:
        try:
            found.update(_write(class_, place, packs, attempt))
        except ClassError as error:
            raise Trouble(str(error)) from error

    replace_files(folder, tuple(packs), write, "the class")
    return found


def _further_attempt(chosen: argparse.Namespace, class_: Class, folder: Path, packs: Mapping[str, Pack]) -> None:
    """Make the files of a further attempt, in a folder of its own, and enter it in the class file."""
    try:
        number = int(chosen.attempt) if chosen.attempt.isascii() and chosen.attempt.isdecimal() else 0
        own_kinds = chosen.roster.lower().endswith(".json")  # of a class file, --kinds are those that are set again
        rolls = rolls_of(chosen.rolls or "", (student.roll for student in class_.students))
        class_ = set_again(class_, number, rolls, _named_kinds(chosen) if own_kinds else ())
    except Refused as error:
        raise Trouble(str(error)) from error
    place, own = folder / f"attempt-{number}", {name: pack for name, pack in packs.items() if name != CLASS}
    _make(class_, place, own, number)
    text = class_text(class_)
    replace_files(folder, [CLASS], lambda made: write_text(made / CLASS, text), "the class")
    told = many(len(class_.codes(number)), "student")
    print(f"{', '.join(own)} of attempt {number} are in {place}/, for {told}. {CLASS} in {folder}/ has it too.")
    print("The codes of the attempts before are what they were.")
    if left := _left(place, packs):
        print(left)


def _left(folder: Path, packs: Mapping[str, Pack]) -> str:
    """A sentence on papers of an examination that an earlier run made there and this one did not, or ""."""
    left = [name for name in EXAMINATION if name not in packs and (folder / name).exists()]
    if not left:
        return ""
    return (
        f"Still in {folder}/ from before, and not made now: {', '.join(left)}. Add --examination to make these papers "
        "as the class is now."
    )


def _class_of(chosen: argparse.Namespace) -> Class:
    """The class of the command line; how its list was read is printed."""
    text = _text(chosen.roster)
    options = ("phrase", *(["kinds"] if chosen.attempt is None else []), *OPTIONS, *BY_KEY)
    if chosen.roster.lower().endswith(".json"):
        extra = [f"--{o}" for o in options if getattr(chosen, o) is not None] + ["--for"] * bool(chosen.own)
        if extra:
            raise Trouble(f"A class file has its own settings; leave out {', '.join(extra)}, or give the class list.")
        class_ = read_class(text)
        site = class_.site if chosen.site is None else chosen.site
        heading = heading_from({**asdict(class_.heading), **_given(chosen, ASKED)})
        return replace(class_, site=checked_site(site), heading=heading)
    if chosen.phrase is None:
        raise Trouble('A class needs a phrase that only you know: --phrase "…". The same phrase gives the same codes.')
    own = _own(chosen.own)
    named = _named_kinds(chosen)
    slugs = ["tan-a"] if chosen.kinds is None and not own else [*named, *own]
    common = {word: getattr(chosen, word) or "" for word in BY_KEY}
    tasks, heading = tasks_from(slugs, common, own), heading_from(_given(chosen, ASKED))
    found = read_list(chosen, text)
    return make(found.students, chosen.phrase, tasks, chosen.site or "", heading=heading, separator=found.separator)


def _named_kinds(chosen: argparse.Namespace) -> list[str]:
    """The kinds that are named."""
    return [kind.strip().lower() for kind in (chosen.kinds or "").split(",") if kind.strip()]


def _with_readiness(class_: Class, chosen: argparse.Namespace) -> Class:
    """The class with what was chosen for the bench and for the examination; what was not stays."""
    ready, weights = class_.ready, class_.weights
    if chosen.ready is not None or chosen.ready_at is not None:
        kinds = ready.kinds if chosen.ready is None else chosen.ready
        ready = readiness_from(kinds, ready.percent if chosen.ready_at is None else chosen.ready_at)
    if chosen.weights:
        weights = weights_from({**dict(weights), **_pairs("--weights", chosen.weights, "part=marks")})
    return replace(class_, ready=ready, weights=weights)


def _pairs(option: str, words: Sequence[str], form: str) -> dict[str, str]:
    """word=value, as it stands after an option.  Trouble where one is none."""
    pairs = [word.partition("=") for word in words]
    if odd := next((w for w, (_, mark, _) in zip(words, pairs) if not mark), None):
        raise Trouble(f"{option}: “{odd[:60]}” is no setting. Write it as {form}.")
    return {word.strip().lower(): text for word, _, text in pairs}


def _given(chosen: argparse.Namespace, options: Iterable[str]) -> dict[str, str]:
    """Those of the options that were given, with their texts."""
    return {name: text for name in options if (text := getattr(chosen, name)) is not None}


def _own(options: list[list[str]]) -> dict[str, dict[str, str]]:
    """What --for fixes for one kind each: kind -> word -> text."""
    found: dict[str, dict[str, str]] = {}
    for slug, *words in options:
        if slug.lower() in found:
            raise Trouble(f"--for {slug} is given twice. Put all its settings after one --for.")
        found[slug.lower()] = _pairs(f"--for {slug}", words, f"word=value, with {', '.join(BY_KEY)}")
    return found


def _text(roster: str) -> str:
    """What the file holds, or the argument itself where it is roll numbers."""
    wanted = "Give a class list as CSV, or roll numbers such as 1-60."
    raw = bytes_of_file(roster, wanted)
    if raw is not None:
        return decode(raw)
    if any(c.isalpha() for c in roster) or not any(c.isdecimal() for c in roster):
        raise Trouble(f"There is no file {roster[:200]}. {wanted}")
    return roster


def _write(class_: Class, place: Path, packs: Mapping[str, Pack], attempt: int = 1) -> Counter[str]:
    """All files of the class into a folder, a sheet at a time, so that a large class needs little memory.

    Returns how many sheets of each kind have slips that cannot all be told apart.
    """
    found: Counter[str] = Counter()
    css = paper_style()
    codes = class_.codes(attempt)
    progress = Progress(sum(len(assigned) for _, assigned in codes))
    with ExitStack() as stack:
        files = {n: stack.enter_context(text_file(place / n)) for n in packs}
        for name, pack in packs.items():
            files[name].write(pack.head(class_, css))
        for student, assigned in codes:
            for name, pack in packs.items():
                files[name].write(pack.piece(class_, student, assigned))
            found += alike(assigned)
            for _ in assigned:
                progress.one_more()
        for name, pack in packs.items():
            files[name].write(pack.foot)
    progress.end()
    return found
