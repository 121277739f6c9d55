"""A scheme from what is typed, on the class desk or after the options of `eight mark`: both are read alike.

Each thing has a name: that of a field of Scheme; a kind and a step of it as in “tan-a/pole”, for the mark of a
step; “weight:” and a kind; or “deadline:” and a kind, or a kind and an attempt as in “tan-a:2”.
"""

from typing import Any

from exercises.classroom.marking.scheme import SchemeError, when

NUMBERS = ("step_mark", "out_of")
SHARES = ("follows", "figures", "units", "late", "late_most")
PAIRS = {"weight": "weights", "deadline": "deadlines"}  # what stands before the colon -> field


def put(scheme: dict[str, Any], name: str, typed: str, label: str) -> None:
    """Set one thing in a scheme as scheme.as_dict has it.  SchemeError, with a sentence, if it cannot be used.

    typed  "" leaves it as is usual;  label  what it is called in that sentence
    """
    kind, colon, key = name.partition(":")
    if colon:
        field = PAIRS.get(kind, name)
    else:
        field, key = ("columns", name) if "/" in name else (name, "")
    place = scheme.setdefault(field, {}) if key else scheme
    if not typed.strip():
        place.pop(key or field, None)
        return
    place[key or field] = _value(kind if colon else field, typed, label)


def _value(what: str, typed: str, label: str) -> object:
    if what in SHARES:
        return share(typed, label)
    if what in ("deadline", "deadlines"):
        return when(typed)
    if what in (*NUMBERS, "columns", "weight"):
        return number(typed, label)
    if what == "zone":  # “UTC-03:00”, since a bare “-03:00” on a command line looks like an option
        return typed.strip().upper().removeprefix("UTC").replace("−", "-") or "+00:00"
    return typed.strip().lower()


def number(typed: str, label: str) -> float:
    """A number as it is typed; a comma is a point.  SchemeError if it is none."""
    try:
        return float(typed.strip().replace(",", ".").replace("½", ".5"))
    except ValueError:
        raise SchemeError(f"“{label}”: “{typed.strip()[:40]}” is not a number.") from None


def share(typed: str, label: str) -> float:
    """A share, typed in per cent, as a number from 0 to 1.  SchemeError if it is none.

    From 0 to 1 the sign must stand there: whoever thinks of shares types 0.5 for a half.
    """
    bare = typed.strip()
    percent = number(bare.removesuffix("%"), label)
    if 0 < percent <= 1 and not bare.endswith("%"):
        raise SchemeError(
            f"“{label}”: shares are in per cent. Write {100 * percent:g} % or {percent:g} %, whichever you mean."
        )
    if not 0 <= percent <= 100:
        raise SchemeError(f"“{label}” must be from 0 to 100 %.")
    return round(percent / 100, 6)


def shown_share(value: float) -> str:
    """A share so that, typed again, it is the same."""
    percent = f"{100 * value:.12g}"
    return f"{percent} %" if 0 < 100 * value <= 1 else percent
