"""The one writer of formulas: from the plain notation of hints and workings to HTML and MathML.

The notation is what a person types: B_H, d², (d² + l²)^(3/2), √(2m/B_H), tan θ, m = a × b / (2 × c).

    symbols  a text with formulas in it, as HTML in one line: letters below and above the line
    set_out  formulas that stand alone, as MathML with fractions, in pieces between which a line may break
    drawn    the same as symbols in a drawing's text (SVG)
    spoken   a text for where no marks can stand: an option of a menu, a name for a screen reader

A stroke with spaces divides all that is multiplied before it by the one thing after it; a stroke without spaces
divides its two neighbours.  All text passes through `escape`.
"""

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from html import escape

from exercises.working.quantities import QUANTITIES

#: The most characters that stand side by side on a small phone.
WIDEST = 28
RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789−")
LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉µ", "0123456789μ")  # the letter mu, which has an italic form
_LOW = re.compile(r"\b([A-Za-z])_([A-Z])(?![A-Za-z])")
_HIGH = re.compile(r"\^(?:\(([^()]{1,9})\)|(\d(?:[\d.]*\d)?))")
_RELATION = re.compile(r" ([=≈]) ")
_POWER = "[⁻⁰¹²³⁴-⁹]+"
_UNITS = "|".join(
    sorted((re.escape(u) for u in {q.shown for q in QUANTITIES.values()} | {"T", "rad"} if u), key=len, reverse=True)
)
_TOKEN = re.compile(
    rf"(?P<number>(?P<value>\d[\d.]*)(?: × 10(?P<ten>{_POWER}))?(?P<unit>°| ?%| (?:{_UNITS})(?![A-Za-zα-ω_])|))"
    r"|(?P<function>(?:sin|cos|tan|cot)(?![A-Za-z]))"
    r"|(?P<letter>(?P<name>[A-Za-zΑ-Ωα-ωµ])(?P<low>[₀-₉]+|_[A-Z])?)"
    rf"|(?P<power>(?P<small>{_POWER})|\^(?:\((?P<high>[^()]{{1,9}})\)|(?P<digits>\d(?:[\d.]*\d)?)))"
    r"|(?P<over> / |/)|(?P<times> ?[×·] ?)|(?P<plus> ?[+−±] ?)"
    r"|(?P<open>[(\[])|(?P<close>[)\]])|(?P<root>[√∛])|(?P<space> )"
)
#: Letters that stand side by side and are two quantities, not a word.
_PAIRS = ("md", "mB")
ROOTS = {"√": "<msqrt>{}</msqrt>", "∛": "<mroot><mrow>{}</mrow><mn>3</mn></mroot>"}
_THIN = '<mspace width="0.2em"></mspace>'


class _NotRead(Exception):
    """The text is no formula in this notation."""


@dataclass(frozen=True)
class _Part:
    """A piece of a formula: its MathML, its width in characters, the sign before it, and what its brackets hold."""

    mathml: str
    width: int
    sign: str = ""
    inside: "_Part | None" = None

    @property
    def bare(self) -> "_Part":
        """The piece without the brackets around it."""
        return self.inside or self


def symbols(text: str) -> str:
    """A text as HTML in one line, its formulas with letters below and above the line.

    >>> symbols("B_H < (d² + l²)^(3/2)")
    '<i>B</i><sub>H</sub> &lt; (d² + l²)<sup>3/2</sup>'
    """
    low = _LOW.sub(r"<i>\1</i><sub>\2</sub>", escape(text))
    return _HIGH.sub(lambda found: f"<sup>{found[1] or found[2]}</sup>", low)


def drawn(text: str) -> str:
    r"""A text in a drawing (SVG), in one line.

    >>> drawn("(d² + l²)^(3/2)")
    '(d² + l²)<tspan dy="-0.5em" font-size="75%">3/2</tspan><tspan dy="0.375em">\u200b</tspan>'
    """
    low = _LOW.sub(
        lambda found: f'<tspan font-style="italic">{found[1]}</tspan>{_moved(found[2], "0.2", "-0.15")}', escape(text)
    )
    return _HIGH.sub(lambda found: _moved(found[1] or found[2], "-0.5", "0.375"), low)


