"""Each page that a student reads ends with one question to try, and its answer is folded away."""

from pathlib import Path

import pytest

CONTENT = Path(__file__).parents[3] / "content"
PAGES = [
    *CONTENT.glob("before/*.md"),
    *CONTENT.glob("exercises/*.md"),
    *(CONTENT / room / "index.md" for room in ("examples", "record", "revision")),
]


def sections(page: Path) -> dict[str, str]:
    """What stands under each heading of the second rank, in order."""
    _, *parts = ("\n" + page.read_text(encoding="utf-8")).split("\n## ")
    return {heading: body for heading, _, body in (part.partition("\n") for part in parts)}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: f"{page.parent.name}/{page.stem}")
def test_a_page_ends_with_a_question_to_try(page):
    found = sections(page)
    if not found:  # a page that is nothing but a sheet asks its own questions
        assert "<!-- sheet: " in page.read_text(encoding="utf-8")
        return
    assert list(found)[-1] == "Try it"
    assert "?" in found["Try it"].split('??? note "Answer"')[0]


def test_a_student_has_many_such_pages():
    assert len(PAGES) > 20
