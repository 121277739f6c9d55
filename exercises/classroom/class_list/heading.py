"""What stands at the top of a class's papers: institution, course, laboratory and date, set once for the class."""

from collections.abc import Mapping
from dataclasses import astuple, dataclass, fields

from exercises.classroom.refused import Refused

LONGEST = 120  # characters of one line of it


class HeadingError(Refused):
    """A heading that cannot be printed; the text says why."""

    part = "heading"


@dataclass(frozen=True)
class Heading:
    """One line each, or "".  HeadingError, with a sentence, where one is no line of print.

    date  as it is to be printed: it is not read
    """

    institution: str = ""
    course: str = ""
    laboratory: str = ""
    date: str = ""

    def __post_init__(self) -> None:
        for field, text in zip(fields(self), astuple(self)):
            if not isinstance(text, str) or len(text) > LONGEST or not text.isprintable() or text != text.strip():
                raise HeadingError(
                    f"The {field.name} in the heading must be one line of at most {LONGEST} characters, without "
                    "spaces at its ends."
                )

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines that are not empty."""
        return tuple(text for text in astuple(self) if text)


#: What each line of a heading is, as a person is asked for it.
ASKED = {
    "institution": "Institution",
    "course": "Course",
    "laboratory": "Laboratory",
    "date": "Date of the class",
}


def heading_from(typed: Mapping[str, str]) -> Heading:
    """The heading as it was typed: spaces at the ends and doubled are taken out.  HeadingError as for `Heading`."""
    return Heading(**{name: " ".join(typed.get(name, "").split()) for name in ASKED})
