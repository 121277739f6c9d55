"""What is remarked on the figures of a number: never a mark against it."""

import math

from exercises.judging.evidence import Evidence
from exercises.judging.plain import MOST_FIGURES
from exercises.judging.sentences import ENOUGH, REMARKS, TO_KEEP, by_rule
from exercises.working.steps import Step

RESULTS = ("moment", "pole")  # what the sheet is worked for, though something may be worked from it


def remarks_on(e: Evidence) -> tuple[str, ...]:
    """What is remarked on the figures of a number: too few, too many, or nothing."""
    figures, step = e.number.figures, e.step
    enough = step.fewest <= figures < 3  # of an uncertainty
    if e.is_coarse and not enough and not _is_exact(e):
        return (REMARKS["few"].format(asked=by_rule(TO_KEEP, rule_of_figures(step))),)
    if figures > MOST_FIGURES and _is_result(e):
        return (REMARKS["many"].format(enough=ENOUGH[step.fewest]),)
    return ()


def _is_exact(e: Evidence) -> bool:
    """Whether nothing is lost by the few figures of a number: a mean of 56 may be 56 exactly."""
    exact = (e.working.value(e.step.id), e.expected)
    return any(value is not None and math.isclose(e.number.value, value, rel_tol=1e-9) for value in exact)


def _is_result(e: Evidence) -> bool:
    """Whether a number is given as a result.  On the way to it the calculator may keep all figures."""
    step, plan = e.step, e.working.plan
    if step.rule != "figures" or (step.quantity in RESULTS and step.row is None):
        return step.rule == "figures"
    return not any(step.id in plan.asked_needs(later) for later in plan.steps)


def rule_of_figures(step: Step) -> str:
    """The rule by which the figures of a step are asked for: its own, or that of uncertainties."""
    return step.rule if step.fewest > 2 else "uncertainty"
