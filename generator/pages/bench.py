"""The page "Readings at the bench" as it stands before any script runs: ticks, what is asked, and the readings.

One part is shown at a time.  The order of the readings and the plan stand in the page, so that readings can be typed
before Python is there.
"""

import json
from html import escape

from exercises.bench.instrument import EIGHT
from exercises.bench.local_field import PLACES
from exercises.record.beside.asked import HELP
from exercises.record.entries import HEAD, MOST_ROWS
from exercises.record.magnetic_length import CELL, WORDS
from exercises.working.mathematics import symbols
from generator.pages.bench_plan import plan

#: The parts of the page in their order: key, name in the row of parts.
PARTS = (
    ("safety", "Safety"),
    ("setting", "Set up"),
    ("givens", "Givens"),
    ("readings", "Readings"),
    ("end", "End"),
)
NUMBER = 'type="text" inputmode="decimal" autocomplete="off" autocorrect="off" spellcheck="false"'
WORD = 'type="text" autocomplete="off" spellcheck="false"'
SAFETY = (
    "<strong>The laboratory’s own rules and its staff come before anything on this page.</strong> If in doubt, ask.",
    "<strong>Pacemaker or another implanted device?</strong> Do not touch a magnet and do not stand at the bench. "
    "Tell the staff.",
    "<strong>Fingers:</strong> strong magnets jump together. Handle one at a time. Keep them from small children.",
    "<strong>Cards, watches, hearing aids:</strong> two metres away from the magnet.",
    "<strong>This phone</strong> has small magnets in it. They turn the needle, and your magnet can harm the phone. "
    "Two metres away is best: one of you reads, and one types.",
)
#: What is ticked: key, sentence.
TICKS = (
    ("clear", "All other magnets, and iron and steel, are two metres away."),
    ("level", "The board is level. I tapped the glass, and the needle swings freely."),
    ("box", "<strong>First turn, the box alone:</strong> its 0–0 line is parallel to the arms."),
    ("board", "<strong>Second turn, the whole board:</strong> the pointer reads 0–0. The arms lie magnetic east–west."),
    ("place", "The board’s place is marked on the bench."),
    (
        "phone",
        "The phone lies where it will stay. I brought it there and tapped, and the pointer did not move.",
    ),
)
LAST_TICK = (
    "after",
    "I took the magnet two metres away and tapped, and the pointer still reads 0–0. (If it does not, the readings "
    "since you last looked are in doubt.)",
)
OF_PLACE = ("place", "date", "latitude", "longitude")
WHERE = ("latitude", "longitude")  # asked for only where the place is none of the list


def _tick(key: str, html: str) -> str:
    return f'<label class="bn-tick"><input type="checkbox" data-tick="{key}"><span>{html}</span></label>'


def _given(key: str) -> str:
    """A field of what is given, with its help and the place for what is said of it."""
    field = next(f for f in HEAD if f.key == key)
    named = f'id="bn-{key}" data-key="{key}" aria-describedby="bn-{key}-help bn-{key}-said"'
    unit = f' <span class="er-unit">{escape(field.unit)}</span>' if field.unit and field.quantity else ""
    if key == CELL:
        options = "".join(f'<option value="{k}">{escape(words)}</option>' for k, words in WORDS.items())
        control = f'<select {named}><option value="">choose</option>{options}</select>'
    else:
        listed = ' list="bn-places"' if key == "place" else ""
        control = f"<input {NUMBER if field.quantity else WORD} {named}{listed}>"
    when = ' data-when="needed" hidden' if key in WHERE else ""
    return (
        f'<div class="bn-given" data-given="{key}"{when}><label for="bn-{key}">{symbols(field.label)}{unit}</label>'
        f'{control}<small id="bn-{key}-help">{HELP[key]}</small>'
        f'<div class="er-said" id="bn-{key}-said" role="status"></div></div>'
    )


