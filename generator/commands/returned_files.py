"""What was handed in, from files and folders: the return slips in them, and a sentence on each file that has none."""

import os
import re
import stat
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from exercises.files.text import LARGEST
from exercises.return_slip.files import NoText, letters_of
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.return_slip.text import slips_of_letters
from generator.build.trouble import Trouble

A_LINK = "This is a link to a folder, which is not followed. Give that folder itself."
NOT_PLAIN = "This is no plain file."


@dataclass
class Returned:
    """What was found: return slips, problems, how many files were read, and how many hidden ones were left out."""

    return_slips: list[ReturnSlip] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    files: int = 0
    hidden: int = 0

    @property
    def notes(self) -> list[str]:
        """Sentences on what was left out."""
        if not self.hidden:
            return []
        return [f"{self.hidden:,} hidden file{' was' if self.hidden == 1 else 's were'} left out."]


@dataclass(frozen=True)
class _File:
    """A file of an argument: the name to show, and why it is not read, or ""."""

    path: Path
    name: str
    trouble: str = ""
    hidden: bool = False


def read_returned(
    paths: Iterable[str], leave_out: Iterable[Path] = (), one_more: Callable[[], None] = lambda: None
) -> Returned:
    """All that is in files and folders.

    Files come in the order of their names, a number in a name by its value; folders within folders are
    looked into, links to folders and hidden files are not.  Trouble if one that is named is not there.
    leave_out  folders and files that are not looked at; one_more  is called after each file
    """
    apart = {path.resolve() for path in leave_out}
    found = Returned()
    seen: set[Path] = set()
    for path in paths:
        for file in _files(Path(path), apart):
            if file.hidden:
                found.hidden += 1
                continue
            if file.trouble:
                found.problems.append(Problem(file.name, "", "", file.trouble))
            elif (real := file.path.resolve()) not in seen:
                seen.add(real)
                found.files += 1
                slips, problems = _read(file.path, file.name)
                found.return_slips += slips
                found.problems += problems
            else:
                continue  # it was named twice
            one_more()
    return found


def _files(argument: Path, apart: set[Path]) -> Iterator[_File]:
    """Every file of an argument."""
    try:
        mode = argument.stat().st_mode
    except (OSError, ValueError):
        raise Trouble(
            f"{printable(str(argument))}: There is no such file or folder, or it may not be looked at. "
            "Nothing was changed."
        ) from None
    if not stat.S_ISDIR(mode):
        yield _File(argument, printable(argument.name), "" if stat.S_ISREG(mode) else NOT_PLAIN)
        return
    unreadable: list[OSError] = []
    for folder, folders, names in os.walk(argument, onerror=unreadable.append, followlinks=False):
        here = Path(folder)
        links = [name for name in folders if (here / name).is_symlink()]
        yield from (_File(here / name, _shown(here / name, argument), A_LINK) for name in links)
        entered = [n for n in folders if not n.startswith(".") and n not in links and (here / n).resolve() not in apart]
        folders[:] = sorted(entered, key=_natural)
        for name in sorted(names, key=_natural):
            path = here / name
            if name.startswith("."):
                yield _File(path, name, hidden=True)
            elif path.resolve() not in apart:
                yield _File(path, _shown(path, argument), _trouble(path))
        while unreadable:
            path = Path(unreadable.pop().filename)
            yield _File(path, _shown(path, argument), "This folder may not be read. Mend its permissions.")


def _trouble(path: Path) -> str:
    """Why a file in a folder is not read, or ""."""
    try:
        mode = path.stat().st_mode
    except OSError:
        return "This is a link that leads nowhere."
    return "" if stat.S_ISREG(mode) else NOT_PLAIN


def _shown(path: Path, argument: Path) -> str:
    """The name within the folder of the argument, as it can be printed."""
    return printable(str(path.relative_to(argument)))


def printable(name: str) -> str:
    """A name or a sentence with what was handed in, as it can be printed and stored."""
    return "".join(c if c.isprintable() else "\ufffd" for c in name)[:1000]


def _natural(name: str) -> list[tuple[int, int, str]]:
    """What names are sorted by, so that 2 comes before 10."""
    parts = re.split(r"(\d{1,18})", name.casefold())
    return [(0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts if part]


def _read(path: Path, name: str) -> tuple[list[ReturnSlip], list[Problem]]:
    """The return slips of one file, and what could not be used of it."""
    try:
        if (size := path.stat().st_size) > LARGEST:
            told = f"It has {size:,} bytes; at most {LARGEST:,} are read. Give it in parts."
        else:
            return slips_of_letters(letters_of(path.read_bytes(), name), name)
    except PermissionError:
        told = "It may not be read. Mend its permissions."
    except OSError as error:
        told = f"It could not be read: {error.strerror or error}."
    except NoText as error:
        told = str(error)
    return [], [Problem(name, "", "", told)]
