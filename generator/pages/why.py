"""The instrument whose faults are set with sliders, as it stands in the page before any script runs."""

from html import escape

from exercises.student.why import SLIDERS, USUAL, Slider, each_alone, fragment, sentence, setting_text


def bench() -> str:
    """The sliders (hidden without scripts), what is said of their setting, and its tables."""
    sliders = "".join(map(_slider, SLIDERS))
    return f"""\
<div class="er-why">
<p class="er-status er-live" role="status" data-state="starting" data-lead="Your tables are being worked out.">Your \
tables are being worked out. The sliders can be moved already.</p>
<noscript><p class="er-note">Scripts are off, so the instrument stands as it is set here: {_setting()}.</p></noscript>
<form class="er-sliders er-live" aria-label="The faults of the instrument" inert>{sliders}
<div class="er-tools"><button type="button" data-set="none">All faults off</button>
<button type="reset">As at first</button></div></form>
<p class="er-why-says" role="status">{escape(sentence(USUAL))}</p>
<div class="er-why-tables" role="group" aria-label="Readings, means and moments">{fragment(USUAL)}</div>
</div>"""


def each_fault() -> str:
    """The table of each fault by itself, which needs no script."""
    return f'<div class="er-why-tables">{each_alone()}</div>'


def _slider(slider: Slider) -> str:
    name = f"why-{slider.name.replace('_', '-')}"
    return (
        f'<div class="er-slider"><label for="{name}">{escape(slider.label)}</label>'
        f'<output for="{name}" aria-live="off">{setting_text(slider, slider.usual)}</output>'
        f'<input type="range" id="{name}" name="{slider.name}" min="{-slider.most:g}" max="{slider.most:g}" '
        f'step="{slider.step:g}" value="{slider.usual:g}" data-unit="{slider.unit}"></div>'
    )


def _setting() -> str:
    on = [f"{s.short} by {setting_text(s, s.usual)}" for s in SLIDERS if s.usual]
    return ", ".join(on[:-1]) + f" and {on[-1]}"
