"""The controls of a laboratory's conventions, as they stand in the class desk and under New numbers."""

from html import escape

from exercises.codes.conventions import CHOICES, OPEN, Choice
from exercises.working.mathematics import symbols

LEFT = "left to the draw"


def controls(prefix: str, of_a_kind: bool = False) -> str:
    """A labelled control for each choice.

    prefix     of their ids
    of_a_kind  for one kind alone: left blank, each is as for all kinds; the page's script puts the kind's slug after
               each id and into data-kind, and its name into the empty part of each label
    """
    return "".join(_control(choice, prefix, of_a_kind) for choice in CHOICES)


def _control(choice: Choice, prefix: str, of_a_kind: bool) -> str:
    about = f"{prefix}{choice.key}{'-' if of_a_kind else ''}"
    named = f'id="{about}" data-word="{choice.key}" data-kind=""'
    hidden = '<span class="cd-hidden"></span>' if of_a_kind else ""
    if choice.offered:
        control = f"<select {named}>{_options(choice, of_a_kind)}</select>"
    else:
        blank = f"as above, or {OPEN}" if of_a_kind else LEFT
        control = f'<input type="text" {named} autocomplete="off" spellcheck="false" placeholder="{blank}">'
    return f'<div><label for="{about}">{symbols(choice.label)}{hidden}</label>{control}</div>'


def _options(choice: Choice, of_a_kind: bool) -> str:
    shown = {"": dict(choice.offered).get(choice.usual, LEFT)} | {
        text: words for text, words in choice.offered if text != choice.usual
    }
    if of_a_kind:
        shown = {"": "as above"} | ({OPEN: LEFT} if choice.usual == OPEN else {}) | dict(choice.offered)
    return "".join(f'<option value="{escape(text)}">{escape(words)}</option>' for text, words in shown.items())
