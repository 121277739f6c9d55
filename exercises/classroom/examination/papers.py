"""The papers of a practical examination: a student's sheet without hints, and the examiner's page for it."""

from html import escape

from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.paper import framed
from exercises.classroom.class_list.prints import for_paper, key_groups, room, title_line
from exercises.classroom.class_list.roster import Student
from exercises.classroom.examination.mark_sheet import PARTS, Weights, total
from exercises.classroom.examination.viva_draw import drawn
from exercises.kinds.kind import Sheet
from exercises.kinds.rendering import render
from exercises.working.mathematics import symbols

TITLE = "Practical examination"
#: By kind, the columns whose titles tell a part of the formula.
TELLS = {
    "tan-a": ("bracket",),
    "tan-b": ("bracket",),
    "earth": ("bracket",),
    "compare": ("bracket-1", "bracket-2", "near-1", "far-1", "near-2", "far-2"),
    "distances": ("cube", "correction"),
    "uncertainty": ("u-mean", "sensitivity", "expanded"),
}
UNNAMED = "intermediate value"


def examination_sheet(student: Student, sheet: Sheet, heading: Heading) -> str:
    """The sheet of one student: what is given and observed, and room for the answers; no formula, no hint, no link."""
    code = str(sheet.scenario.code)
    asked = render(sheet, with_formula=False)
    for title in {s.title for s in sheet.working.steps if s.column in TELLS.get(sheet.kind.slug, ())}:
        asked = asked.replace(symbols(title), UNNAMED)
    body = title_line(f"{TITLE}: {sheet.kind.title}", "Marks") + for_paper(asked, code) + room(sheet)
    return framed("cl-page", heading, student, "", code, body)


def examiner_page(student: Student, sheet: Sheet, heading: Heading, weights: Weights) -> str:
    """What the examiner alone has of one student: the mark sheet, the viva with model answers, and the key."""
    body = _mark_sheet(weights) + _viva(sheet) + f"<h4>Key</h4>{key_groups(student, sheet)}"
    title = f"{TITLE}, for the examiner: {sheet.kind.title}"
    return framed("cl-page ex-page", heading, student, title, str(sheet.scenario.code), body)


def _mark_sheet(weights: Weights) -> str:
    marks = dict(weights)
    rows = "".join(
        f'<tr><th scope="row">{escape(part.title)}</th><td>{"<br>".join(map(escape, part.looked_for))}</td>'
        f"<td>{marks[part.key]:g}</td><td></td></tr>"
        for part in PARTS
    )
    return (
        '<table class="ex-marks"><thead><tr><th scope="col">part</th><th scope="col">what is looked for</th>'
        f'<th scope="col">out of</th><th scope="col">given</th></tr></thead><tbody>{rows}'
        f'<tr><th scope="row">Total</th><td>Examiner, date</td><td>{total(weights):g}</td><td></td></tr>'
        "</tbody></table>"
    )


def _viva(sheet: Sheet) -> str:
    asked = "".join(f"<li><strong>{one.question}</strong><br>Model answer: {one.answer}</li>" for one in drawn(sheet))
    return f'<h4>Viva</h4><ol class="ex-viva">{asked}</ol>'
