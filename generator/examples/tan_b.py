"""A worked example of tan B."""

from functools import partial

from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.working.numbers import places
from exercises.working.steps import Working
from generator.examples import deflection
from generator.examples.deflection import Determination

DETERMINATION = Determination(
    setup="The arms lie north and south, the magnet across them.",
    law="\\tan\\theta = \\frac{\\mu_0}{4\\pi} \\frac{m}{B_\\text{H}} \\cdot \\frac{1}{(d^2+l^2)^{3/2}}",
    against="the last factor",
    label="1/(*d*² + *l*²)^(3/2) in m⁻³",
    spoken="one over (d² + l²) to the power three halves",
    x=lambda d, l: (d * d + l * l) ** -1.5,
    faults=lambda f: (
        f"its pivot {abs(complex(f.pivot_x, f.pivot_y)) * 1e3:.1f} mm off centre, a pointer that rested "
        f"{places(abs(f.at_rest), 1)}° from 0, arms {abs(f.arm_off):.1f}° off north–south and the magnet laid "
        f"{abs(f.magnet_turned):.1f}° off square"
    ),
    closing="In tan B the needle errs the other way than in tan A.",
    tan_b=True,
)

markdown = partial(deflection.markdown, DETERMINATION)


def _bench(scenario: DeflectionScenario, working: Working) -> str:
    from generator.figures import worked_tan_b

    return worked_tan_b.bench(scenario, working)


def _dials(scenario: DeflectionScenario, working: Working) -> str:
    from generator.figures import worked_tan_b

    return worked_tan_b.dials(scenario, working)


figures = {"bench": _bench, "dials": _dials, "graph": partial(deflection.graph, DETERMINATION)}
