"""The exercise as it stands in the page: the desk around a static sheet.

Before any script runs this is a whole sheet on paper with its answers folded
away; the script turns it into the student's own.  What only the script can
work has its room from the start, so that nothing moves when it comes: it is
inert until then, and is not there (.er-live) where scripts are off.
"""

from html import escape

from exercises.kinds.kind import Sheet
from exercises.kinds.rendering import render_static
from generator.pages.code_check import code_check
from generator.pages.conventions import controls

#: Below the sheet, once Python is there: the return slip.
HAND_IN = """\
<section class="er-handin" aria-labelledby="er-handin-title" hidden>
<h2 id="er-handin-title">Hand in</h2>
<p>The return slip is your answers as a short text, just as you typed them. Hand it in as your instructor asks:
in a message, by mail, as a file, or as a photograph of the screen.</p>
<form class="er-handin-form"><label for="er-who">Your roll number or name</label>
<div class="er-handin-row"><input id="er-who" type="text" dir="auto" maxlength="160" autocomplete="off" \
spellcheck="false">
<button type="submit">Make the return slip</button></div></form>
<p class="er-handin-says" role="status"></p>
<div class="er-slip-holder" hidden>
<p class="er-older" role="status"></p>
<textarea class="er-slip" aria-label="Return slip" dir="ltr" wrap="off" spellcheck="false" readonly></textarea>
<div class="er-tools"><button type="button" class="er-copy">Copy it</button>
<button type="button" class="er-save">Save as a file</button></div>
<p class="er-slip-says" role="status"></p>
<p class="er-slip-note">Each line ends in a check, so that a mistake on the way is noticed: send it whole, and change \
nothing in it.
“hand-in” counts the slips that you made of this sheet on this device, “written” is the hour by its clock, and \
“first” is what you typed first at a step that you changed. In braces stand characters that may not arrive: {^-3} is \
a raised −3.</p>
</div>
</section>"""


#: What new numbers are made by; it is kept on the device.
CONVENTIONS = f"""\
<details class="er-conventions er-live" inert>\
<summary>New numbers by your laboratory’s own conventions<span class="er-conventions-set"></span></summary>
<form autocomplete="off" novalidate><div class="er-conventions-in">{controls("er-new-")}</div>
<p>They hold for New numbers of every exercise and are kept on this device. Ask your instructor which your laboratory
keeps to; if you were given a sheet code, it has them in it already.</p>
<div class="er-tools"><button type="submit">New numbers by these</button>
<button type="reset">As usual</button></div></form></details>"""


def desk(slug: str, sheet: Sheet) -> str:
    """The HTML of the desk of a kind, with the static sheet of one code in it.  ValueError if it is of another kind."""
    if sheet.kind.slug != slug:
        raise ValueError(f"the code {sheet.scenario.code} is one of {sheet.kind.slug}, not of {slug}")
    return f"""\
<div class="er-desk" data-kind="{slug}">
<div class="er-bar er-live" inert>
<p class="er-status" role="status" data-lead="Your numbers are on the way.">Your \
numbers are on the way. You can read meanwhile.</p>
<form class="er-code-form" data-rule="{escape(code_check(sheet.kind))}"><label for="er-code">Sheet code</label>
<input id="er-code" type="text" autocomplete="off" autocapitalize="characters" spellcheck="false" size="20">
<button type="submit">Open</button></form>
<div class="er-tools"><button type="button" class="er-fresh">New numbers</button>
<button type="button" class="er-print" disabled>Print this sheet</button></div>
</div>
{CONVENTIONS}
<p class="er-trouble" role="alert" hidden></p>
<noscript><p class="er-note">Scripts are off, so this is the practice sheet that everyone shares. Work it on paper;
its answers are folded away below it. With scripts on you get numbers of your own, and each step is \
checked.</p></noscript>
<div class="er-holder" data-search-exclude>{render_static(sheet)}</div>
<div class="er-foot er-live" inert>
<p class="er-score" role="status"></p>
<div class="er-tools"><button type="button" class="er-check">Check everything</button>
<button type="button" class="er-solution">Show the full working</button>
<button type="button" class="er-clear">Clear my entries</button>
<button type="button" class="er-undo" disabled>Undo</button></div>
<div class="er-solved" tabindex="-1"></div>
</div>
{HAND_IN}
</div>"""