def _part(key: str, title: str, html: str) -> str:
    hidden = "" if key == PARTS[0][0] else " hidden"
    return (
        f'<section class="bn-part" data-part="{key}" aria-labelledby="bn-title-{key}"{hidden}>'
        f'<h2 id="bn-title-{key}" tabindex="-1">{title}</h2>{html}</section>'
    )


def _go(to: str, words: str) -> str:
    return f'<p class="bn-go"><button type="button" class="bn-on" data-to="{to}">{words}</button></p>'


def _safety() -> str:
    items = "".join(f"<li>{html}</li>" for html in SAFETY)
    more = '<p><a href="../../before/precautions/#strong-magnets">More precautions</a></p>'
    return _part("safety", "Safety first", f"<ul>{items}</ul>{more}{_go('setting', 'I keep to this: go on')}")


def _setting() -> str:
    ticks = "".join(_tick(*tick) for tick in TICKS)
    ends = "".join(
        f'<div class="bn-given"><label for="bn-zero-{end}">End {"①②"[end - 1]} <span class="er-unit">degrees</span>'
        f'</label><input {NUMBER} id="bn-zero-{end}" data-zero="{end - 1}" aria-describedby="bn-zero-said"></div>'
        for end in (1, 2)
    )
    return _part(
        "setting",
        "Setting up",
        f'<p>With no magnet near. <a href="../../before/setting-up/">How it is done</a>.</p>{ticks}'
        "<h3>The zero check</h3><p>Tap. How far from its 0 does each end stand? End ① is the one that points east. "
        f'Mark it with a dot of ink beside the scale.</p><div class="bn-pair">{ends}</div>'
        f'<div class="er-said bn-zero-said" id="bn-zero-said" role="status"></div>{_go("givens", "Go on")}',
    )


def _givens() -> str:
    places = "".join(f'<option value="{escape(p.name)}"></option>' for p in PLACES)
    first = "".join(_given(key) for key in (CELL, "length", "two_l", "B_H"))
    place = "".join(_given(key) for key in OF_PLACE)
    return _part(
        "givens",
        "What is needed",
        f'<ul class="bn-notes" hidden></ul><div class="bn-givens">{first}{_given("step")}</div>'
        f'<details class="bn-place"><summary>I have no {symbols("B_H")}: take it from the place and the date</summary>'
        f'<div class="bn-givens">{place}</div></details>'
        f'<datalist id="bn-places">{places}</datalist>'
        f"{_go('readings', 'Go on to the readings')}",
    )


def _row() -> str:
    """One distance with a button for each reading, to be copied; the script gives them their words and values."""
    arms = ""
    for arm in ("east", "west"):
        four = "".join(
            f'<button type="button" class="bn-cell" data-at="{k}"><span>N {north} {"①②"[end - 1]}</span>'
            "<b></b></button>"
            for k, (a, north, end) in enumerate(EIGHT)
            if a == arm
        )
        arms += f'<div class="bn-arm"><span>{arm} arm</span>{four}</div>'
    return (
        '<details class="bn-row"><summary><span class="bn-which"></span> <span class="bn-mean"></span></summary>'
        '<button type="button" class="bn-cell bn-cell-d" data-at="d"><span>d in cm</span><b></b></button>'
        f"{arms}</details>"
    )


def _whole() -> str:
    """The nine fields of a distance on one screen."""

    def field(at: str, label: str, about: str) -> str:
        return (
            f'<div class="bn-given"><label for="bn-whole-{at}">{label}</label>'
            f'<input {NUMBER} enterkeyhint="next" id="bn-whole-{at}" data-at="{at}" aria-label="{about}" '
            'aria-describedby="bn-said"></div>'
        )

    arms = ""
    for arm in ("east", "west"):
        four = "".join(
            field(str(k), f"N {north} {'①②'[end - 1]}", f"{arm} arm, N {north}, end {end}, degrees")
            for k, (a, north, end) in enumerate(EIGHT)
            if a == arm
        )
        arms += f'<div class="bn-arm"><span>{arm} arm</span>{four}</div>'
    return (
        f'<form class="bn-whole" autocomplete="off" hidden>{field("d", "d in cm", "distance d, centimetres")}{arms}'
        '<button type="submit">Next distance</button></form>'
    )


