"""Why eight readings: what each fault does to the readings, and which average takes it out again.

One magnet at one place and distance, a needle so short that nothing but the
faults shows, readings not rounded.  From a setting of each fault to HTML; the
page on it is content/before/why-eight.md.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from html import escape
from typing import Any

from exercises.bench.field import deflection, end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import ALONE, EIGHT, Box, Faults, Magnet, eight_readings
from exercises.working.numbers import places
from exercises.working.words import listed

MAGNET = Magnet(m=1.5, l=0.04)  # A·m², m
B_H = 36e-6  # T
DISTANCE = 0.21  # m
BOX = Box(needle=0.0)
TRUE_ANGLE = deflection(end_on(MAGNET.m, DISTANCE, MAGNET.l), B_H)

#: How many readings go into a mean, and what was done to have them; each stage's groups lie side by side in EIGHT.
STAGES = ((1, "one reading"), (2, "both ends"), (4, "both ends, magnet reversed"), (8, "the same on both arms"))
REMOVERS = {2: "Reading both ends removes", 4: "Reversing the magnet removes", 8: "Taking both arms removes"}
SMALL = 0.2  # of a fault's largest effect on one reading: what is left below it counts as removed
NOTHING = 0.005  # degrees, an effect that no table here shows


@dataclass(frozen=True)
class Slider:
    """One fault as it is set: from −most to most in its unit, which is `scale` SI units.

    label  on the slider; short  in a sentence and in a table; usual  where it stands at first
    fault  what that makes of a perfect instrument, from a size in SI units or degrees
    """

    name: str
    label: str
    short: str
    most: float
    step: float
    unit: str
    scale: float
    usual: float
    fault: Callable[[float], Faults]


SLIDERS = (  # name, label, short, most, step, unit, scale, usual, fault
    Slider(
        "pivot_x",
        "pivot east (+) or west (−) of the scale's centre",
        "the pivot's shift east or west",
        1,
        0.1,
        "mm",
        1e-3,
        0.5,
        ALONE["pivot"],
    ),
    Slider(
        "pivot_y",
        "pivot north (+) or south (−) of the scale's centre",
        "the pivot's shift north or south",
        1,
        0.1,
        "mm",
        1e-3,
        0.0,
        lambda size: Faults(pivot_y=size),
    ),
    Slider(
        "zero_error",
        "zero error: box moved after setting up",
        "the zero error",
        2,
        0.1,
        "°",
        1.0,
        0.8,
        ALONE["zero"],
    ),
    Slider(
        "first_turn",
        "first turn left out: box askew to the arms",
        "the first turn left out",
        5,
        0.5,
        "°",
        1.0,
        1.5,
        ALONE["first-turn"],
    ),
    Slider(
        "second_turn",
        "second turn left out: board off east–west",
        "the second turn left out",
        5,
        0.5,
        "°",
        1.0,
        0.0,
        ALONE["second-turn"],
    ),
    Slider(
        "pointer",
        "pointer not square to the needle",
        "the pointer that is not square",
        5,
        0.5,
        "°",
        1.0,
        0.0,
        ALONE["pointer"],
    ),
    Slider(
        "centre_shift",
        "magnetic centre towards N (+) or S (−)",
        "the shift of the magnetic centre",
        3,
        0.1,
        "mm",
        1e-3,
        1.0,
        ALONE["centre"],
    ),
    Slider(
        "magnet_turned",
        "magnet turned on the arm",
        "the turn of the magnet",
        5,
        0.5,
        "°",
        1.0,
        0.0,
        lambda size: Faults(magnet_turned=size),
    ),
    Slider(
        "box_shift",
        "box east (+) or west (−) of the scale's zero",
        "the shift of the box",
        3,
        0.1,
        "mm",
        1e-3,
        1.0,
        ALONE["box"],
    ),
)
USUAL = {s.name: s.usual for s in SLIDERS}


def settings_from(sliders: Mapping[str, Any]) -> dict[str, float]:
    """Every slider's setting, brought within the slider's range; 0 where there is no number.

    sliders  name of a fault -> what the page has for it, which may be anything
    """
    found = {}
    for slider in SLIDERS:
        try:
            value = float(sliders.get(slider.name, 0.0))
        except (TypeError, ValueError, OverflowError):
            value = 0.0
        found[slider.name] = max(-slider.most, min(slider.most, value)) if value == value else 0.0
    return found


def faults_of(settings: Mapping[str, float]) -> Faults:
    """All faults that are set, at once: what each does to the instrument is added up."""
    alone = (vars(s.fault(settings.get(s.name, 0.0) * s.scale)) for s in SLIDERS)
    return Faults(*map(sum, zip(*(one.values() for one in alone))))


def read(settings: Mapping[str, float]) -> tuple[float, ...]:
    """The eight readings in degrees, in the order of EIGHT."""
    return eight_readings(MAGNET, B_H, DISTANCE, BOX, faults_of(settings))


def means(readings: tuple[float, ...], size: int) -> tuple[float, ...]:
    """The means of so many readings at a time, in order.

    >>> means((1.0, 3.0, 2.0, 4.0, 5.0, 5.0, 6.0, 6.0), 4)
    (2.5, 5.5)
    """
    return tuple(sum(readings[i : i + size]) / size for i in range(0, len(readings), size))


def moment(theta: float) -> float:
    """The moment (A·m²) a student finds from a mean deflection in degrees."""
    return moment_end_on(field_from_deflection(theta, B_H), DISTANCE, MAGNET.l)


def removed_by(slider: Slider, setting: float) -> int | None:
    """How many readings it takes to remove this fault alone: 2, 4 or 8; 0 if none does, None if it does nothing."""
    readings = read({slider.name: setting})
    worst = {size: max(abs(m - TRUE_ANGLE) for m in means(readings, size)) for size, _ in STAGES}
    if worst[1] < NOTHING:
        return None
    return next((size for size in REMOVERS if worst[size] < SMALL * worst[1]), 0)


def sentence(settings: Mapping[str, float]) -> str:
    """What removes each fault that is on, and what is left in the mean of eight."""
    removed: dict[int, list[str]] = {}
    for slider in SLIDERS:
        size = removed_by(slider, settings[slider.name])
        if size is not None:
            removed.setdefault(size, []).append(slider.short)
    if not removed:
        return "Every fault is off: all eight readings are the same, and one of them would do."
    said = [f"{words} {listed(removed[size])}." for size, words in REMOVERS.items() if size in removed]
    if 0 in removed:
        said.append(f"No mean removes all of {listed(removed[0])}.")
    found = moment(means(read(settings), 8)[0])
    return " ".join((*said, f"The mean of eight gives {places(found, 3)} A·m², {_off(found)}."))


def _off(found: float) -> str:
    """How far a moment is from the true one, in words."""
    share = 100 * (found / MAGNET.m - 1)
    if abs(share) < 0.05:
        return "the true moment to within 0.05 %"
    return f"{abs(share):.1f} % {'above' if share > 0 else 'below'} the true moment"


def _signed(theta: float) -> str:
    """By how many per cent the moment worked from this angle is off, with its sign."""
    share = 100 * (moment(theta) / MAGNET.m - 1)
    text = places(abs(share), 1)
    return f"{'' if text == '0.0' else '+' if share > 0 else '−'}{text}"


# -- as HTML -----------------------------------------------------------------


def readings_table(readings: tuple[float, ...]) -> str:
    """The eight readings with the means of two, four and eight beside them."""
    body = ""
    for i in range(0, 8, 2):
        arm, north, _ = EIGHT[i]
        cells = "".join(f"<td>{places(r, 1)}</td>" for r in readings[i : i + 2])
        for size, _ in STAGES[1:]:
            if i % size == 0:
                mean = places(means(readings, size)[i // size], 2)
                cells += f'<td class="er-mean" rowspan="{size // 2}">{mean}</td>'
        body += f'<tr><th scope="row">{arm}, N {north}</th>{cells}</tr>'
    columns = ("arm, N pole", "①", "②", "mean of ends", "and reversed", "and both arms")
    heads = "".join(f'<th scope="col">{h}</th>' for h in columns)
    return (
        "<table><caption>The eight readings and their means, in degrees. "
        f"The true deflection is {places(TRUE_ANGLE, 2)}°.</caption>"
        f"<thead><tr>{heads}</tr></thead><tbody>{body}</tbody></table>"
    )


def moments_table(readings: tuple[float, ...]) -> str:
    """The moment from one, two, four and eight readings beside the true one."""
    body = ""
    for size, name in STAGES:
        theta = means(readings, size)[0]
        body += (
            f'<tr><th scope="row">{size}: {name}</th><td>{places(theta, 2)}</td><td>{places(moment(theta), 3)}</td>'
            f"<td>{_signed(theta)}</td></tr>"
        )
    return (
        "<table><caption>The moment from the first one, two, four and all eight readings.</caption>"
        '<thead><tr><th scope="col">readings</th><th scope="col">mean θ, °</th><th scope="col">m, A·m²</th>'
        f'<th scope="col">off by, %</th></tr></thead><tbody>{body}<tr class="er-truth"><th scope="row">the truth</th>'
        f"<td>{places(TRUE_ANGLE, 2)}</td><td>{places(MAGNET.m, 3)}</td><td></td></tr></tbody></table>"
    )


def fragment(settings: Mapping[str, float]) -> str:
    """Both tables of a setting."""
    readings = read(settings)
    return readings_table(readings) + moments_table(readings)


def each_alone() -> str:
    """Each fault by itself at half its range: the moment from 1, 2, 4 and 8 readings, and what removes it."""
    body = ""
    for slider in SLIDERS:
        setting = slider.most / 2
        readings = read({slider.name: setting})
        cells = "".join(f"<td>{_signed(means(readings, n)[0])}</td>" for n, _ in STAGES)
        size = removed_by(slider, setting)
        by = {2: "both ends", 4: "reversal", 8: "both arms"}.get(size or 0, "none")
        body += (
            f'<tr><th scope="row">{escape(slider.short)}, {setting_text(slider, setting)}</th>{cells}<td>{by}</td></tr>'
        )
    heads = "".join(f'<th scope="col">{h}</th>' for h in ("fault", "1", "2", "4", "8", "removed by"))
    return (
        "<table><caption>By how many per cent the moment is off, worked from one, two, four or eight readings, "
        f"each fault by itself.</caption><thead><tr>{heads}</tr></thead><tbody>{body}</tbody></table>"
    )


def setting_text(slider: Slider, setting: float) -> str:
    """A setting with its unit: '0.5 mm', '−1.0°'."""
    return f"{places(setting, 1)}{'' if slider.unit == '°' else ' '}{slider.unit}"
