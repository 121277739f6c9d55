"""After `eight mark`: which slips are to be chosen from, with the option that chooses; and how many records came in."""

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.marking.intake import Intake
from exercises.classroom.marking.order import described
from exercises.classroom.marking.several import Several
from exercises.return_slip.text import check_of
from exercises.working.words import many

TOLD = 5  # questions, and slips of one, on the screen; the notes in marks.csv have all


def asked(intake: Intake, class_: Class) -> list[str]:
    """Sentences and lists, a line each; none where there is nothing to ask and no record."""
    said = []
    if questions := intake.questions:
        are = "sheet has" if len(questions) == 1 else "sheets have"
        said.append(f"{len(questions):,} {are} several slips, and it is not known which counts. Choose with --count:")
        option = _options(class_)
        for one in questions[:TOLD]:
            said += _question(one, option[one.key])
        if len(questions) > TOLD:
            said.append(f"  … and {len(questions) - TOLD:,} more; the notes in marks.csv say it of each.")
    if records := intake.records:
        said.append(f"{many(len(records), 'laboratory record')} came in; what each comes to is in records.csv.")
    return said


def _question(one: Several, option: str) -> list[str]:
    lines = [f"  {one.about}: --count {option}=…, with one of"]
    for at, coming in enumerate(one.slips[:TOLD], 1):
        stands = "; this one stands until you choose" if coming is one.counted else ""
        lines.append(f"    {check_of(coming.slip)} (or {at}): {described(coming)}{stands}")
    return lines


def _options(class_: Class) -> dict[str, str]:
    """What --count is given for each sheet and each student's record, by what a choice is kept."""
    found = {}
    for student, assigned in class_.every_code():
        roll = f'"{student.roll}"' if " " in student.roll else student.roll
        found[f"RECORD {student.roll}"] = f"{roll} record"
        for task, code in assigned:
            found[str(code)] = f"{roll} {task.kind.slug}{f':{task.attempt}' if task.attempt > 1 else ''}"
    return found
