"""What a comparison of two magnets comes to, as worked examples state it: both ratios as value ± U."""

import math
from typing import NamedTuple

from exercises.bench.balance import ratio_uncertainty_by_angles, ratio_uncertainty_by_balance
from exercises.bench.uncertainty import NEEDLE, Stated, needle_effect, of_two_poles
from exercises.kinds.compare.scenario import Comparison


class Ratios(NamedTuple):
    """m₁/m₂ found twice, what the needle does taken off (JCGM 100:2008, 3.2.4).

    needle  the shares by which it made the ratio of the deflections too large and that of the balances
    """

    by_angles: Stated
    by_balance: Stated
    needle: tuple[float, float]


def ratios(scenario: Comparison, by_angles: float, by_balance: float) -> Ratios:
    """Both ratios as they are stated, from those that were worked.

    The needle makes both moments too large, or both too small; in the ratio only the difference is left.
    """
    (one, two), half = scenario.halves, scenario.box.needle

    def effect(theta: float, d: float, l: float) -> float:
        return needle_effect(theta, d, half) * of_two_poles(d, l)

    theta_1, theta_2 = scenario.angles
    turned = effect(theta_1, scenario.d, one) - effect(theta_2, scenario.d, two)
    pairs = [(b.d1, b.d2) for b in scenario.balances]
    # at rest the needle stands along the earth's field: a deflection of nothing
    balanced = sum(effect(0.0, d1, one) - effect(0.0, d2, two) for d1, d2 in pairs) / len(pairs)
    u_angles = ratio_uncertainty_by_angles(scenario.angles, scenario.d, (one, two), scenario.scale_step, 0.0)
    u_balance = ratio_uncertainty_by_balance(pairs, (one, two), 0.0)
    return Ratios(_without(by_angles, turned, u_angles), _without(by_balance, balanced, u_balance), (turned, balanced))


def _without(ratio: float, effect: float, u: float) -> Stated:
    """A ratio without what the needle does; u is its relative standard uncertainty but for the needle."""
    value = ratio / (1 + effect)
    return Stated(value, value * math.hypot(u, NEEDLE * effect))
