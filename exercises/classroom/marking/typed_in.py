"""Answers copied from paper: a table with one line an answer becomes return slips.

Its first line names the columns, in any order: code, or roll and kind; then step
and answer.  It may come from any spreadsheet, with commas, semicolons or tabs.
"""

import csv
import io
from collections.abc import Iterable

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roster import FORMULA_STARTS, same_roll
from exercises.return_slip.text import Problem, ReturnSlip

COLUMNS = ("roll", "code", "kind", "step", "answer")
SEPARATORS = "\t;,"


def typed_in(text: str, made: Class, source: str) -> tuple[list[ReturnSlip], list[Problem]]:
    """A slip for each student and sheet, in the order of the table, and what could not be used, each with a sentence."""
    reader = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), delimiter=_separator(text), strict=True)
    gathered: dict[tuple[str, str], dict[str, str]] = {}
    problems: list[Problem] = []
    try:
        where = _columns(next(reader, []))
        if isinstance(where, str):
            return [], [Problem(source, "", "", where)]
        codes = {
            (same_roll(student.roll), task.kind.slug): str(code)
            for student, given in made.codes()
            for task, code in given
        }
        for cells in reader:
            if any(cell.strip() for cell in cells):
                _take(cells, where, codes, gathered, problems, f"{source}, line {reader.line_num}")
    except csv.Error as error:
        long = f"Line {reader.line_num} has a cell too long for an answer. What stands above that line is used."
        told = (
            long
            if "limit" in str(error)
            else (
                f"From line {reader.line_num} on the cells cannot be told apart: a quotation mark that opens a cell must "
                "close it before the next separator. What stands above that line is used."
            )
        )
        problems.append(Problem(source, "", "", told))
    return [ReturnSlip(who, code, answers, {}, source) for (who, code), answers in gathered.items()], problems


def _separator(text: str) -> str:
    first = text.lstrip("\ufeff\r\n").partition("\n")[0]
    return max(SEPARATORS, key=first.count)


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


def _take(cells, where, codes, gathered, problems, line: str) -> None:
    """Put one line's answer where it belongs, or a problem among the others."""
    found = {name: cells[at].strip() if at < len(cells) else "" for name, at in where.items()}
    roll, code, kind = (found.get(name, "") for name in ("roll", "code", "kind"))
    step, answer = found["step"].casefold(), found["answer"]
    if answer[:1] == "'" and answer[1:2] and answer[1] in FORMULA_STARTS:
        answer = answer[1:]  # put before a sign by a table of ours
    slip = ReturnSlip(roll, code, {step: answer}, {}, line)
    if not step:
        problems.append(Problem(line, roll, code, "This line names no step, so its answer was not used.", slip))
        return
    if not code:
        code = codes.get((same_roll(roll), kind.casefold()), "")
        if not code:
            told = f"There is no sheet of {kind or 'a kind that is not named'} for roll {roll or 'that is not given'} in this class."
            problems.append(Problem(line, roll, "", f"{told} Mend the line; its answer was not used.", slip))
            return
    answers = gathered.setdefault((roll, code), {})
    if answer and answers.get(step, answer) != answer:
        told = f"{step} is there twice for this sheet. The later one is used; before it stood “{answers[step][:60]}”."
        problems.append(Problem(line, roll, code, told, ReturnSlip(roll, code, {step: answers[step]}, {}, line)))
    if answer:
        answers[step] = answer
