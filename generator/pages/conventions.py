"""The controls of a laboratory's conventions, as they stand in the class desk and under New numbers."""

from html import escape

from exercises.codes.conventions import CHOICES, OPEN, Choice
from exercises.working.mathematics import symbols

LEFT = "left to the draw"


def controls(prefix: str, kind: str = "", whose: str = "") -> str:
    """A labelled control for each choice.

    prefix  of their ids
    kind    the slug of the one kind that they are for: left blank, each is as for all kinds
    whose   what a screen reader says after the label
    """
    return "".join(_control(choice, prefix, kind, whose) for choice in CHOICES)


def _control(choice: Choice, prefix: str, kind: str, whose: str) -> str:
    about = f"{prefix}{choice.key}{f'-{kind}' if kind else ''}"
    named = f'id="{about}" data-word="{choice.key}" data-kind="{kind}"'
    hidden = f'<span class="cd-hidden">{escape(whose)}</span>' if whose else ""
    if choice.offered:
        control = f"<select {named}>{_options(choice, bool(kind))}</select>"
    else:
        blank = f"as above, or {OPEN}" if kind else LEFT
        control = f'<input type="text" {named} autocomplete="off" spellcheck="false" placeholder="{blank}">'
    return f'<div><label for="{about}">{symbols(choice.label)}{hidden}</label>{control}</div>'


def _options(choice: Choice, of_a_kind: bool) -> str:
    shown = {"": dict(choice.offered).get(choice.usual, LEFT)} | {
        text: words for text, words in choice.offered if text != choice.usual
    }
    if of_a_kind:
        shown = {"": "as above"} | ({OPEN: LEFT} if choice.usual == OPEN else {}) | dict(choice.offered)
    return "".join(f'<option value="{escape(text)}">{escape(words)}</option>' for text, words in shown.items())
