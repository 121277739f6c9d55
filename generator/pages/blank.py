"""Blank observation tables to print, for tan A and tan B."""

from exercises.bench.instrument import EIGHT
from exercises.record.magnetic_length import WORDS

ROWS = 6


def blank(arms: tuple[str, str], bracket: str) -> str:
    """An empty observation table with its columns of working."""
    directions = list(dict.fromkeys((arm, north) for arm, north, _ in EIGHT))
    head = "".join(f'<th colspan="4">magnet on the {name} arm</th>' for name in arms)
    norths = "".join(f'<th colspan="2">N {north}</th>' for _, north in directions)
    ends = "".join(f"<th>{'①②'[end - 1]}</th>" for *_, end in EIGHT)
    last = "".join(f'<th rowspan="3">{title}</th>' for title in ("mean θ", "tan θ", bracket, "m, A·m²"))
    body = ("<tr>" + "<td></td>" * 13 + "</tr>") * ROWS
    lines = "".join(
        f"<p>{what} <span></span></p>"
        for what in (
            "Name and date",
            "Magnet, length of the bar",
            "Magnetic length 2l",
            "<i>B<sub>H</sub></i>",
            "Scale step",
            "Length of the needle",
        )
    )
    # the laboratory's rule is marked by hand
    rules = " &emsp; ".join(f"☐ {words}" for words in WORDS.values())
    return (
        f'<div class="er-blank"><div class="er-lines">{lines}</div><p class="er-rules">2l is: {rules}</p>'
        '<div class="er-scroll" tabindex="0" role="group" aria-label="Observations">'
        f'<table class="er-observations"><thead><tr><th rowspan="3">d<br>cm</th>{head}{last}</tr>'
        f"<tr>{norths}</tr><tr>{ends}</tr></thead><tbody>{body}</tbody></table></div>"
        '<div class="er-lines"><p>Mean moment m <span></span></p>'
        "<p>Pole strength p = m / 2l <span></span></p></div></div>"
    )


def tan_a() -> str:
    """The blank table of tan A."""
    return blank(("east", "west"), "(d² − l²)²")


def tan_b() -> str:
    """The blank table of tan B."""
    return blank(("north", "south"), "(d² + l²)<sup>3/2</sup>")
