"""What was handed in, from files and folders: the slips in them, and a sentence on each file that has none."""

import os
import re
import stat
from collections.abc import Callable, Iterable
from pathlib import Path

from exercises.return_slip.files import text_of
from exercises.return_slip.text import Problem, ReturnSlip, found_in

LARGEST = 20_000_000  # bytes of a file


def gathered(
    paths: Iterable[str], leave_out: Iterable[Path] = (), one_more: Callable[[], None] = lambda: None
) -> tuple[list[ReturnSlip], list[Problem], list[str]]:
    """Every slip, every problem, and sentences on what was left out.

    Files come in the order of their names, a number in a name by its value; folders within folders are
    looked into, links to folders and hidden files are not.
    leave_out  folders and files that are not looked at; one_more  is called after each file
    """
    apart = {path.resolve() for path in leave_out}
    slips: list[ReturnSlip] = []
    problems: list[Problem] = []
    hidden = 0
    seen: set[Path] = set()
    for given in paths:
        for path, name, trouble in _files(Path(given), apart):
            if trouble == "hidden":
                hidden += 1
                continue
            if not trouble and (real := path.resolve()) in seen:
                continue  # given twice
            if not trouble:
                seen.add(real)
            found = _read(path, name) if not trouble else Problem(name, "", "", trouble)
            if isinstance(found, Problem):
                problems.append(found)
            else:
                slips += found[0]
                problems += found[1]
            one_more()
    notes = [f"{hidden:,} hidden file{' was' if hidden == 1 else 's were'} left out."] if hidden else []
    return slips, problems, notes


def _files(given: Path, apart: set[Path]):
    """(path, name to be shown, "" or why it is not read) of every file of an argument."""
    try:
        kind = given.stat().st_mode
    except (OSError, ValueError):
        yield given, printable(str(given)), "There is no such file or folder, or it may not be looked at."
        return
    if not stat.S_ISDIR(kind):
        yield given, printable(given.name), "" if stat.S_ISREG(kind) else "This is no plain file."
        return
    troubles: list[OSError] = []
    for folder, folders, names in os.walk(given, onerror=troubles.append, followlinks=False):
        here = Path(folder)
        for name in [n for n in folders if (here / n).is_symlink()]:
            yield (
                here / name,
                _shown(here / name, given),
                "This is a link to a folder, which is not followed. Give that folder itself.",
            )
        folders[:] = sorted(
            (
                n
                for n in folders
                if not n.startswith(".") and not (here / n).is_symlink() and (here / n).resolve() not in apart
            ),
            key=_natural,
        )
        for name in sorted(names, key=_natural):
            path = here / name
            if name.startswith("."):
                yield path, name, "hidden"
            elif path.resolve() not in apart:
                yield path, _shown(path, given), _trouble(path)
        while troubles:
            error = troubles.pop()
            yield (
                Path(error.filename),
                _shown(Path(error.filename), given),
                "This folder may not be read. Mend its permissions.",
            )


def _trouble(path: Path) -> str:
    try:
        kind = path.stat().st_mode
    except OSError:
        return "This is a link that leads nowhere."
    return "" if stat.S_ISREG(kind) else "This is no plain file."


def _shown(path: Path, given: Path) -> str:
    """The name within the folder that was given, as it can be printed."""
    return printable(str(path.relative_to(given)))


def printable(name: str) -> str:
    """A name or a sentence with what was handed in, as it can be printed and stored."""
    return "".join(c if c.isprintable() else "\ufffd" for c in name)[:1000]


def _natural(name: str):
    return [
        (0, int(part), "") if part.isdecimal() else (1, 0, part)
        for part in re.split(r"(\d{1,18})", name.casefold())
        if part
    ]


def _read(path: Path, name: str) -> tuple[list[ReturnSlip], list[Problem]] | Problem:
    try:
        if (size := path.stat().st_size) > LARGEST:
            return Problem(name, "", "", f"It has {size:,} bytes; at most {LARGEST:,} are read. Give it in parts.")
        text = text_of(path.read_bytes(), name)
    except PermissionError:
        return Problem(name, "", "", "It may not be read. Mend its permissions.")
    except OSError as error:
        return Problem(name, "", "", f"It could not be read: {error.strerror or error}.")
    except ValueError as error:
        return Problem(name, "", "", str(error))
    return found_in(text, name)
