"""Answers copied from paper: a table with one line an answer becomes return slips that amend what came in.

Its first line names the columns, in any order: code, or roll and kind (of a
second attempt tan-a:2); then step
and answer.  It may come from any spreadsheet, with commas, semicolons or tabs.
An answer takes the place of what the sheet has at that step (amendments.py); a
blank cell changes nothing.
"""

import re
from collections.abc import Iterable, Mapping, Sequence

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roll_match import Rolls
from exercises.classroom.class_list.roster import Student
from exercises.files.tables import FORMULA_STARTS, TableError, rows_of
from exercises.files.text import BYTE_ORDER_MARK, without_mark
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.return_slip.step_names import no_such_step, steps_of

COLUMNS = ("roll", "code", "kind", "step", "answer")
SEPARATORS = "\t;,"


type _Found = dict[tuple[str, str], dict[str, str]]  # (roll, code) -> step -> answer


def is_typed_in(text: str) -> bool:
    """Whether a text is such a table: its first line names a step and an answer."""
    first = re.split(r"[\t;,]", _first_line(text)[:1000].casefold().replace('"', ""))
    return {"step", "answer"} <= {cell.strip() for cell in first}


def typed_in(text: str, class_: Class, source: str) -> tuple[list[ReturnSlip], list[Problem]]:
    """A return slip for each student and sheet, in the order of the table, and each thing that could not be used."""
    rows = rows_of(without_mark(text), _separator(text))
    found: _Found = {}
    problems: list[Problem] = []
    try:
        where = _columns(next((row.cells for row in rows), []))
        if isinstance(where, str):
            return [], [Problem(source, "", "", where)]
        codes = {
            (student.roll, f"{task.kind.slug}{f':{task.attempt}' if task.attempt > 1 else ''}"): str(code)
            for student, assigned in class_.every_code()
            for task, code in assigned
        }
        rolls = Rolls(class_.students)
        spelt: dict[Student, str] = {}  # the roll as the table has it first, so that all lines of a sheet are one slip
        for row in rows:
            if any(cell.strip() for cell in row.cells):
                line = f"{source}, line {row.last}"
                cells = {name: _cell(row.cells, at) for name, at in where.items()}
                cells["code"] = cells.get("code", "").upper()
                student = rolls.find(cells.get("roll", ""))
                cells["roll"] = spelt.setdefault(student, cells["roll"]) if student else cells.get("roll", "")
                own = "" if student is None else codes.get((student.roll, cells.get("kind", "").casefold()), "")
                if problem := _take(cells, own, found, line):
                    problems.append(problem)
    except TableError as error:
        problems.append(Problem(source, "", "", _told(error)))
    return [
        ReturnSlip(who, code, answers, {}, source, by_hand=True) for (who, code), answers in found.items()
    ], problems


def _told(error: TableError) -> str:
    if error.too_long:
        return f"Line {error.last} has a cell too long for an answer. What stands above that line is used."
    return (
        f"From line {error.last} on the cells cannot be told apart: a quotation mark that opens a cell must "
        "close it before the next separator. What stands above that line is used."
    )


def _cell(cells: Sequence[str], at: int) -> str:
    return cells[at].strip() if at < len(cells) else ""


def _separator(text: str) -> str:
    return max(SEPARATORS, key=_first_line(text).count)


def _first_line(text: str) -> str:
    return text.lstrip(f"{BYTE_ORDER_MARK}\r\n").partition("\n")[0]


def _columns(heads: Iterable[str]) -> dict[str, int] | str:
    """Where each column is, or a sentence that says what is missing."""
    names = [" ".join(head.casefold().split()) for head in heads]
    where = {name: names.index(name) for name in COLUMNS if name in names}
    wanted = [name for name in ("step", "answer") if name not in where]
    if "code" not in where:
        wanted = [name for name in ("roll", "kind") if name not in where] + wanted
    if not wanted:
        return where
    return (
        f"The first line of this table has no column {' and no column '.join(wanted)}. It must name the columns: "
        "roll and kind, or code; then step and answer, one line an answer."
    )


def _take(row: Mapping[str, str], own: str, found: _Found, line: str) -> Problem | None:
    """Put one line's answer where it belongs; the problem with it, if there is one.

    row   what stands in each column
    own   the code of the sheet that its roll and kind name, or ""
    line  how the line is named
    """
    roll, code, kind = (row.get(name, "") for name in ("roll", "code", "kind"))
    step, answer = row["step"].casefold(), row["answer"]
    if answer[:1] == "'" and answer[1:2] and answer[1] in FORMULA_STARTS:
        answer = answer[1:]  # put before a sign by a table of ours
    slip = ReturnSlip(roll, code, {step: answer}, {}, line)
    if not step:
        return Problem(line, roll, code, "This line names no step, so its answer was not used.", slip)
    if not code:
        code = own
        if not code:
            told = (
                f"There is no sheet of {kind or 'a kind that is not named'} for roll {roll or 'that is not given'} "
                "in this class. Mend the line; its answer was not used."
            )
            return Problem(line, roll, "", told, slip)
    if not answer:
        return None
    names = steps_of(code)
    if names and step not in names:
        told = f"The answer in this line was not used, for {no_such_step(step, names)}. Mend the name."
        return Problem(line, roll, code, told, slip)
    answers = found.setdefault((roll, code), {})
    before, answers[step] = answers.get(step, answer), answer
    if before == answer:
        return None
    told = f"{step} is there twice for this sheet. The later one is used; before it stood “{before[:60]}”."
    return Problem(line, roll, code, told, ReturnSlip(roll, code, {step: before}, {}, line))
