"""Who may go to the bench: the kinds that show it, and the mark that each of them must reach."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from exercises.classroom.refused import Refused
from exercises.kinds.kind import Kind, all_kinds, listed_kinds

USUAL = ("distances", "setting", "dial", "law")
USUAL_PERCENT = 80.0


class ReadinessError(Refused):
    """A readiness set that cannot be used; the text says why."""

    part = "ready"


@dataclass(frozen=True)
class Readiness:
    """What shows that a student is ready for the bench.  ReadinessError, with a sentence, where it shows nothing.

    kinds    slugs of kinds of exercise, put in the order of the lists
    percent  the mark that each must reach, in per cent
    """

    kinds: tuple[str, ...] = USUAL
    percent: float = USUAL_PERCENT

    def __post_init__(self) -> None:
        known = [kind.slug for kind in listed_kinds()]
        if strange := [slug for slug in self.kinds if slug not in known]:
            raise ReadinessError(
                f"“{str(strange[0])[:40]}” is no kind of exercise, so it cannot show who is ready. "
                f"The kinds are: {', '.join(known)}."
            )
        if not self.kinds:
            raise ReadinessError("Choose at least one kind of exercise that shows who is ready for the bench.")
        object.__setattr__(self, "kinds", tuple(slug for slug in known if slug in self.kinds))
        percent = self.percent
        if isinstance(percent, bool) or not isinstance(percent, (int, float)) or not 0 < percent <= 100:
            raise ReadinessError("The mark that shows who is ready must be more than 0 and at most 100 per cent.")

    def counted(self, slugs: Sequence[str]) -> tuple[list[Kind], list[Kind]]:
        """Its kinds that a class of these kinds is set, and those that it is not."""
        mine = [kind for kind in listed_kinds() if kind.slug in self.kinds]
        return [k for k in mine if k.slug in slugs], [k for k in mine if k.slug not in slugs]


class Shown(NamedTuple):
    """What a student has shown: the share of the marks of each kind that counts, or None; and whether it is enough."""

    shares: tuple[float | None, ...]
    ready: bool


def shown(readiness: Readiness, kinds: Sequence[Kind], shares: Mapping[str, float]) -> Shown:
    """Of one student: `shares` has earned over possible for each kind that was handed in, by its slug."""
    found = tuple(shares.get(kind.slug) for kind in kinds)
    # a mark is to hundredths: the last bits of a quotient must not decide
    enough = [share is not None and share * 100 >= readiness.percent - 1e-9 for share in found]
    return Shown(found, bool(enough) and all(enough))


def readiness_from(kinds: str | Sequence[str], percent: object = "") -> Readiness:
    """The readiness set as it was typed: kinds with commas between, and a number, with or without a % sign.

    Where nothing was typed it is as usual.  ReadinessError, with a sentence, where it cannot be used.

    >>> readiness_from("dial, law", "75 %")
    Readiness(kinds=('dial', 'law'), percent=75.0)
    """
    named = kinds.split(",") if isinstance(kinds, str) else kinds
    slugs = tuple(dict.fromkeys(word.strip().lower() for word in named if word.strip()))
    text = str(percent).strip().removesuffix("%").strip().replace(",", ".")
    try:
        number = float(text) if text else USUAL_PERCENT
    except ValueError:
        raise ReadinessError(f"“{str(percent)[:40]}” is no number of per cent. Write it as 80.") from None
    if isinstance(kinds, str) and not slugs:
        return Readiness(percent=number)
    return Readiness(slugs, number)


def as_dict(readiness: Readiness) -> dict[str, Any]:
    """The readiness set as JSON can hold it."""
    return {"kinds": list(readiness.kinds), "percent": readiness.percent}


def from_dict(found: object) -> Readiness:
    """What `as_dict` gave.  ReadinessError, with a sentence, if it is none."""
    if not isinstance(found, Mapping) or not set(found) <= {"kinds", "percent"}:
        raise ReadinessError("The readiness set is not in the form that was written.")
    kinds = found.get("kinds", USUAL)
    if not isinstance(kinds, list | tuple) or not all(isinstance(slug, str) and slug in all_kinds() for slug in kinds):
        raise ReadinessError("The kinds of the readiness set must be names of kinds of exercise.")
    return Readiness(tuple(kinds), found.get("percent", USUAL_PERCENT))