def _moved(text: str, way: str, back: str) -> str:
    """Small letters off the line, and a sign without width that leads back to it."""
    return f'<tspan dy="{way}em" font-size="75%">{text}</tspan><tspan dy="{back}em">\u200b</tspan>'


def spoken(text: str) -> str:
    """A text for where no marks can stand, escaped.

    >>> spoken("m/B_H"), spoken("(d² + l²)^(3/2)")
    ('m/B H', '(d² + l²) to the power 3/2')
    """
    return _HIGH.sub(lambda found: f" to the power {found[1] or found[2]}", _LOW.sub(r"\1 \2", escape(text)))


@lru_cache(maxsize=500)
def set_out(text: str) -> str:
    """Formulas that stand alone, one after another with semicolons, as HTML with MathML in it.

    What is no formula in this notation, such as words before a colon, is set by `symbols`.
    """
    return "; ".join(f'<span class="er-eq">{_one(one)}</span>' for one in re.split(r"; +", text.replace("\u00a0", " ")))


def _one(text: str) -> str:
    """One formula or chain of equations."""
    named, colon, rest = text.rpartition(": ")
    first, *more = _RELATION.split(rest)
    pieces = _side(first, "")
    for relation, side in zip(more[::2], more[1::2]):
        pieces += _side(side, f'<mo form="infix" lspace="0">{relation}</mo>')
    return symbols(named + colon) + " ".join(pieces)


def _side(text: str, before: str) -> list[str]:
    """One side of an equation, in pieces between which a line may break; `before` is the MathML of its relation."""
    try:
        first, *more = _Reader(text).whole()
    except _NotRead:
        return [*([_math(before)] if before else []), symbols(text)]
    # between pieces there is a space already
    later = (replace(part, sign=part.sign.replace('"infix"', '"infix" lspace="0"')) for part in more)
    return [_math(before + _shown([first])), *(_math(_shown([part])) for part in later)]


def _math(mathml: str) -> str:
    return f'<math displaystyle="true">{mathml}</math>'


def _shown(parts: list[_Part]) -> str:
    return "".join(part.sign + part.mathml for part in parts)


def _width(parts: list[_Part]) -> int:
    return sum(part.width + 2 * bool(part.sign) for part in parts)


def _joined(parts: list[_Part]) -> _Part:
    """Parts as one, with the sign of the first."""
    first, *more = parts
    return _Part(first.mathml + _shown(more), _width([replace(first, sign=""), *more]), first.sign) if more else first


def _fraction(over: _Part, under: _Part) -> _Part:
    above, below = over.bare, under.bare
    shown = f"<mfrac><mrow>{above.mathml}</mrow><mrow>{below.mathml}</mrow></mfrac>"
    return _Part(shown, max(above.width, below.width), over.sign)


def _no_brackets(part: _Part) -> _Part:
    """A factor that is one fraction in brackets, without them: its line holds it together."""
    fraction = part.inside
    alone = fraction and fraction.mathml.startswith("<mfrac>") and fraction.mathml.endswith("</mfrac>")
    return fraction if fraction and alone and fraction.mathml.count("<mfrac>") == 1 else part


