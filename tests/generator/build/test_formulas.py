"""Formulas come out of the build as MathML, and money stays money."""

import xml.etree.ElementTree as ET

import markdown
import pytest

from generator.build.formulas import mathml


def made(text):
    return markdown.markdown(text, extensions=["generator.build.formulas"])


def test_inline_and_display():
    assert '<math xmlns="http://www.w3.org/1998/Math/MathML" display="inline">' in made(r"so $B_H \tan\theta$ holds")
    assert 'display="block"' in made(r"$$\frac{m}{2l}$$")
    assert "$" not in made(r"$$\frac{m}{2l}$$")


def test_markdown_inside_a_formula_is_left_alone():
    assert "<em>" not in made(r"$a_1 * b_2 * c$")


@pytest.mark.parametrize("text", ["it costs $5 or $6", r"\$not a formula\$"])
def test_dollars_that_are_no_formula(text):
    assert "<math" not in made(text)


def test_a_function_keeps_its_power():
    """What MathML raises has a base and a power, and no third part."""
    root = ET.fromstring(mathml(r"\varepsilon\sin^2\theta"))
    (power,) = (e for e in root.iter() if e.tag.endswith("msup"))
    assert [(e.tag.split("}")[1], e.text) for e in power] == [("mi", "sin"), ("mn", "2")]
    assert sum(e.tag.endswith("mspace") for e in root.iter()) == 2


def test_functions_keep_their_distance():
    root = ET.fromstring(mathml(r"B\cos\alpha"))
    names = [e.tag.split("}")[1] for e in root.iter()]
    assert names.count("mspace") == 2
