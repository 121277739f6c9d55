"""A worked example of tan A."""

from functools import partial

from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.working.numbers import places
from exercises.working.steps import Working
from generator.examples import deflection
from generator.examples.deflection import Determination

DETERMINATION = Determination(
    setup="The arms lie east and west, the magnet along them.",
    law="\\tan\\theta = \\frac{\\mu_0}{4\\pi} \\frac{m}{B_\\text{H}} \\cdot \\frac{2d}{(d^2-l^2)^2}",
    against="$2d/(d^2-l^2)^2$",
    label="2*d*/(*d*² − *l*²)² in m⁻³",
    spoken="2d/(d² − l²)²",
    x=lambda d, l: 2 * d / (d * d - l * l) ** 2,
    faults=lambda f: (
        f"its pivot {abs(complex(f.pivot_x, f.pivot_y)) * 1e3:.1f} mm off centre, a pointer that rested "
        f"{places(abs(f.at_rest), 1)}° from 0, arms {abs(f.arm_off):.1f}° off east–west, the box "
        f"{abs(f.box_shift) * 1e3:.1f} mm from the centre of the scale and the magnetic centre "
        f"{abs(f.centre_shift) * 1e3:.1f} mm from the middle of the bar"
    ),
    closing="That is what eight readings are for.",
    tan_b=False,
)

markdown = partial(deflection.markdown, DETERMINATION)


def _bench(scenario: DeflectionScenario, working: Working) -> str:
    from generator.figures import worked

    return worked.bench(scenario, working)


def _dials(scenario: DeflectionScenario, working: Working) -> str:
    from generator.figures import worked

    return worked.dials(scenario, working)


figures = {"bench": _bench, "dials": _dials, "graph": partial(deflection.graph, DETERMINATION)}
