"""The list of who may go to the bench, for each section, with a strip to countersign for each who may."""

from collections.abc import Mapping, Sequence
from html import escape

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.paper import FOOT, head, heading_line, who
from exercises.classroom.class_list.roster import Student
from exercises.classroom.examination.readiness import Shown, shown
from exercises.classroom.marking.marks import Marked, added
from exercises.kinds.kind import Kind
from exercises.working.words import listed, many

#: Roll -> kind -> earned over possible, of what was handed in.
type Shares = Mapping[str, Mapping[str, float]]

#: Common wording; the laboratory's own rules come first.
DECLARATION = (
    "Implanted devices. A magnet can disturb a heart pacemaker, an implanted defibrillator, an insulin pump, a hearing "
    "implant or a shunt with a magnetic valve. Whoever has such a device, or does not know whether theirs is one, does "
    "not handle magnets and does not stand at the bench, and tells the staff before the session. The laboratory’s own "
    "rules and its licensed staff decide. This list does not."
)
DECLARED = (
    "I have read the declaration on implanted devices and the laboratory’s rules. I have no such device, or the staff "
    "know of mine and have decided."
)


def shares_of(sheets: Mapping[str, Marked]) -> dict[str, float]:
    """The shares of one student, of the marked sheets by kind.  A sheet whose steps have no marks shows nothing.

    They are those of the steps: a kind that counts nothing in the total shows readiness too, and being late hides none.
    """
    of_steps = {slug: added(sheet.steps) for slug, sheet in sheets.items()}
    return {slug: earned / possible for slug, (earned, possible) in of_steps.items() if possible}


def ready_html(class_: Class, shares: Shares, css: str) -> str:
    """The whole page; `css` is the style sheet of paper."""
    kinds, absent = class_.ready.counted([task.kind.slug for task in class_.tasks])
    found = [(student, shown(class_.ready, kinds, shares.get(student.roll, {}))) for student in class_.students]
    sections = dict.fromkeys(student.section for student in class_.students)
    notes = _notes(class_, kinds, absent)
    parts = [
        _section(class_, name, kinds, notes, [one for one in found if one[0].section == name]) for name in sections
    ]
    return head("Ready for the bench", css) + "".join(parts) + FOOT


def _notes(class_: Class, kinds: Sequence[Kind], absent: Sequence[Kind]) -> str:
    """What it takes to be on the list, as HTML."""
    if not kinds:
        names = listed([kind.listing.name for kind in absent], "or")
        return f"<p>This class is not set {escape(names)}, so nothing shows who is ready.</p>"
    names = listed([kind.listing.name for kind in kinds])
    told = f"Ready: at least {class_.ready.percent:g} % of the marks in {'each of ' if len(kinds) > 1 else ''}{names}."
    if absent:
        told += f" This class is not set {listed([kind.listing.name for kind in absent], 'or')}."
    return f"<p>{escape(told)}</p>"


def _section(
    class_: Class, name: str, kinds: Sequence[Kind], notes: str, found: Sequence[tuple[Student, Shown]]
) -> str:
    ready = [student for student, one in found if one.ready]
    title = f"Ready for the bench: section {name}" if name else "Ready for the bench"
    heads = "".join(f'<th scope="col">{escape(kind.listing.name)}</th>' for kind in kinds)
    rows = "".join(_row(student, one) for student, one in found)
    columns = 3 + len(kinds)
    strips = "".join(_strip(class_, student) for student in ready)
    return (
        f'<section class="ex-section"><p class="ex-declared">{escape(DECLARATION)}</p>'
        f'<div class="er-scroll" tabindex="0" role="group" aria-label="{escape(title)}">'
        f'<table class="ex-list"><thead><tr><td colspan="{columns}">{heading_line(class_.heading)}'
        f"<p><strong>{escape(title)}</strong></p></td></tr>"
        f'<tr><th scope="col">roll</th><th scope="col">name</th>{heads}<th scope="col">to the bench</th></tr></thead>'
        f"<tbody>{rows}</tbody></table></div>{notes}"
        f"<p>{many(len(ready), 'student')} of {len(found):,} may go to the bench when the strip is countersigned.</p>"
        f'<div class="cl-strips">{strips}</div></section>\n'
    )


def _row(student: Student, one: Shown) -> str:
    cells = "".join(f"<td>{'–' if share is None else f'{_percent(share)} %'}</td>" for share in one.shares)
    return (
        f'<tr><th scope="row"><bdi>{escape(student.roll)}</bdi></th><td><bdi>{escape(student.name)}</bdi></td>{cells}'
        f"<td>{'ready' if one.ready else 'not yet'}</td></tr>"
    )


def _percent(share: float) -> str:
    """A share in per cent, never rounded up to a mark that was not reached."""
    return f"{int(share * 1000 + 1e-6) / 10:g}"


def _strip(class_: Class, student: Student) -> str:
    lines = "".join(f'<p class="ex-line">{what} <span></span></p>' for what in ("Student", "Countersigned", "Date"))
    return (
        f'<div class="cl-strip ex-strip">{heading_line(class_.heading)}<p><strong>{who(student)}</strong></p>'
        f"<p>Ready for the bench</p><small>{escape(DECLARED)}</small>{lines}</div>"
    )
