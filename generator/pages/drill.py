"""The examiner's questions as they stand in the page: the desk, and those to answer aloud with folded answers."""

from exercises.student.viva import VIVA, Viva
from exercises.working.mathematics import symbols

BUTTONS = (
    ("er-answer-it", "Answer"),
    ("er-model", "Model answer"),
    ("er-had", "I said that"),
    ("er-had-not", "I did not"),
    ("er-next", "Next question"),
)


def drill() -> str:
    """The desk of the examiner's questions; without scripts the questions below are what there is."""
    first = ("er-answer-it", "er-model")  # the others come with what they are for
    buttons = "".join(
        f'<button type="button" class="{name}"{"" if name in first else " hidden"}>{label}</button>'
        for name, label in BUTTONS
    )
    return f"""\
<div class="er-drill er-desk">
<div class="er-run er-live" inert>
<p class="er-status" role="status" data-state="starting" data-lead="Your first question is on the way.">Your \
first question is on the way. Read those below meanwhile.</p>
<div class="er-sheet er-examiner"><div class="er-question"></div>
<div class="er-tools">{buttons}</div>
<p class="er-answer" role="status"></p></div>
<section class="er-notebook" aria-label="Your notebook">
<p><strong>Asked so far:</strong> <span class="er-score">0</span>
<button type="button" class="er-forget">New page</button></p><ol></ol></section>
</div>
<noscript><p class="er-note">Scripts are off, so nothing is asked here; the questions below are there.</p></noscript>
</div>"""


def viva() -> str:
    """Every question to answer aloud, its model answer folded, with a sketch where one would be asked for."""
    return "".join(map(_question, VIVA))


def _question(v: Viva) -> str:
    sketch = f"<!-- figure: {v.sketch} -->" if v.sketch else ""
    read = f'<a href="../../{v.read}">Read about it.</a>'
    return f"<details><summary>{symbols(v.question)}</summary><p>{symbols(v.answer)} {read}</p>{sketch}</details>"
