"""On the class desk: which of several slips counts, for the instructor to choose; and the laboratory records."""

from collections.abc import Sequence
from html import escape

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.desk.folded import SHOWN, folded, shown_student
from exercises.classroom.marking.intake import HandedRecord
from exercises.classroom.marking.order import described
from exercises.classroom.marking.several import Several
from exercises.classroom.report.records import found_in
from exercises.return_slip.text import check_of
from exercises.working.mathematics import symbols
from exercises.working.words import many

RECORDS = 60  # of which the page says what they come to; records.csv has all


def choices(several: Sequence[Several]) -> str:
    """Each sheet of which several slips came in that differ, as HTML: which counts, and a way to choose another.

    A choice is a radio button: its name is “counts:” and the key of the sheet, its value the check of a slip, or "" for
    what the scheme says.
    """
    asked = sorted(several, key=lambda one: one.why != "unknown")
    questions = sum(one.why == "unknown" for one in asked)
    if not asked:
        return ""
    told = f"Which slip counts ({len(asked):,})"
    if questions:
        told += f": of {questions:,} it is not known, choose"
    rest = f'<p class="cd-note">And {len(asked) - SHOWN:,} more.</p>' if len(asked) > SHOWN else ""
    fields = "".join(_choice(number, one) for number, one in enumerate(asked[:SHOWN], 1))
    return f"<details{' open' if questions else ''}><summary>{told}</summary>{fields}{rest}</details>"


def _choice(number: int, one: Several) -> str:
    name = escape(f"counts:{one.key}")
    chosen = check_of(one.counted.slip) if one.why == "chosen" else ""
    options = [("", _by_the_scheme(one))]
    for at, coming in enumerate(one.slips, 1):
        check = check_of(coming.slip)
        stands = ", which counts now" if coming is one.counted else ""
        options.append((check, f"{at}. Slip {check}, from {described(coming)}{stands}"))
    fields = "".join(
        f'<p class="cd-check"><input type="radio" id="cd-counts-{number}-{at}" name="{name}" value="{value}"'
        f'{" checked" if value == chosen else ""}><label for="cd-counts-{number}-{at}">{escape(label)}</label></p>'
        for at, (value, label) in enumerate(options)
    )
    return f'<fieldset class="cd-choice"><legend>{escape(one.about)}</legend>{fields}</fieldset>'


def _by_the_scheme(one: Several) -> str:
    if one.why == "unknown":
        return f"Not chosen yet: the {one.which} one counts, but it is not known which one that is"
    return f"Not chosen: the {one.which} one counts"


def records(found: Sequence[HandedRecord], class_: Class) -> str:
    """The laboratory records that came in, as HTML: what each comes to, and the gravest thing that was found."""
    lines = []
    for record in found[:RECORDS]:
        who = shown_student(record.student) if record.student else f"<bdi>{escape(record.return_slip.who)}</bdi>"
        counts = "" if record.counts else " (does not count)"
        said = symbols(found_in(record.return_slip, class_).said)
        lines.append(f"{who}{counts}: {said} {escape(' '.join(record.notes))}".rstrip())
    if len(found) > RECORDS:
        lines.append(f"And {many(len(found) - RECORDS, 'more record', 'more records')}; records.csv has all.")
    return folded("Laboratory records", lines)
