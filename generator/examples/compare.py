"""A worked comparison of two magnets: the bench, the tables, every step, and both results side by side."""

from collections.abc import Mapping

from exercises.kinds.compare.result import ratios
from exercises.kinds.compare.scenario import Comparison
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.kinds.uncertainty.budget import quoted
from exercises.working.numbers import centimetres
from exercises.working.numbers import figures as sig
from exercises.working.steps import Working
from generator.examples.parts import figure, observed, own_sheet, percent


def markdown(code: str, kind: Kind, scenario: Comparison, working: Working) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    one, two = scenario.bars
    rule = rule_of(scenario.code.setting)
    return f"""\
## The magnets

*{one.name}* is a bar of {one.material.name}, {rule.brief(one.length, one.magnetic_length)}; *{two.name}* one of
{two.material.name}, {rule.brief(two.length, two.magnetic_length)}. The kit stands at {scenario.field.where}. What
the earth's field is there nobody has to know. At d = {centimetres(scenario.d)} cm each is read eight times. Then they
are balanced against each other.

{figure("bench", code)}

## What was observed

{observed(kind, scenario)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## Two ways to one ratio

{figure("ratios", code)}

{_result(scenario, values)}

{own_sheet(kind, code)}
"""


def _result(scenario: Comparison, values: Mapping[str, float]) -> str:
    stated = ratios(scenario, values["ratio-angles"], values["mean-ratio"])
    angles, balances, true = stated.by_angles, stated.by_balance, scenario.true_ratio
    shares = [found.u / found.value for found in (angles, balances)]
    short = values["tan-1"] / values["tan-2"]
    surer = "The balance is the surer of the two" if shares[1] < shares[0] else "The deflection is the surer here"
    of_angles, of_balances = (f"{percent(abs(n))} too {'large' if n >= 0 else 'small'}" for n in stated.needle)
    cubes = sum((b.d1 / b.d2) ** 3 for b in scenario.balances) / len(scenario.balances)
    return f"""\
The needle is not a point. It changes the two moments by different shares, and makes the ratio of the deflections
{of_angles} and that of the balances {of_balances}. That is known, so it is set right. As value ± *U* with
*k* = {angles.k:g}, for about 95 %, the deflections then give
**m₁/m₂ = {quoted(angles.U, angles.value)}** and the balances
**m₁/m₂ = {quoted(balances.U, balances.value)}**. {surer}: its relative standard uncertainty is
{percent(min(shares))}, that of the other {percent(max(shares))}. The draw knows the true ratio: {sig(true)}. The
deflections are {percent(abs(angles.value / true - 1))} off, the balances {percent(abs(balances.value / true - 1))}.

The lengths matter. The tangents alone would have given {sig(short)}, and the cubes of the distances alone
{sig(cubes)}."""


def _bench(scenario: Comparison, working: Working) -> str:
    from generator.figures import worked_compare

    return worked_compare.bench(scenario, working)


def _ratios(scenario: Comparison, working: Working) -> str:
    from generator.figures import worked_compare

    return worked_compare.ratios(scenario, working)


figures = {"bench": _bench, "ratios": _ratios}