def _readings() -> str:
    return _part(
        "readings",
        "Distance 1",
        f'<div class="bn-card" data-at="d" data-arm="east" data-north="east" data-end="1">{plan()}<div class="bn-ask">'
        '<form class="bn-one" autocomplete="off"><label for="bn-now" class="bn-do">Which d, in cm, from the pivot to '
        f'the middle of the magnet?</label><input {NUMBER} enterkeyhint="next" id="bn-now" '
        'aria-describedby="bn-said"><button type="submit">Next</button></form>'
        '<div class="bn-below"><div class="bn-said" id="bn-said" role="status"></div>'
        '<p class="bn-stop" role="status"></p><p class="bn-why" role="status"></p>'
        f'<button type="button" class="bn-take" hidden></button></div></div></div>{_whole()}'
        '<p class="bn-result" role="status"></p>'
        '<svg class="bn-settles" role="img" hidden></svg><div class="bn-rows"></div>'
        '<p class="bn-go bn-after"><button type="button" class="bn-on" data-to="end">I have all distances: go on'
        "</button></p>"
        f'<template class="bn-template">{_row()}</template>'
        '<label class="bn-tick"><input type="checkbox" class="bn-switch"><span>Show the whole distance on one screen'
        "</span></label>",
    )


def _end() -> str:
    return _part(
        "end",
        "At the end",
        f'{_tick(*LAST_TICK)}<p class="bn-result"></p><p>In the record each column that you work out is checked, and '
        'you get the result with all that was found.</p><p class="bn-go"><button type="button" class="bn-record">Open '
        "the record with all readings</button></p>"
        "<h3>Hand in the readings</h3><p>The return slip is your readings as a short text, just as you typed them.</p>"
        '<form class="bn-slip-form"><label for="bn-who">Your roll number or name</label><input id="bn-who" type="text" '
        'dir="auto" maxlength="160" autocomplete="off" spellcheck="false" aria-describedby="bn-slip-says">'
        '<button type="submit">Make the return slip</button></form>'
        '<p class="bn-slip-says" id="bn-slip-says" role="status"></p><div class="bn-slip-holder" hidden>'
        '<textarea class="er-slip" aria-label="Return slip" dir="ltr" wrap="off" spellcheck="false" readonly>'
        "</textarea>"
        '<div class="er-tools"><button type="button" class="bn-copy">Copy it</button><button type="button" '
        'class="bn-save">Save as a file</button><button type="button" class="bn-share" hidden>Share it</button></div>'
        '<p class="bn-slip-done" role="status"></p></div>'
        "<h3>Another magnet</h3><p>The length is asked anew, and all else that is given stays. Undo brings "
        "these readings back.</p>"
        '<div class="er-tools"><button type="button" class="bn-anew">Begin a new record</button></div>',
    )


def bench() -> str:
    """The HTML of the page."""
    parts = "".join(
        f'<button type="button" data-to="{key}"{" aria-current=step" if key == "safety" else ""}>{name}</button>'
        for key, name in PARTS
    )
    return f"""\
<link rel="stylesheet" href="../../eight/bench.css">
<div class="bn-desk er-desk" data-part="safety" data-rows="{MOST_ROWS}" data-eight="{escape(json.dumps(EIGHT))}">
<noscript><p class="er-note">Scripts are off, so nothing is asked here. Print
<a href="../../before/procedure/">the procedure with a blank table</a> in its place.</p></noscript>
<div class="bn-run er-live" inert>
<p class="er-status" role="status" data-state="starting" data-lead="You can type.">You can type. Warnings come soon.</p>
<nav class="bn-parts" aria-label="Parts of the work">{parts}</nav>
<p class="er-trouble" role="alert" hidden></p>
<button type="button" class="bn-undo" disabled>Undo</button>
{_safety()}{_setting()}{_givens()}{_readings()}{_end()}
</div></div>
<script type="module" src="../../eight/bench.js"></script>"""
