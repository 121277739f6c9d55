"""How a kind is listed, wherever all kinds stand in one list or table."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Listing:
    """A kind's place and its words in lists.

    order     lists run from the smallest number to the largest, as the kinds are taught; the
              numbers have gaps, so that a new kind can go between two others
    name      what it is called in a table, where its page's title may be too long
    task      what the student does, a few words of Markdown
    steps     the steps of its sheet, and
    checked   the independent sources that its numbers are checked against, as README.md says it
    topic     what its worked examples are about, where that is not its name
    heading   the heading above its worked examples in the navigation, where that is not the topic
    examples  the pages of its worked examples in content/examples/, where they are not SLUG-1 and SLUG-2
    """

    order: int
    name: str
    task: str
    steps: str
    checked: str
    topic: str = ""
    heading: str = ""
    examples: tuple[str, ...] = ()
