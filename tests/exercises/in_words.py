"""The words of a page."""

import html
import re
import zlib

#: Elements that break no line.
WITHIN_A_LINE = (
    *("b", "i", "em", "strong", "bdi", "sub", "sup", "var", "code", "a", "span", "abbr"),
    *("mi", "mn", "mo", "mrow", "math", "mtext", "mspace", "msub", "msup", "msqrt", "mroot", "mfrac"),
)


def lines_of(page_html: str) -> list[str]:
    """The text of some HTML, a line a piece; of a drawing its words, and a number that changes if a line moves."""

    def drawn(match: re.Match) -> str:
        words = re.findall(r">([^<>]*\S[^<>]*)<", match[0])
        shape = re.sub(r"-?\d+\.\d+", lambda n: f"{float(n[0]):.1f}", match[0])
        return f"<i>drawing {zlib.crc32(shape.encode()):08x}: {' | '.join(words)}</i>"

    text = re.sub(r"<style.*?</style>", "", page_html, flags=re.DOTALL)
    text = re.sub(r"<svg.*?</svg>", drawn, text, flags=re.DOTALL)
    row = r"<mrow>((?:(?!<mfrac>).)*?)</mrow>"
    text = re.sub(f"<mfrac>{row}{row}</mfrac>", r"[\1]/[\2]", text)
    text = re.sub(rf"</?(?:{'|'.join(WITHIN_A_LINE)})\b[^>]*>", "", text)
    return [html.unescape(" ".join(piece.split())) for piece in re.split(r"<[^>]*>", text) if piece.strip()]
