"""The marking of all that a class handed in: one loop, for the command line and the class desk alike."""

from collections.abc import Iterator

from exercises.classroom.marking.by_hand import NONE, ByHand
from exercises.classroom.marking.copies import Copies
from exercises.classroom.marking.intake import Handed, Intake, with_slip
from exercises.classroom.marking.marks import Marked, mark, plain
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.marking.several import of_slip
from exercises.judging.entries import read_entries
from exercises.kinds.kind import Sheet, sheet_of
from exercises.return_slip.lines import Problem


class ClassMarking:
    """Marks one sheet after the other, each once, in the order of the class list.

    problems  what came in and cannot be marked: that of the intake, and what is found in marking
    copies    knows, of the sheets that are marked so far, which are alike
    """

    def __init__(self, intake: Intake, scheme: Scheme, by_hand: ByHand = NONE) -> None:
        self.intake, self.scheme, self.by_hand = intake, scheme, by_hand
        self.problems: list[Problem] = list(intake.problems)
        self.copies = Copies()
        self._next = 0  # place in intake.handed

    def marked_up_to(self, stop: int | None = None) -> Iterator[tuple[int, Marked]]:
        """Mark on from where the last call stopped: each sheet with its place in what was handed in.

        stop  the place before which to stop, or None for all
        A sheet whose code has no consistent numbers is left out and becomes a problem.
        """
        handed_in = self.intake.handed
        stop = len(handed_in) if stop is None else min(stop, len(handed_in))
        while self._next < stop:
            at, handed = self._next, handed_in[self._next]
            try:
                sheet = sheet_of(handed.code)
                handed = self._best(handed, sheet)
                read = read_entries(sheet.working, handed.return_slip.answers)
                marked = mark(handed, sheet, self.scheme, read, self.by_hand)
                self.copies.add(handed, sheet.working, read)
            except ArithmeticError:
                told = (
                    "The sheet of this code has no consistent numbers, so it cannot be marked. "
                    "Look at the settings of the class."
                )
                self.problems.append(of_slip(handed.return_slip, told, str(handed.code)))
                self._next += 1
                continue
            self._next += 1
            yield at, marked

    def _best(self, handed: Handed, sheet: Sheet) -> Handed:
        """What was handed in, with the slip that has the best mark if that is to count; the others become problems."""
        came = handed.several
        if came is None or came.why != "best":
            return handed
        marks: dict[int, Marked] = {}
        for at in came.rivals:
            one = with_slip(handed, came.with_best(at))
            read = read_entries(sheet.working, one.return_slip.answers)
            marks[at] = mark(one, sheet, self.scheme, read, self.by_hand)
        best = came.with_best(max(marks, key=lambda at: (marks[at].earned, at == came.at)))
        said = {at: f"{plain(marked.earned)} of {plain(marked.possible)}" for at, marked in marks.items()}
        self.problems += best.problems(said)
        return with_slip(handed, best)
