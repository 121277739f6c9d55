"""The class desk as it stands in the page before any script runs: every control, with its label, not yet usable.

The choices come from Python; site_assets/class.js makes the controls usable
once Python is there.
"""

from html import escape

from exercises.classroom.class_list.codes import SHORTEST_PHRASE
from exercises.classroom.class_list.heading import ASKED, LONGEST
from exercises.classroom.class_list.roster import MOST_STUDENTS
from exercises.classroom.examination.mark_sheet import PARTS
from exercises.classroom.examination.readiness import USUAL as READY
from exercises.classroom.examination.readiness import USUAL_PERCENT
from exercises.codes.convention_text import FIELD_LIMITS
from exercises.codes.conventions import OPEN
from exercises.files import text
from exercises.kinds.kind import listed_kinds
from exercises.return_slip import files as returned_files
from exercises.working.mathematics import symbols
from generator.pages.conventions import controls

SLIPS_LABEL = (
    "Return slips: any number of files with the text of slips, mails or chats, or tables of answers copied from paper "
    "(choose them, or drop them here)"
)
MARKS_LABEL = "A marks file of before (marks.json), if there is one: what comes in now joins it"


def class_desk() -> str:
    """The whole desk."""
    parts = "".join((_given(), _students(), _key(), _returned(), _marks()))
    return f"""\
<link rel="stylesheet" href="../../eight/class.css">
<div class="cd" data-largest="{text.LARGEST}" data-largest-returned="{returned_files.LARGEST}">
<p class="cd-private">Nothing leaves this browser: the class is made, and work is marked, on this device. The class file
holds the class phrase; whoever has it can make every code and key, so keep it from students.</p>
<noscript><p class="er-note">Scripts are off, so nothing can be made here. The command \
<code>eight class</code> makes the
same files on a machine that has the project.</p></noscript>
<p class="er-status" role="status" data-state="starting" data-lead="Getting ready:">The \
class desk is being made ready.</p>
<div class="cd-progress" hidden><label for="cd-progress">Working</label> \
<progress id="cd-progress" max="1" value="0"></progress>
<span class="cd-so-far"></span> <button type="button" id="cd-stop">Stop</button></div>
{parts}
</div>
<script type="module" src="../../eight/class.js"></script>"""


def _section(name: str, title: str, body: str, needs_class: bool = True) -> str:
    """A fieldset, disabled until the script enables it, with a place for what is wrong."""
    empty = '<p class="cd-empty">There is no class yet. Make one above, or open its file.</p>' if needs_class else ""
    inner = f'{empty}<div class="cd-body" hidden>{body}</div>' if needs_class else body
    return f'<fieldset class="cd-part" id="cd-{name}" disabled><legend>{title}</legend>{inner}</fieldset>\n'


def _wrong(control: str) -> str:
    """Where a sentence on what is wrong with a control is put."""
    return f'<p class="cd-wrong" id="cd-{control}-wrong" data-about="{control}" role="alert" hidden></p>'


def _file(name: str, label: str, more: str = "") -> str:
    return (
        f'<div class="cd-drop" data-drop="{name}"><label for="cd-{name}">{label}</label>'
        f'<input type="file" id="cd-{name}" {more} aria-describedby="cd-{name}-wrong"></div>{_wrong(name)}'
    )


