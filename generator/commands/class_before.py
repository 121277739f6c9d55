"""What `eight class` finds in the folder it is to write to: the class file of before."""

from collections.abc import Collection
from dataclasses import replace
from pathlib import Path

from exercises.classroom.class_list.class_file import Class, read_class
from exercises.classroom.class_list.fingerprint import differences, fingerprint_of
from exercises.classroom.class_list.heading import ASKED, Heading
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.refused import Refused
from generator.build.trouble import Trouble

CLASS = "class.json"


def joined_to(folder: Path, class_: Class, anew: bool, own: Collection[str]) -> Class:
    """The class with what the one that is there already has and was not given now.

    That is its marks, its further attempts, the address of the site, the heading, and what is set for the bench and
    the examination.
    anew  whether a class that is there is given up;  own  the options that were given
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
    heading = {line: getattr(class_.heading if line in own else there.heading, line) for line in ASKED}
    return replace(
        class_,
        scheme=scheme,
        again=class_.again or there.again,
        site=class_.site if "site" in own else there.site,
        heading=Heading(**heading),
        ready=class_.ready if {"ready", "ready_at"} & {*own} else there.ready,
        weights=class_.weights if "weights" in own else there.weights,
    )


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
