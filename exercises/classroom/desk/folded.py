"""Lists that are folded on the class desk, and a student as HTML."""

from html import escape

from exercises.classroom.class_list.roster import Student

SHOWN = 200  # lines of a list on the page; the tables have all


def folded(title: str, lines: list[str], opened: bool = False) -> str:
    """A folded list of HTML lines with their number, the first SHOWN of them; "" if there are none."""
    if not lines:
        return ""
    rest = f"<li>and {len(lines) - SHOWN:,} more</li>" if len(lines) > SHOWN else ""
    items = "".join(f"<li>{line}</li>" for line in lines[:SHOWN])
    many = f"{title} ({len(lines):,})"
    return (
        f'<details{" open" if opened else ""}><summary>{many}</summary><ul class="cd-list">{items}{rest}</ul></details>'
    )


def shown_student(student: Student) -> str:
    """A student as HTML."""
    return f"<bdi>{escape(' '.join(student).strip())}</bdi>"
