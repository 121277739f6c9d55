"""Formulas are written down as compiled code that does what they do, and where they cannot be, it says so."""

import math
import re

import pytest

from exercises.kinds.kind import all_kinds, open_code
from exercises.working.arithmetic import Interval, Span, total
from exercises.working.compiled import DEEPEST, Cannot, Code, Symbol, apply, symbols_of
from exercises.working.compiled_spans import TracedInterval, TracedSpan, compiled_spans
from tests.exercises.golden import codes_of


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
    with pytest.raises(Cannot):
        decides(Symbol(Code(), "v"))


def test_each_expression_is_written_once_and_what_is_not_wanted_never():
    code = Code()
    given = symbols_of(code, {"x": 3.0, "rows": ((1.0, 2.0), (3.0, 4.0)), "word": "Plover", "mixed": (1.0, "a")})
    x, rows = given["x"], given["rows"]
    added = total(row[0] * x for row in rows) + (1 - x) / 2
    again = total(row[0] * x for row in rows)
    unused = apply(math.exp, x)
    assert unused.name in code.lines and again.name in code.lines
    wanted = [added, again, -2.0, apply(abs, -2 * x)]
    assert code.text(wanted).count("g1_0_0 * g0") == 1 and "f1" in code.functions and "f1(" not in code.text(wanted)
    function = code.function(wanted)
    assert function({"x": 3.0, "rows": ((1.0, 2.0), (3.0, 4.0))}) == (11.0, 12.0, -2.0, 6.0)
    assert len(code.lines) == len(set(code.lines.values()))
    for key in ("word", "mixed", "nowhere"):
        with pytest.raises(Cannot):
            given[key]


@pytest.mark.parametrize(("a", "b"), [((1.0, 2.0), (3.0, 5.0)), ((0.5, 0.6), (0.1, 0.2))])
def test_spans_are_worked_as_spans_are(a, b):
    code = Code()
    code.inputs = [f"{name} = {value!r}" for name, value in zip("abcd", (*a, *b))]
    one, two = (TracedSpan(code, *(Symbol(code, n) for n in names)) for names in ("ab", "cd"))
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
        (TracedInterval.total([one, two, one]), Interval.total([p, q, p])),
    ):
        assert code.function([traced.lo, traced.hi])({}) == (plain.lo, plain.hi)


TOKEN = r"(v\d+|f\d+|g\d+(_\d+)*|\d+(\.\d+)?(e-?\d+)?|\*\*|[-+*/(),=\[\]])"


def test_no_value_of_a_sheet_gets_into_the_code(monkeypatch):
    texts = []
    plain = Code.text

    def noted(code, wanted):
        texts.append(plain(code, wanted))
        return texts[-1]

    sheets = [open_code(code) for code in codes_of(all_kinds()["tan-a"].letter)]
    monkeypatch.setattr(Code, "text", noted)
    stated = [s.working for s in sheets if s.scenario.code.setting.two_l == "stated"]
    for working in [w for w in stated if len(w.givens["d"]) == 5][:2]:
        compiled_spans(working, tuple(s.id for s in working.steps))
    assert len(texts) == 2 and texts[0] == texts[1]  # two students' numbers, one code
    first, *body = texts[0].splitlines()
    assert first == "def compiled(givens):"
    for line in body:
        line = line.strip()
        if found := re.fullmatch(r"(.+) = givens\['(B_H|length|two_l|d|readings)'\]", line):
            line = found[1]
        line = re.sub(r"^(if not |return |raise ValueError\('a span reaches 0'\)$)", "", line)
        line = re.sub(r"( > 0 < | > 0:$)", " ", line)
        assert re.fullmatch(rf"({TOKEN}\s*)*", line), line


def test_brackets_go_no_deeper_than_a_parser_bears():
    code = Code()
    x = Symbol(code, "x")
    code.inputs = ["x = givens['x']"]
    sums = [x]
    for n in range(400):
        sums.append(sums[-1] * 1.5 + n)
    text = code.text([sums[-1]])
    assert max(line.count("(") for line in text.splitlines()) <= DEEPEST
    expected = 0.25
    for n in range(400):
        expected = expected * 1.5 + n
    assert code.function([sums[-1]])({"x": 0.25}) == (expected,)


def test_code_steps_aside_where_the_numbers_are_not_what_it_was_written_for():
    code = Code()
    given = symbols_of(code, {"d": (2.0, 3.0)})
    function = code.function([apply(math.sqrt, given["d"][0]) / given["d"][1]])
    assert function({"d": (4.0, 8.0)}) == (0.25,)
    for d in ((4.0,), (4.0, 8.0, 1.0), (-4.0, 8.0), (4.0, 0.0), ("4", 8.0), None):
        assert function({"d": d}) is None
