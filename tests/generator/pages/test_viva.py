"""The questions to answer aloud, as they stand in the page: each sketch is a figure, each passage is there."""

import re
from pathlib import Path

import pytest

from exercises.student.viva import VIVA
from generator.figures.plates import FIGURES
from generator.figures.theory_all import theory_figure
from generator.figures.theory_choice import needle_error
from generator.pages.drill import viva

CONTENT = Path(__file__).parents[3] / "content"


@pytest.mark.parametrize("question", VIVA, ids=[v.key for v in VIVA])
def test_a_question_is_read_about_on_a_page_there_is(question):
    page, _, anchor = question.read.partition("#")
    source = CONTENT / f"{page.rstrip('/')}.md"
    text = (source if source.exists() else CONTENT / page / "index.md").read_text(encoding="utf-8")
    headings = re.findall(r"^#+ (.*)$", text, re.MULTILINE)
    slugs = {re.sub(r"[^a-z0-9]+", "-", h.lower().replace("'", "")).strip("-") for h in headings if "{ #" not in h}
    assert not anchor or f"{{ #{anchor} }}" in text or anchor in slugs


def test_a_sketch_is_a_figure_that_can_be_drawn_and_stands_once():
    page, sketches = viva(), [v.sketch for v in VIVA if v.sketch]
    assert len(sketches) == len(set(sketches)) >= 6 and set(sketches) <= set(FIGURES)
    assert re.findall(r"<!-- figure: (\S+) -->", page) == sketches
    assert "B_H" not in page and "<svg" in theory_figure("setting-up")


def test_the_needle_s_error_is_what_the_pages_say():
    """Content says 0.8 to 3.2 % at 60° and 0.3 to 1.2 % at 45° for needles of 1 to 2 cm; the model says so too."""
    assert [round(needle_error(mm / 1000, angle), 1) for angle in (60, 45) for mm in (10, 20)] == [0.8, 3.2, 0.3, 1.2]
