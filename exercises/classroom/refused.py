"""Something given for a class that cannot be used: the sentence, and the part of the class that it is about."""

from typing import Literal

#: The parts of what is given for a class.
Part = Literal["list", "phrase", "site", "kinds", "marks", "heading", "examination", "ready", "file", "student"]


class Refused(ValueError):
    """What was given cannot be used; the text says why, in a sentence for the person who gave it."""

    part: Part