def _given() -> str:
    kinds = "".join(_kind(kind.slug, kind.title, ticked=not at) for at, kind in enumerate(listed_kinds()))
    return _section(
        "given",
        "1. The class",
        f"""
<form id="cd-class-form" autocomplete="off" novalidate>
{_file("list-file", "Class list, a CSV file (choose it, or drop it here)", 'accept=".csv,.txt,.tsv,text/*"')}
<label for="cd-list">Or paste cells from a spreadsheet, or write roll numbers such as 1–60</label>
<textarea id="cd-list" name="list" rows="6" spellcheck="false" aria-describedby="cd-list-wrong cd-list-note"></textarea>
<p class="cd-note" id="cd-list-note">One student a line: a roll number and, if you like, a name. At most \
{MOST_STUDENTS:,} students.</p>
{_wrong("list")}
<div id="cd-columns"></div>
<div class="cd-two"><div><label for="cd-phrase">Class phrase</label>
<input type="text" id="cd-phrase" name="phrase" spellcheck="false" autocapitalize="off" \
aria-describedby="cd-phrase-wrong cd-phrase-note">
<p class="cd-note" id="cd-phrase-note">At least {SHORTEST_PHRASE} characters that no student guesses. The same phrase \
gives the same codes.</p>
{_wrong("phrase")}</div>
<div><label for="cd-site">Address of the site, for the addresses of the sheets</label>
<input type="url" id="cd-site" name="site" spellcheck="false" \
aria-describedby="cd-site-wrong">{_wrong("site")}</div></div>
{_heading()}
<div class="cd-kinds" role="group" aria-labelledby="cd-kinds-title" aria-describedby="cd-kinds-wrong">
<p id="cd-kinds-title"><strong>Kinds of exercise</strong></p>
<div class="cd-settings">{controls("cd-")}</div>
<p class="cd-note">These hold for every kind that is ticked. A kind may have settings of its own: what is “as above”
there is as it is here, and “{OPEN}” in a field leaves it to the draw. The three about {symbols("B_H")} are one choice:
drawn by place and date, a place in a month, or a value of your own from {FIELD_LIMITS[0]} to {FIELD_LIMITS[1]} µT.</p>
{kinds}<template><div class="cd-settings">{controls("cd-", of_a_kind=True)}</div></template></div>{_wrong("kinds")}
{_bench()}
<p class="cd-tools"><button type="submit" class="cd-main">Make the class</button></p>
</form>
{_file("class-file", "Or open a class file (class.json)", 'accept=".json,application/json"')}
<p class="cd-said" id="cd-class-said" role="status"></p>
<p class="cd-check"><input type="checkbox" id="cd-keep"><label for="cd-keep">Keep this class, with its phrase, on this
device after the page is closed (not on a machine that others use)</label></p>
""",
        needs_class=False,
    )


def _heading() -> str:
    """The lines at the top of every paper."""
    fields = "".join(
        f'<div><label for="cd-heading-{line}">{asked}</label><input type="text" id="cd-heading-{line}" '
        f'data-heading="{line}" maxlength="{LONGEST}"></div>'
        for line, asked in ASKED.items()
    )
    return (
        '<div class="cd-heading" role="group" aria-labelledby="cd-heading-title" '
        'aria-describedby="cd-heading-wrong"><p id="cd-heading-title"><strong>Heading of the papers</strong></p>'
        '<p class="cd-note">If you like: it stands at the top of every paper of the class.</p>'
        f'<div class="cd-two">{fields}</div></div>{_wrong("heading")}'
    )


def _bench() -> str:
    """What shows who may go to the bench, and what the parts of a practical examination count."""
    kinds = "".join(
        f'<p class="cd-check"><input type="checkbox" id="cd-ready-{kind.slug}" name="ready" value="{kind.slug}"'
        f"{' checked' if kind.slug in READY else ''}>"
        f'<label for="cd-ready-{kind.slug}">{escape(kind.listing.name)}</label></p>'
        for kind in listed_kinds()
    )
    parts = "".join(
        f'<div><label for="cd-weight-{part.key}">{part.title}, marks</label><input type="text" inputmode="decimal" '
        f'id="cd-weight-{part.key}" data-weight="{part.key}" value="{part.usual:g}"></div>'
        for part in PARTS
    )
    return (
        '<details class="cd-own"><summary>Who may go to the bench, and the marks of a practical examination</summary>'
        '<div role="group" aria-labelledby="cd-ready-title" aria-describedby="cd-ready-wrong">'
        '<p id="cd-ready-title"><strong>Ready for the bench</strong></p><p class="cd-note">The list to print '
        "under Marks names who has this mark in each kind that is ticked here and that the class is set.</p>"
        f'<div class="cd-settings">{kinds}</div><div class="cd-two"><div><label for="cd-ready-percent">At least, '
        f'in per cent</label><input type="text" inputmode="decimal" id="cd-ready-percent" value="{USUAL_PERCENT:g}">'
        "</div></div></div>"
        '<div role="group" aria-labelledby="cd-examination-title" aria-describedby="cd-examination-wrong">'
        '<p id="cd-examination-title"><strong>Mark sheet of a practical examination</strong></p>'
        f'<div class="cd-settings">{parts}</div></div></details>{_wrong("ready")}{_wrong("examination")}'
    )


