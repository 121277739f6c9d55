"""Straight-line code gives the numbers of the formulas it was written from, and steps aside where it cannot."""

import math
import re

import pytest

from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import _coded_values, _worked_values
from exercises.judging.entries import read_entries
from exercises.judging.evidence import Following, _stands_for
from exercises.judging.verdict import judge_all
from exercises.kinds.kind import all_kinds
from exercises.kinds.sheet import written
from exercises.working import compiled as straight
from exercises.working.arithmetic import Interval, Span, as_span
from exercises.working.compiled import FELL, Cannot, Code, Symbol, apply, once_often, symbols_of
from exercises.working.compiled_spans import TracedInterval, TracedSpan, spans_as_code
from exercises.working.steps import Working

CODED = ("tan-a", "tan-b", "compare")  # kinds whose spans have code; of the others the formulas decide by numbers


def sheet(slug: str, seed: int) -> Working:
    kind = all_kinds()[slug]
    return kind.working(kind.draw(SheetCode(kind.letter, kind.edition, seed)))


@pytest.fixture
def at_once(monkeypatch):
    """Everything is written as code the first time it is asked for."""
    monkeypatch.setattr(straight, "OFTEN", 0)


@pytest.mark.parametrize("slug", sorted(all_kinds()))
def test_spans_by_code_are_those_of_the_formulas(slug, at_once):
    for seed in (11, 222, 3333):
        working = sheet(slug, seed)
        plain = working.all_values(Interval)
        assert set(working.spans) == set(plain)
        for step_id, span in working.spans.items():
            if isinstance(span, str):
                assert span == plain[step_id]
            else:
                there = as_span(plain[step_id])
                assert (span.lo, span.hi) == pytest.approx((there.lo, there.hi), rel=1e-12)


@pytest.mark.parametrize("slug", CODED)
def test_these_kinds_have_code(slug):
    working = sheet(slug, 7)
    ids = tuple(step.id for step in working.steps)
    if slug == "tan-b":  # its first steps are choices, which are no numbers
        ids = tuple(step.id for step in working.steps if not step.choices)
    function = spans_as_code(working, ids)
    assert len(function(working.givens)) == 2 * len(ids)


def test_slips_by_code_are_those_of_the_formulas(at_once):
    for seed in range(40, 50):
        working = sheet("tan-a", seed)
        slips = all_kinds()["tan-a"].slips
        ids = tuple(step.id for step in working.steps)
        coded, worked = _coded_values(working, slips, ids), _worked_values(working, slips, ids)
        assert coded is not None
        for (right, values, owners), (right_, values_, owners_) in zip(coded, worked):
            assert right == pytest.approx(right_, rel=1e-14)
            # the code has a slip that changes nothing too; the formulas leave it out
            kept = [(v, o) for v, o in zip(values, owners) if v != right]
            assert [o for _, o in kept] == list(owners_)
            assert [v for v, _ in kept] == pytest.approx(list(values_), rel=1e-13)


def test_what_follows_by_code_is_what_follows_by_formula(monkeypatch):
    working = sheet("tan-a", 5)
    values = working.all_values()
    entries = {s.id: written(values[s.id], s) for s in working.steps}
    entries["mean-2"], entries["bracket-1"] = "41.7", "3.3e-4"
    own = {k: _stands_for(e, working.by_id[k]) for k, e in read_entries(working, entries).items()}
    plain = {s.id: Following(working, own).span(s.id) for s in working.steps}
    monkeypatch.setattr(straight, "OFTEN", 0)
    by_code = Following(working, own)
    assert by_code._coded
    for step in working.steps:
        there, here = plain[step.id], by_code.span(step.id)
        assert (here.lo, here.hi) == pytest.approx((there.lo, there.hi), rel=1e-12)


def test_the_verdicts_are_the_same_with_code_and_without(monkeypatch):
    sheets = []
    for seed in range(12):
        working = sheet("tan-a", seed)
        values = working.all_values()
        entries = {s.id: written(values[s.id], s) for s in working.steps}
        wrong = list(entries)[seed % len(entries)]
        entries[wrong] = f"{float(values[wrong]) * 1.3:.4g}"
        if seed % 3 == 0:
            entries["tan-1"] = "-1"
        sheets.append((seed, entries))

    def judged():
        found = []
        for seed, entries in sheets:
            working = sheet("tan-a", seed)
            found.append(judge_all(working, all_kinds()["tan-a"].slips, entries))
        return found

    monkeypatch.setattr(straight, "OFTEN", 10**9)
    plain = judged()
    monkeypatch.setattr(straight, "OFTEN", 0)
    assert judged() == plain


def test_a_sheet_of_another_shape_falls_back(at_once):
    function = spans_as_code(sheet("tan-a", 1), ("mean-moment",))
    givens = dict(sheet("tan-a", 1).givens)
    with pytest.raises(FELL):
        function({**givens, "d": givens["d"][:-1]})
    with pytest.raises(FELL):
        function({**givens, "d": (0.001, *givens["d"][1:])})  # nearer than the pole: d − l is not above 0


