"""What a case of the table puts into its verdict: the words in its sentence, the passage to read, the slips' keys."""

import math
from collections.abc import Mapping

from exercises.judging.entries import Chosen
from exercises.judging.evidence import Evidence
from exercises.judging.remarks import rule_of_figures
from exercises.judging.sentences import ADVICE, ASKED, BEGINNINGS, FAR_OFF, SIDES, by_rule

POWER_SLACK = 0.01  # how far a number may miss a power of ten and be taken for one
ROUNDED_EARLY = 1.015  # times too large or too small: up to here early rounding is the likeliest reason

type Fields = Mapping[str, str]


def the_steps(e: Evidence) -> str:
    """The passage that explains the step."""
    return e.step.read


def the_slips(e: Evidence) -> str:
    """The passage that explains the slip."""
    return e.explained_by[0].read


def keys(e: Evidence) -> tuple[str, ...]:
    """The keys of the slips that give the number."""
    return tuple([slip.key for slip in e.explained_by])


def keys_of_those_like_it(e: Evidence) -> tuple[str, ...]:
    """The keys of the slips that come to the same figures as the one that is named."""
    return tuple([slip.key for slip in e.like_explained])


def why_not_read(e: Evidence) -> Fields:
    return {"why": str(e.entry)}


def asked(e: Evidence) -> Fields:
    return {"asked": by_rule(ASKED, rule_of_figures(e.step))}


def first_two_slips(e: Evidence) -> Fields:
    return dict(zip(("says", "or_says"), (slip.said_at(e.step) for slip in e.explained_by)))


def slip_and_one_like_it(e: Evidence) -> Fields:
    return {"says": e.explained_by[0].said_at(e.step), "or_says": e.like_explained[0].said_at(e.step)}


def all_slips(e: Evidence) -> Fields:
    return {"names": "; or ".join(slip.name for slip in e.explained_by)}


def what_the_choice_says(e: Evidence) -> Fields:
    return {
        "says": next(wrong for key, _, wrong in e.step.choices if isinstance(e.entry, Chosen) and key == e.entry.value)
    }


def power_of_ten(e: Evidence) -> int:
    """The power of ten by which the number is off and by nothing else; 0 if there is none."""
    power = round(math.log10(e.ratio))
    return power if abs(e.ratio / 10.0**power - 1) < POWER_SLACK else 0


def how_many_times(e: Evidence) -> Fields:
    power = power_of_ten(e)
    raised = str(abs(power)).translate(str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"))
    return {"many": "ten" if abs(power) == 1 else f"10{raised}", "side": SIDES[power > 0]}


def how_far_off(e: Evidence) -> Fields:
    """What an unexplained number looks like, without giving the right one away."""
    factor = max(e.ratio, 1 / e.ratio)
    return {
        "off": next(large if e.ratio > 1 else small for times, large, small in FAR_OFF if factor > times),
        **what_to_do(e, factor),
    }


def what_to_do(e: Evidence, factor: float = math.inf) -> Fields:
    """How an unexplained number came about, and what to do about it.

    factor  how many times too large or too small it is
    """
    needs = e.working.plan.asked_needs(e.step)
    entered = sum(need in e.own for need in needs)
    if entered < len(needs):
        advice = "earlier steps" if e.step.row is None else "steps before"
    elif e.step.rule == "reading":
        advice = "reading"
    else:
        advice = "work again" if factor > ROUNDED_EARLY else "rounding"
    return {"start": BEGINNINGS["from entries" if entered else "alone"], "advice": ADVICE[advice]}
