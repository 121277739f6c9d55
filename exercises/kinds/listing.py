"""How a kind is listed, wherever all kinds stand in one list or table."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Listing:
    """A kind's place and its words in lists.

    order     lists run from the smallest number to the largest, as the kinds are taught; the
              numbers have gaps, so that a new kind can go between two others
    name      what it is called everywhere; its page's title may say more after it and a colon
    task      what the student does, a few words of Markdown
    steps     the steps of its sheet, and
    checked   the independent sources that its numbers are checked against, as README.md says it
    examples  the pages of its worked examples in content/examples/, where they are not SLUG-1 and SLUG-2
    """

    order: int
    name: str
    task: str
    steps: str
    checked: str
    examples: tuple[str, ...] = ()
