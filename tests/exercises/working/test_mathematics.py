"""Formulas as they are set: against formulas set by hand, and no raw notation in anything that a page shows."""

import json
import re
import xml.etree.ElementTree as ET
from functools import cache

import pytest

from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.rendering import render_static
from exercises.student import desk
from exercises.student.viva import VIVA
from exercises.working.mathematics import WIDEST, drawn, set_out, spoken, symbols
from generator.build.formulas import mathml
from tests.exercises.golden import codes_of
from tests.raw import raw_in

KINDS = sorted(all_kinds())
#: Figures above and below the line, as they are on it.
LINED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")


def shape(html: str) -> str:
    """What MathML holds, without spaces, attributes and rows that group nothing: `mfrac(mi:m mn:2)`."""

    def of(element: ET.Element) -> list[str]:
        tag, inside = element.tag.rpartition("}")[2], [part for child in element for part in of(child)]
        if tag in ("mspace", "mrow", "math", "mstyle"):
            return inside
        if not len(element):
            text = (element.text or "").strip()
            return [f"{tag}:{text}"] if text else []
        return [f"{tag}({' '.join(inside)})"]

    return " ".join(part for one in re.findall(r"<math.*?</math>", html) for part in of(ET.fromstring(one)))


@pytest.mark.parametrize(
    "plain, latex",
    [
        ("m/B_H", r"\frac{m}{B_{\mathrm{H}}}"),
        ("d² + l²", "d^2 + l^2"),
        ("4d²l / 3", r"\frac{4d^2l}{3}"),
        ("T = 2π", r"T = 2\pi"),
        ("√(2m)", r"\sqrt{2m}"),
    ],
)
def test_a_formula_is_what_the_other_writer_makes_of_it(plain, latex):
    """Theory pages are set from LaTeX by latex2mathml, all else by this writer: the same formula is the same."""
    assert shape(set_out(plain)) == shape(mathml(latex))


@pytest.mark.parametrize(
    "plain, wanted",
    [
        ("a × b / (2 × c)", "mfrac(mi:a mo:× mi:b mn:2 mo:× mi:c)"),
        ("a × b/c", "mi:a mo:× mfrac(mi:b mi:c)"),
        ("(d² + l²)^(3/2)", "msup(mo:( msup(mi:d mn:2) mo:+ msup(mi:l mn:2) mo:) mn:3/2)"),
        ("tan θ", "mi:tan mi:θ"),
        ("3.6 × 10⁻⁵ T", "mn:3.6 mo:× msup(mn:10 mn:−5) mtext:T"),
        ("l₁", "msub(mi:l mn:1)"),
    ],
)
def test_a_formula_set_by_hand(plain, wanted):
    assert shape(set_out(plain)) == wanted


def test_a_long_sum_breaks():
    """The mean of eight is wider than a small phone: it stands as text, which breaks at its spaces."""
    eight = " + ".join(["53.5"] * 8)
    html = set_out(f"θ = ({eight}) / 8 = 53.5°")
    assert f"({eight}) / 8" in html and html.count("<math") == 3 and len(eight) > WIDEST


def test_what_is_no_formula_stands_as_it_is():
    assert set_out("which fault? – none, as it seems") == '<span class="er-eq">which fault? – none, as it seems</span>'


@pytest.mark.parametrize("writer", [symbols, drawn, spoken, set_out])
@pytest.mark.parametrize(
    "text", ["<img src=x onerror=alert(1)>", "a < b & c", 'x = "<b>"', "m = <script>/2", "B_H <i>"]
)
def test_markup_in_a_text_is_text(writer, text):
    root = ET.fromstring(f"<p>{writer(text)}</p>")
    assert not {"img", "script", "b"} & {e.tag for e in root.iter()}
    assert "".join(root.itertext()).replace("B H", "B_H").replace("\u200b", "") == text.replace(
        "B_H", "B_H" if writer is spoken else "BH"
    )


def figures_in(text: str) -> list[str]:
    return sorted(re.findall("[0-9=≈]", text.translate(LINED)))


@cache
def sheet_of(slug: str):
    return open_code(codes_of(all_kinds()[slug].letter)[3])


@pytest.mark.parametrize("slug", KINDS)
def test_a_working_loses_nothing(slug):
    """What a line becomes is well-formed, and none of its figures is lost."""
    working = sheet_of(slug).working
    values = working.all_values()
    for step in working.steps:
        line = step.line(values, working.givens)
        html = set_out(line)
        shown = "".join(ET.fromstring(f"<p>{html}</p>").itertext())
        # all figures and relations of the line are there; a cube root gets its 3
        assert figures_in(shown) == figures_in(line.replace("∛", "∛3")), line
        assert not raw_in(html), line


@pytest.mark.parametrize("slug", KINDS)
def test_nothing_a_sheet_shows_is_raw(slug):
    """The sheet, its working, its hints, and what every slip says."""
    sheet = sheet_of(slug)
    code = str(sheet.scenario.code)
    assert not raw_in(render_static(sheet))
    hints = [json.loads(desk.hint(code, s.id, n))["html"] for s in sheet.working.steps for n in range(len(s.hints))]
    said = [symbols(f"{slip.name}: {slip.says} {slip.besides}") for slip in sheet.kind.slips]
    assert hints and said and not raw_in(" ".join(hints + said))


def test_nothing_a_viva_asks_is_raw():
    assert not raw_in(symbols(" ".join(f"{v.question} {v.answer}" for v in VIVA)))
