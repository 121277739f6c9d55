"""A worked example of tan A."""

from functools import partial

from exercises.working.numbers import places
from generator.examples import deflection
from generator.examples.deflection import Telling

TELLING = Telling(
    slug="tan-a",
    setup="The arms lie east and west, the magnet along them.",
    law="\\tan\\theta = \\frac{\\mu_0}{4\\pi} \\frac{m}{B_\\text{H}} \\cdot \\frac{2d}{(d^2-l^2)^2}",
    against="$2d/(d^2-l^2)^2$",
    x=lambda d, l: 2 * d / (d * d - l * l) ** 2,
    faults=lambda f: (
        f"its pivot {abs(complex(f.pivot_x, f.pivot_y)) * 1e3:.1f} mm off centre, a zero error of "
        f"{places(f.zero_error, 1)}°, arms {abs(f.arm_off):.1f}° off east–west, the box {abs(f.box_shift) * 1e3:.1f} mm "
        f"from the centre of the scale and the magnetic centre {abs(f.centre_shift) * 1e3:.1f} mm from the middle of the bar"
    ),
    closing="That is what eight readings are for. The moments near by come out a little larger than those far off: that is the "
    "needle, which is not a point.",
    tan_b=False,
)

markdown = partial(deflection.markdown, TELLING)


def _drawn(what: str):
    def draw(scenario, working):
        from generator.figures import worked

        return getattr(worked, what)(scenario, working)

    return draw


figures = {what: _drawn(what) for what in ("bench", "dials", "graph")}