class _Reader:
    """Reads one side of an equation from left to right.  `_NotRead` where it is not in the notation."""

    def __init__(self, text: str):
        self.tokens: list[re.Match[str]] = []
        at = 0
        while at < len(text):
            found = _TOKEN.match(text, at)
            if not found:
                raise _NotRead
            if found["name"] and self.tokens and self.tokens[-1]["name"] and not self.tokens[-1]["low"]:
                two = self.tokens[-1]["name"] + found["name"]
                if two.isascii() and two not in _PAIRS:
                    raise _NotRead
            self.tokens.append(found)
            at = found.end()
        self.at = 0

    @property
    def next(self) -> str:
        """The name of the token that comes next, "" at the end."""
        return self.tokens[self.at].lastgroup or "" if self.at < len(self.tokens) else ""

    def take(self, *names: str) -> re.Match[str] | None:
        """The next token where it has one of these names."""
        if self.next not in names:
            return None
        self.at += 1
        return self.tokens[self.at - 1]

    def whole(self) -> list[_Part]:
        """All of it: as one part, or where it is wide, as several."""
        parts = self.sum(breaks=True)
        if self.next or any(part.width > WIDEST for part in parts):
            raise _NotRead
        return parts if _width(parts) > WIDEST else [_joined(parts)]

    def sum(self, breaks: bool) -> list[_Part]:
        """Terms with their signs."""
        parts: list[_Part] = []
        sign = self.take("plus")
        while True:
            first, *more = self.product(breaks)
            if sign:
                form = "infix" if parts else "prefix"
                first = replace(first, sign=f'<mo form="{form}">{sign[0].strip()}</mo>')
            parts += [first, *more]
            sign = self.take("plus")
            if not sign:
                return parts

    def product(self, breaks: bool) -> list[_Part]:
        """Factors with their signs; a stroke with spaces puts those before it over the one after it."""
        parts = [_no_brackets(self.quotient())]
        while found := self.take("space", "times", "over"):
            under = self.quotient()
            if found["over"]:
                # where all factors are too wide to stand over the divisor, the last of them does
                many = len(parts) if not breaks or _width(parts) <= WIDEST else 1
                parts = [*parts[:-many], _fraction(_joined(parts[-many:]), under)]
            else:
                sign = f'<mo form="infix">{found[0].strip()}</mo>' if found["times"] else _THIN
                parts.append(replace(_no_brackets(under), sign=sign))
        return parts

    def quotient(self) -> _Part:
        """Factors side by side, or two such with a stroke between them that has no spaces."""
        part = self.run()
        while self.next == "over" and self.tokens[self.at][0] == "/":
            self.at += 1
            part = _fraction(part, self.run())
        return part

    def run(self) -> _Part:
        """Factors that stand side by side without a space, such as 4π²I; a function with what it is taken of."""
        parts: list[_Part] = []
        while self.next in ("number", "letter", "open", "root", "function"):
            parts.append(self.factor())
        if not parts:
            raise _NotRead
        return _joined(parts)

    def factor(self) -> _Part:
        """One number, letter, bracket or root with its power, or a function."""
        if found := self.take("number"):
            part = _number(found)
        elif found := self.take("letter"):
            part = _letter(found)
        elif found := self.take("function"):
            name = self.powered(_Part(f"<mi>{found[0]}</mi>", 3))
            self.take("space")
            return _joined([name, replace(self.run(), sign=_THIN)])
        elif found := self.take("root"):
            under = self.factor().bare
            part = _Part(ROOTS[found[0]].format(under.mathml), under.width + 1)
        else:
            part = self.bracket()
        return self.powered(part)

    def bracket(self) -> _Part:
        """Something in brackets."""
        opened = self.take("open")
        inside = _joined(self.sum(breaks=False))
        closed = self.take("close")
        if not opened or not closed:
            raise _NotRead
        inside = _Part(inside.sign + inside.mathml, inside.width)
        shown = f"<mrow><mo>{opened[0]}</mo>{inside.mathml}<mo>{closed[0]}</mo></mrow>"
        return _Part(shown, inside.width + 2, inside=inside)

    def powered(self, part: _Part) -> _Part:
        """A factor with the power that comes next, if one does."""
        found = self.take("power")
        if not found:
            return part
        power = (found["small"] or "").translate(RAISED) or found["high"] or found["digits"]
        return _Part(f"<msup><mrow>{part.mathml}</mrow><mn>{power}</mn></msup>", part.width + 1)


def _number(found: re.Match[str]) -> _Part:
    """A number with its power of ten and its unit."""
    shown = f"<mn>{found['value']}</mn>"
    if found["ten"]:
        shown += f"<mo>×</mo><msup><mn>10</mn><mn>{found['ten'].translate(RAISED)}</mn></msup>"
    if found["unit"]:
        shown += f"<mtext>{symbols(found['unit'].replace(' ', '\u00a0'))}</mtext>"
    return _Part(shown, len(found[0]))


def _letter(found: re.Match[str]) -> _Part:
    """A letter with what stands below it."""
    name = f"<mi>{found['name'].translate(LOWERED)}</mi>"
    if not found["low"]:
        return _Part(name, 1)
    low = found["low"].removeprefix("_").translate(LOWERED)
    below = f"<mn>{low}</mn>" if low.isdigit() else f'<mi mathvariant="normal">{low}</mi>'
    return _Part(f"<msub>{name}{below}</msub>", 2)
