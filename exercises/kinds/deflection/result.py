"""What a determination by deflection comes to, as worked examples and full workings state it: value ± U, k said."""

from exercises.bench.uncertainty import Determined, Stated, determined
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.uncertainty.budget import quoted
from exercises.working.numbers import places


def determination(scenario: DeflectionScenario, mean: float, tan_b: bool = False) -> Determined:
    """The moment and the pole strength that follow from the mean of a sheet's moments, A·m²."""
    rows = [(row.mean, row.d) for row in scenario.rows]
    return determined(mean, rows, scenario.two_l / 2, scenario.scale_step, scenario.box.needle, tan_b)


def quantity(result: Stated, unit: str) -> str:
    """A result as it is stated.

    >>> quantity(Stated(0.8234, 0.0047), "A·m²")
    '(0.823 ± 0.009) A·m²'
    """
    return f"({quoted(result.U, result.value)}) {unit}"


def in_words(found: Determined) -> str:
    """The result in two sentences, with what was taken off and with k."""
    share = places(100 * abs(found.needle), 1)
    way = "large" if found.needle >= 0 else "small"
    return (
        f"The needle is not a point and makes the mean moment too {way} by {share} %, which is set right here: "
        f"m = {quantity(found.moment, 'A·m²')} and p = {quantity(found.pole, 'A·m')}. After the ± stands the "
        f"expanded uncertainty U = k·u with k = {found.moment.k:g}, for about 95 %."
    )
