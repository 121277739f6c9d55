"""What may stand in a class file; whatever else does is said."""

from collections.abc import Mapping, Sequence
from typing import Any

from exercises.codes.conventions import BY_KEY
from exercises.return_slip.step_names import nearest

#: What stands in a class file, in each of its kinds, and in each of its students.
KEYS = (
    *("about", "phrase", "site", "marks", "heading", "ready", "examination", "separator", "again"),
    *("kinds", "students"),
)
KIND_KEYS, STUDENT_KEYS = ("kind", "edition", *BY_KEY), ("roll", "name", "section")


def not_known(found: Mapping[str, Any]) -> str:
    """What a class file has that is not known, in a sentence, or "": it would be dropped without a word.

    TypeError where a kind or a student in it is none.
    """
    parts: list[tuple[str, Any, Sequence[str]]] = [("This", found, KEYS)]
    parts += [("A kind in this", each, KIND_KEYS) for each in found["kinds"]]
    parts += [("A student in this", each, STUDENT_KEYS) for each in found["students"]]
    for where, part, keys in parts:
        if not isinstance(part, dict):
            raise TypeError
        if strange := next((key for key in part if key not in keys), None):
            near = nearest(strange, keys, 1)
            meant = f" Is {near[0]} meant?" if near else ""
            return (
                f"{where} class file has “{strange[:40]}”, which is not known here.{meant} "
                f"There can be: {', '.join(keys)}. Mend the word, or take it out."
            )
    return ""