def _kind(slug: str, title: str, ticked: bool) -> str:
    """A kind to tick.  Its own settings are put in from the page's template when they are looked at."""
    checked = " checked" if ticked else ""
    return (
        f'<div class="cd-kind"><p class="cd-check"><input type="checkbox" id="cd-kind-{slug}" name="kind" '
        f'value="{slug}"{checked}>'
        f'<label for="cd-kind-{slug}">{escape(title)}</label></p>'
        f'<details class="cd-own" data-kind="{slug}"><summary>settings of its own<span class="cd-hidden"> for '
        f"{escape(title)}</span></summary></details></div>"
    )


def _save(name: str, label: str, paper: bool = False) -> str:
    """What is saved, with its buttons."""
    printing = (
        f' <button type="button" data-print="{name}">Print<span class="cd-hidden"> {label}</span></button>'
        if paper
        else ""
    )
    return (
        f'<li><span>{label} <small>{name}</small></span> <span class="cd-tools">'
        f'<button type="button" data-save="{name}">Save'
        f'<span class="cd-hidden"> {label}</span></button>{printing}</span></li>'
    )


def _students() -> str:
    saves = (
        _save("codes.csv", "Codes and addresses, as a table")
        + _save("codes.xlsx", "The same as a workbook: a spreadsheet leaves rolls such as 0031 as they are")
        + _save("sheets.html", "Sheets to print, one a student and kind", paper=True)
        + _save("slips.html", "Code strips, to cut", paper=True)
        + _save("examination.html", "Practical examination: sheets without formula or hint", paper=True)
        + _save("class.json", "The class file, for you alone")
    )
    return _section(
        "students",
        "2. For the students",
        f"""
<div class="cd-scroll" tabindex="0" role="region" aria-label="The first students and their codes">\
<table class="cd-table" id="cd-preview"></table></div>
<ul class="cd-records" id="cd-records"></ul>
<p class="cd-note" id="cd-alike" role="status"></p>
<p class="cd-check"><label for="cd-attempt">These files are of attempt</label> <select id="cd-attempt">\
<option>1</option></select></p>
<ul class="cd-saves">{saves}</ul>{_wrong("students")}
<details class="cd-paper"><summary>A further attempt, with new numbers</summary>
<form id="cd-again" autocomplete="off" novalidate><div class="cd-two">
<div><label for="cd-again-attempt">Which attempt it is</label>
<input type="text" inputmode="numeric" id="cd-again-attempt" value="2" aria-describedby="cd-again-wrong"></div>
<div><label for="cd-again-rolls">For whom: rolls such as 7, 9-12 (blank: everyone)</label>
<input type="text" id="cd-again-rolls" spellcheck="false" aria-describedby="cd-again-wrong"></div></div>
<p class="cd-note">The codes of the attempts before stay what they are. Save the class file afterwards.</p>
<p class="cd-tools"><button type="submit">Make its codes</button></p>{_wrong("again")}</form></details>
""",
    )


