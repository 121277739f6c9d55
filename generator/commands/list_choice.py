"""How `eight class` reads a list: what it proposes is printed, and what is not certain is asked or must be said."""

import argparse
import re
import sys
from collections.abc import Callable

from exercises.classroom.class_list.cells import RosterError
from exercises.classroom.class_list.columns import letter
from exercises.classroom.class_list.headings import words
from exercises.classroom.class_list.list_words import columns_of, doubts, lines_of, told
from exercises.classroom.class_list.proposal import NOWHERE, Chosen, Proposal, propose
from exercises.classroom.class_list.roster import UNCERTAIN, ClassList, students_of
from generator.build.trouble import Trouble
from generator.commands.returned_files import printable

OPTIONS = ("roll", "name", "section", "lines")
_ASKS = {
    "roll": "Which column is the roll",
    "name": "Which column is the name (two with a comma between, or none)",
    "section": "Which column is the section (or none)",
    "lines": "From which line to which line are the students",
}
_NONE = ("none", "")


def add_options(parser: argparse.ArgumentParser) -> None:
    """The options that say how a list is read."""
    of = "its heading, letter or number"
    parser.add_argument("--roll", help=f"the column of the class list that is the roll: {of}")
    parser.add_argument("--name", help=f"the column that is the name: {of}; two with a comma are joined; or none")
    parser.add_argument("--section", help=f"the column that is the section: {of}; or none")
    parser.add_argument("--lines", help="the first and the last line of the students in the class list, as in 4-63")


def read_list(chosen: argparse.Namespace, text: str) -> ClassList:
    """The list as the command line says, or as it is proposed; what it was taken for is printed.

    RosterError or Trouble, with a sentence, if it cannot be read, or is not certain and nobody can be asked.
    """
    given = {option: getattr(chosen, option) for option in OPTIONS if getattr(chosen, option) is not None}
    found = propose(text)
    if given and found.rolls is not None:
        raise Trouble(f"These are roll numbers alone; leave out {', '.join(f'--{option}' for option in given)}.")
    picked = Chosen()
    for option, said in given.items():
        picked = _with(picked, option, said, found)
    found = propose(text, picked)
    _print(found)
    while found.doubts:
        if not sys.stdin.isatty():
            raise Trouble(_unsaid(found))
        print(f"{UNCERTAIN} {doubts(found)}")
        for option in dict.fromkeys(doubt.about for doubt in found.doubts):
            picked = _asked(picked, option, found)
        found = propose(text, picked)
        _print(found)
    return ClassList(students_of(found), found.cells.separator)


def _print(found: Proposal) -> None:
    print("The class list:")
    try:
        students = students_of(found)
    except RosterError:
        students = ()  # said when it is read
    for about, said in told(found, students):
        print(printable(f"  {about + ':':18}{said}"))


def _as_it_is(found: Proposal, option: str) -> str:
    """What is proposed, as it can be given for an option."""
    columns = found.columns
    ways: dict[str, Callable[[], str]] = {
        "roll": lambda: letter(columns.roll),
        "name": lambda: columns_of(columns.names),
        "section": lambda: columns_of([] if columns.section is None else [columns.section]),
        "lines": lambda: lines_of(found),
    }
    return ways[option]()


def _unsaid(found: Proposal) -> str:
    options = dict.fromkeys(doubt.about for doubt in found.doubts)
    add = " ".join(f"--{option} {_as_it_is(found, option)}" for option in options)
    return (
        f"{UNCERTAIN} {doubts(found)} If it is right as shown, add {add}. "
        "Otherwise give another column by its heading, letter or number, or other lines. Nothing was written."
    )


def _asked(picked: Chosen, option: str, found: Proposal) -> Chosen:
    """What was chosen, with the answer to one question; asked again until it can be used."""
    shown = _as_it_is(found, option)
    while True:
        try:
            return _with(picked, option, input(f"{_ASKS[option]}? [{shown}] ").strip() or shown, found)
        except Trouble as trouble:
            print(trouble)
        except EOFError:
            raise Trouble("No answer came. Nothing was written.") from None


def _with(picked: Chosen, option: str, said: str, found: Proposal) -> Chosen:
    """What was chosen, with what an option says.  Trouble if that is no column, or no lines."""
    said = said.strip()
    if option == "lines":
        return _with_lines(picked, said, found)
    if option == "roll":
        return picked._replace(roll=_column(said, option, found))
    if said.casefold() in _NONE:
        return picked._replace(**({"names": ()} if option == "name" else {"section": NOWHERE}))
    if option == "section":
        return picked._replace(section=_column(said, option, found))
    whole = _known(said, found)
    parts = [whole] if whole is not None else [_column(part.strip(), option, found) for part in said.split(",")]
    return picked._replace(names=tuple(dict.fromkeys(parts)))


def _with_lines(picked: Chosen, said: str, found: Proposal) -> Chosen:
    match = re.fullmatch(r"(\d{1,7})\s*[-–]\s*(\d{1,7})", said, re.ASCII)
    first, last = (int(match[1]), int(match[2])) if match else (0, 0)
    lines = [row.line for row in found.cells.rows]
    if not any(first <= line <= last for line in lines):
        raise Trouble(
            f"This list has no lines “{said[:40]}”. Give the first and the last line, as in {lines_of(found)}."
        )
    return picked._replace(above=sum(line < first for line in lines), below=sum(line > last for line in lines))


def _column(said: str, option: str, found: Proposal) -> int:
    at = _known(said, found)
    if at is None:
        there = "; ".join(found.called(at).removeprefix("column ") for at in range(min(found.cells.wide, 12)))
        raise Trouble(f"--{option}: “{said[:40]}” is no column of this list. There are: {there}.")
    return at


def _known(said: str, found: Proposal) -> int | None:
    """The column of a heading, a number from 1, or a letter."""
    of_heading = [at for at, heading in enumerate(found.headings) if heading and words(heading) == words(said)]
    if of_heading and words(said):
        return of_heading[0]
    for at in range(found.cells.wide):
        if said in (str(at + 1), letter(at)) or said.upper() == letter(at):
            return at
    return None
