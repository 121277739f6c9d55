"""The revision drill as it stands in the page: its desk, and the questions to answer aloud with folded answers."""

from exercises.student.viva import VIVA, Viva
from exercises.working.mathematics import symbols

BUTTONS = (
    ("er-check-card", "Check"),
    ("er-model", "Show the answer"),
    ("er-had", "I had it"),
    ("er-had-not", "I did not have it"),
    ("er-next", "Next"),
    ("er-forget", "Start over"),
)


def drill() -> str:
    """The desk of the drill; without scripts the questions below are what there is."""
    first = ("er-check-card", "er-model", "er-forget")  # the others come with what they are for
    buttons = "".join(
        f'<button type="button" class="{name}"{"" if name in first else " hidden"}>{label}</button>'
        for name, label in BUTTONS
    )
    return f"""\
<div class="er-drill er-desk">
<div class="er-run er-live" inert>
<p class="er-status" role="status">Python is starting. The first card comes in a moment; the questions below can be \
read.</p>
<div class="er-sheet"><div class="er-card"></div><p class="er-answer" role="status"></p></div>
<div class="er-tools">{buttons}</div>
<p class="er-score" role="status"></p>
</div>
<noscript><p class="er-note">Scripts are off, so there is no drill; the questions below are all there.</p></noscript>
</div>"""


def viva() -> str:
    """Every question to answer aloud, its model answer folded, with a sketch where one would be asked for."""
    return "".join(map(_question, VIVA))


def _question(v: Viva) -> str:
    sketch = f"<!-- figure: {v.sketch} -->" if v.sketch else ""
    read = f'<a href="../../{v.read}">Read about it.</a>'
    return f"<details><summary>{symbols(v.question)}</summary><p>{symbols(v.answer)} {read}</p>{sketch}</details>"
