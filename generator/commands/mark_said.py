"""What `eight mark` says at its end: what was marked, what is alike, what is asked, and what is not marked."""

from collections import Counter
from collections.abc import Sequence

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.copies import Alike
from exercises.classroom.marking.intake import Handed
from exercises.classroom.marking.marks_file import Joined
from exercises.return_slip.lines import Problem
from exercises.working.words import many
from generator.commands.asked import asked
from generator.commands.returned_files import printable

MARKS, PROBLEMS = "marks.csv", "not-marked.csv"
TOLD = 5  # problems that are told on the screen; all are in the file


def summary(
    class_: Class, marked: Sequence[Handed], alike: Sequence[Alike], marking: ClassMarking, gained: Joined
) -> list[str]:
    """What was marked, and what is to be looked at first, a sentence a line."""
    problems = marking.problems
    students = len({handed.student.roll for handed in marked})
    said = [gained.text] if gained.text else ["Nothing came in now; the marks are made again from what is there."]
    said.append(f"{many(len(marked), 'sheet')} of {many(students, 'student')} marked:")
    came = {(handed.student.roll, handed.task.kind.slug) for handed in marked}
    by_kind = Counter(slug for _, slug in came)
    said += [
        f"  {task.kind.title}: {by_kind[task.kind.slug]:,} of {len(class_.students):,} handed in"
        for task in class_.tasks
    ]
    if noted := sum(bool(handed.notes) for handed in marked):
        said.append(
            f"{noted:,} of them {'has' if noted == 1 else 'have'} a note beside the marks; look at these first."
        )
    if alike:
        said.append(
            f"{many(len(alike), 'time')} work of different students is alike where their sheets are not "
            f"(see the notes in {MARKS}):"
        )
        said += [printable(f"  {one.text}") for one in alike[:TOLD]]
        said += [f"  … and {len(alike) - TOLD:,} more."] if len(alike) > TOLD else []
    said += map(printable, asked(marking.intake, class_))
    if problems:
        said.append(f"{many(len(problems), 'thing')} that came in {'is' if len(problems) == 1 else 'are'} not marked:")
        said += told_problems(problems)
    return said


def told_problems(problems: Sequence[Problem]) -> list[str]:
    """The first of the problems, a line each; all are in their file."""
    told, said = [problem for problem in problems if not problem.one_of_all], []
    for problem in told[:TOLD]:
        about = ", ".join(part[:80] for part in (problem.source, problem.who, problem.code) if part)
        said.append(printable(f"  {about}: {problem.text}"))
    if len(told) > TOLD:
        said.append(f"  … and {len(told) - TOLD:,} more; all are in {PROBLEMS}.")
    return said
