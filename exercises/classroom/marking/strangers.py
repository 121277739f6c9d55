"""Return slips whose codes are none of a class: what is wrong with nearly all of them is said once."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from exercises.classroom.class_list.class_file import Class, Task
from exercises.classroom.marking.several import of_slip
from exercises.codes.conventions import BY_KEY, words_of
from exercises.codes.sheet_code import CodeError, Setting, SheetCode
from exercises.kinds.kind import Kind, kind_of
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.working.words import listed

FEWEST, SHARE = 3, 0.8  # so many strange codes, and of all that came in such a share, are one thing that is wrong

#: What is otherwise with a code: its kind is not set, its edition or its settings are others, or only its numbers are.
Otherwise = Literal["kind", "edition", "settings", "numbers"]


@dataclass(frozen=True)
class Stranger:
    """A slip with a good code that is none of the class.

    task   that of the code's kind, or None where that is not set
    known  whether the roll or the name on it is one of the class
    own    what is said of the code that the student has, or ""
    """

    slip: ReturnSlip
    code: SheetCode
    kind: Kind
    task: Task | None
    known: bool
    own: str

    @property
    def otherwise(self) -> Otherwise:
        """What is otherwise with its code."""
        if self.task is None:
            return "kind"
        if self.code.edition != self.task.edition:
            return "edition"
        return "settings" if self.code.setting != self.task.setting else "numbers"

    def problem(self) -> Problem:
        """What is said of it alone."""
        slug = self.kind.slug
        if self.task is None:
            told = (
                f"This slip is for {self.kind.title} ({slug}), which this class was not set. Look whether it is for "
                "another class."
            )
        elif self.otherwise == "edition":
            told = (
                f"The code {self.code} has numbers of edition {self.code.edition}, and this class was set edition "
                f"{self.task.edition} of {slug}. "
                "Look whether the slip is for another class, or was made on another site."
            )
        else:
            told = (
                f"The code {self.code} is nobody's in this class. It may be a sheet that the student drew with “New "
                "numbers”, or one of another class."
            )
        return of_slip(self.slip, told + self.own)


def stranger_of(slip: ReturnSlip, code: SheetCode, class_: Class, known: bool) -> Stranger | Problem:
    """A slip whose code is none of the class; a problem where this site has no such sheet."""
    try:
        kind = kind_of(code)
    except CodeError as error:
        return unread(slip, error)
    task = next((t for t in class_.tasks if t.kind.slug == kind.slug), None)
    return Stranger(slip, code, kind, task, known, "")


def unread(slip: ReturnSlip, error: CodeError) -> Problem:
    """What is said of a code that cannot be read."""
    return of_slip(slip, f"The code “{slip.code[:40]}” of this slip cannot be used. {error}")


def said_of(strangers: Sequence[Stranger], good: int) -> list[Problem]:
    """What is said of them: one by one, or of all at once and of each only that it is one of them.

    good  how many slips have codes of the class
    """
    many = len(strangers)
    if many < FEWEST or many < SHARE * (many + good):
        return [stranger.problem() for stranger in strangers]
    first = Problem("all that came in", "", "", _of_all(strangers, good))
    short = "The code of this slip is none of this class, as with most that came in: see what is said of all of them."
    return [first, *(replace(of_slip(stranger.slip, short), one_of_all=True) for stranger in strangers)]


def _of_all(strangers: Sequence[Stranger], good: int) -> str:
    many = len(strangers)
    none = f"None of the {many:,} codes that came in is of this class"
    head = f"Only {good:,} of the {many + good:,} codes that came in are of this class" if good else none
    known = sum(stranger.known for stranger in strangers)
    who = (
        "None of the slips is under a roll or a name of this class, so it looks like the class file of another class"
        if not known
        else f"{known:,} of these {many:,} slips are under rolls or names of this class, so the list looks right"
    )
    advice = (
        "Use the class file with which these codes were made; the slips may be right as they are. Each is in "
        "not-marked.csv."
    )
    return f"{head}. {who}. {_difference(strangers)} {advice}"


def _difference(strangers: Sequence[Stranger]) -> str:
    """What is otherwise with most of the codes."""
    [(most, _)] = Counter(stranger.otherwise for stranger in strangers).most_common(1)
    of_these = [stranger for stranger in strangers if stranger.otherwise == most]
    one = of_these[0]
    if most == "kind" or one.task is None:
        slugs = sorted({stranger.kind.slug for stranger in of_these})
        return f"The codes are for {listed(slugs)}, which this class was not set."
    if most == "edition":
        return (
            f"The codes have numbers of edition {one.code.edition}, and this class was set edition {one.task.edition} "
            f"of {one.kind.slug}."
        )
    if most == "settings":
        return (
            f"The codes have other settings than this class was set: {_settings(one.code.setting, one.task.setting)}."
        )
    return (
        "Kinds and settings agree, so the class phrase is another, or the list was changed: the phrase counts to the "
        "letter, capitals too, and so do the rolls."
    )


def _settings(there: Setting, here: Setting) -> str:
    """What two settings have otherwise, as the words by which they are set."""
    on_slips, of_class = words_of(there), words_of(here)
    return "; ".join(
        f"{key} is {on_slips[key]} on the slips and {of_class[key]} here"
        for key in BY_KEY
        if on_slips[key] != of_class[key]
    )