@pytest.mark.parametrize(
    "decides",
    [
        lambda x: x > 1,
        lambda x: x == 1,
        lambda x: x != 1,
        bool,
        float,
        math.sqrt,
        hash,
        lambda x: [0, 1][x],
        lambda x: min(x, 1.0),
        lambda x: round(x),
    ],
)
def test_a_formula_that_decides_by_a_number_has_no_code(decides):
    with pytest.raises((Cannot, TypeError)):
        decides(Symbol(Code(), "v"))


def test_each_expression_is_written_once_and_what_is_not_wanted_never():
    code = Code()
    given = symbols_of(code, {"x": 3.0, "rows": ((1.0, 2.0), (3.0, 4.0)), "word": "Plover", "mixed": (1.0, "a")})
    x, rows = given["x"], given["rows"]
    total = sum(row[0] * x for row in rows) + (1 - x) / 2
    again = sum(row[0] * x for row in rows)
    unused = apply(math.exp, x)
    assert unused.name in code.lines and again.name in code.lines
    function = code.function([total, again, -2.0, apply(abs, -2 * x)])
    assert function({"x": 3.0, "rows": ((1.0, 2.0), (3.0, 4.0))}) == (11.0, 12.0, -2.0, 6.0)
    assert len(code.lines) == len(set(code.lines.values()))
    for key in ("word", "mixed", "nowhere"):
        with pytest.raises(Cannot):
            given[key]


def test_spans_are_multiplied_as_spans_are():
    for a, b in (((1.0, 2.0), (3.0, 5.0)), ((0.5, 0.6), (0.1, 0.2))):
        code = Code()
        one, two = (TracedSpan(code, *(Symbol(code, n) for n in names)) for names in (("a", "b"), ("c", "d")))
        p, q = Span(*a), Span(*b)
        for traced, plain in (
            (one + two, p + q),
            (one - two, p - q),
            (one * two, p * q),
            (one / two, p / q),
            (2 - one, 2 - p),
            (-1 * one, -1 * p),
            (one / 4, p / 4),
            (3 / one, 3 / p),
            (one**1.5, p**1.5),
            (TracedInterval.keep(one), Interval.keep(p)),
            (TracedInterval.angle(one), Interval.angle(p)),
            (TracedInterval.tangent(one), Interval.tangent(p)),
            (TracedInterval.within(one, 0.2), Interval.within(p, 0.2)),
            (TracedInterval.apply(lambda x: -x, one), Interval.apply(lambda x: -x, p)),
            (TracedInterval.either(lambda: one, lambda: two), Interval.either(lambda: p, lambda: q)),
            (TracedInterval.product(one, two, 2.0 * one), Interval.product(p, q, 2.0 * p)),
        ):
            code.inputs = [f"{name} = {value!r}" for name, value in zip("abcd", (*a, *b))]
            assert code.function([traced.lo, traced.hi])({}) == pytest.approx((plain.lo, plain.hi), rel=1e-14)


def test_code_is_written_only_after_often():
    kept: dict = {}
    asked = [once_often(kept, "key", lambda: "written") for _ in range(straight.OFTEN + 2)]
    assert asked == [None] * straight.OFTEN + ["written"] * 2

    def cannot():
        raise Cannot("no")

    assert [once_often(kept, "other", cannot) for _ in range(straight.OFTEN + 3)] == [None] * (straight.OFTEN + 3)


TOKEN = r"(v\d+|f\d+|g\d+(_\d+)*|\d+(\.\d+)?(e-?\d+)?|\*\*|[-+*/(),=\[\]])"


def test_no_value_of_a_sheet_gets_into_the_code(at_once, monkeypatch):
    texts = []
    plain = Code.text

    def noted(code, wanted):
        texts.append(plain(code, wanted))
        return texts[-1]

    monkeypatch.setattr(Code, "text", noted)
    kind = all_kinds()["tan-a"]
    seeds = [seed for seed in range(40) if len(sheet("tan-a", seed).givens["d"]) == 5][:2]
    made = []
    for seed in seeds:
        working = kind.working(kind.draw(SheetCode(kind.letter, kind.edition, seed)))
        texts.clear()
        spans_as_code(working, tuple(s.id for s in working.steps))
        made += texts
    assert len(made) == 2 and made[0] == made[1]  # two students' numbers, one code
    first, *body = made[0].splitlines()
    assert first == "def straight(givens):"
    for line in body:
        line = line.strip()
        if found := re.fullmatch(r"(.+) = givens\['(B_H|length|d|readings)'\]", line):
            line = found[1]
        line = re.sub(r"^(if not |return |raise ValueError\('a span reaches 0'\)$)", "", line)
        line = re.sub(r"( > 0 < | > 0:$)", " ", line)
        assert re.fullmatch(rf"({TOKEN}\s*)*", line), line
