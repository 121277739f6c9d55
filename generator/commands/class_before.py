"""What `eight class` finds in the folder it is to write to: the class file of before."""

from collections.abc import Collection
from dataclasses import replace
from pathlib import Path

from exercises.classroom.class_list.attempts import with_more
from exercises.classroom.class_list.class_file import Class, read_class
from exercises.classroom.class_list.fingerprint import differences, fingerprint_of
from exercises.classroom.class_list.heading import ASKED
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.refused import Refused
from generator.build.trouble import Trouble

CLASS = "class.json"


def joined_to(folder: Path, class_: Class, anew: bool, unsaid: Collection[str] | None = None) -> Class:
    """The class, marked as the one that is there already if it has no marks of its own, with its further attempts.

    anew    whether a class that is there is given up
    unsaid  of a class from a list, what was not said of it: “site” and lines of the heading.  They stay as they are
            there, and so do what shows who is ready, and the weights of the mark sheet.  None of one from its file
    Trouble, with what differs, where a code that was given out would be one of this class no more.
    """
    if anew:
        return class_
    there = _class_in(folder)
    if there is None:
        return class_
    if differ := differences(fingerprint_of(there), fingerprint_of(class_)):
        raise Trouble(
            f"{folder / CLASS} is of another class, whose codes would be lost. {' '.join(differ)} Give another folder "
            "with --out, or give the former class up with --anew."
        )
    scheme = there.scheme if class_.scheme == Scheme() else class_.scheme
    again = with_more(there.again, class_.again, (student.roll for student in class_.students))
    if unsaid is not None:
        site = there.site if "site" in unsaid else class_.site
        lines = {line: getattr(there.heading, line) for line in ASKED if line in unsaid}
        heading = replace(class_.heading, **lines)
        class_ = replace(class_, site=site, heading=heading, ready=there.ready, weights=there.weights)
    return replace(class_, scheme=scheme, again=again)


def _class_in(folder: Path) -> Class | None:
    """The class of a folder, or None.  Trouble where its file cannot be used: its phrase stands nowhere else."""
    try:
        return read_class((folder / CLASS).read_text(encoding="utf-8"))
    except FileNotFoundError:
        return None
    except Refused as error:
        raise Trouble(
            f"{folder / CLASS} cannot be used: {error} Give another folder with --out, or move that file away."
        ) from error
    except (OSError, ValueError) as error:
        raise Trouble(f"{folder} or the {CLASS} in it cannot be used. Give another folder with --out.") from error