def _key() -> str:
    saves = (
        _save("key.csv", "The key, as a table")
        + _save("key.html", "The key, to print", paper=True)
        + _save("working.html", "The key with all its working, to print", paper=True)
        + _save("examiner.html", "Practical examination: mark sheets, viva and key, for the examiner", paper=True)
    )
    return _section(
        "key",
        "3. The key",
        f"""
<p>Every step’s value, and the interval that correct working can reach. For you alone.</p>
<ul class="cd-saves">{saves}</ul>{_wrong("key")}
""",
    )


def _returned() -> str:
    return _section(
        "returned",
        "4. Returned work",
        f"""
{_file("marks-file", MARKS_LABEL, 'accept=".json,application/json"')}
{_file("slips", SLIPS_LABEL, "multiple")}
<label for="cd-pasted">Or paste the text of one slip or many</label>
<textarea id="cd-pasted" rows="4" spellcheck="false" aria-describedby="cd-pasted-wrong"></textarea>{_wrong("pasted")}
<p class="cd-tools"><button type="button" id="cd-add-pasted">Add what is pasted</button></p>
<details class="cd-paper" id="cd-paper"><summary>Type in work that came on paper</summary>
<form id="cd-paper-choice" autocomplete="off" novalidate><div class="cd-two"><div>\
<label for="cd-who">Roll number or name</label>
<input type="text" id="cd-who" list="cd-students-list" spellcheck="false" aria-describedby="cd-who-wrong">\
<datalist id="cd-students-list"></datalist></div>
<div><label for="cd-paper-kind">Kind of exercise</label><select id="cd-paper-kind"></select></div></div>{_wrong("who")}
<p class="cd-tools"><button type="submit">Open the form of this sheet</button></p></form>
<form id="cd-paper-form" autocomplete="off" novalidate></form></details>
<p class="cd-said" id="cd-returned-said" role="status"></p>
<div id="cd-intake"></div>
""",
    )


def _marks() -> str:
    saves = (
        _save("marks.csv", "Marks, as a table")
        + _save("marks.xlsx", "The same as a workbook: a spreadsheet leaves rolls such as 0031 as they are")
        + _save("book.csv", "Roll and mark alone, for a mark book")
        + _save("students.html", "Pages for students: what was marked and why", paper=True)
        + _save("not-marked.csv", "What is not marked, as a table")
        + _save("ready.html", "Who may go to the bench, with strips to countersign", paper=True)
        + _save("report.html", "The report on the class", paper=True)
        + _save("records.csv", "The laboratory records that came in, as a table")
        + _save("marks.json", "The marks file: what came in, the scheme, what was set by hand")
    )
    return _section(
        "marks",
        "5. Marks",
        f"""
<form id="cd-scheme" autocomplete="off" novalidate></form>
<p class="cd-tools"><button type="button" id="cd-mark" class="cd-main">Mark</button></p>
<div class="cd-answer">{_wrong("marks")}
<p class="cd-said" id="cd-marks-said" role="status"></p></div>
<div id="cd-marked" hidden>
<div class="cd-scroll" tabindex="0" role="region" aria-label="Marks">\
<table class="cd-table" id="cd-marks-table"></table></div>
<div id="cd-notes"></div>
<details class="cd-paper"><summary>Set a mark by hand, days late, or excuse a student</summary>
<form id="cd-hand-choice" autocomplete="off" novalidate><div class="cd-two"><div>\
<label for="cd-by-hand-who">Roll number or name</label>
<input type="text" id="cd-by-hand-who" list="cd-students-list" spellcheck="false" \
aria-describedby="cd-by-hand-who-wrong"></div>
<div><label for="cd-hand-sheet">Kind of exercise</label><select id="cd-hand-sheet"></select></div></div>\
{_wrong("by-hand-who")}
<p class="cd-tools"><button type="submit">Open the marks of this sheet</button></p></form>
<form id="cd-hand-form" autocomplete="off" novalidate></form>{_wrong("by-hand")}</details>
<ul class="cd-saves">{saves}</ul>
<h2 class="cd-hidden" id="cd-report-title">The report</h2>
<div id="cd-report" class="rp-report"></div></div>
""",
    )
