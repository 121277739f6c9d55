"""How a typed text stands in a return slip, and how what mail and chat do to it is undone.

A slip is to survive a mail program, a chat, a spreadsheet's cell and a person
who types it again from a photograph.  So every character that is changed by
one of these on its way is written in braces:

    {^-3}  raised figures and signs, ⁻³      {sp}  a space at an end or after a space
    {2a}   any other character, by its number in Unicode, here *

and for whoever types a slip again {x} × {.} · {o} ° {u} µ are read too.  What
is not in braces comes back as typed although quotation marks, dashes, spaces,
letters in two pieces (Unicode's normal forms, UAX #15) or line ends were
changed; only × may come back as x and the long minus as the short one, and the
judge takes these for the same.
"""

import re
import unicodedata
from functools import lru_cache

from exercises.codes.sheet_code import ALPHABET, BASE, LOOK_ALIKES

#: Length of a check -> the largest prime below 23 to that power (of 529 and of 6,436,343).
PRIMES = {2: 523, 5: 6436327}

_RAISED, _LEVEL = "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-"
_LEVELLED, _LIFTED = str.maketrans(_RAISED, _LEVEL), str.maketrans(_LEVEL, _RAISED)
_RAISED_RUN = re.compile(f"[{_RAISED}]{{1,16}}")  # no longer than what is read in braces
_NAMES = {"x": "×", ".": "·", "o": "°", "u": "µ", "sp": " "}
_KEPT = frozenset("×·°−µ")
#: Plain characters that something on the way may act on: quoting, marking up, our own marks.
_ACTED_ON = frozenset('{}[]\\<>|&"_`~')
_INVISIBLE = [0xAD, 0x61C, 0x180E, 0xFEFF, *range(0x200B, 0x2010), *range(0x202A, 0x202F), *range(0x2060, 0x2070)]
#: What is undone: what cannot be seen goes out, and each variant of a mark becomes the plain one.
_BEFORE = {**dict.fromkeys(map(chr, _INVISIBLE), ""), **dict.fromkeys("º˚∘", "°")}
_AFTER = dict(zip("‐‑‒–—―⁃‘’‚‛“”„‟⁄✕✖∙⋅•μ", "-------''''\"\"\"\"/××···µ", strict=True))
_ANY_BEFORE, _ANY_AFTER = (re.compile(f"[{re.escape(''.join(marks))}]") for marks in (_BEFORE, _AFTER))
_QUOTED = re.compile(r"^[ \t\xa0]*[>|•▪◦‣][ \t\xa0>|]*", re.MULTILINE)
#: What would be taken for a slip's first or last line; its first letter is written by its number.
_EDGES = re.compile(r"e(?=ight\W{1,12}readings)|e(?=nd\W{1,12}of\W{1,12}slip)", re.IGNORECASE)
_BRACES = re.compile(r"\{ ?([^{} ]{1,20}) ?\}")


def carried(text: str) -> str:
    """A typed text as it stands in a slip.  Half a character (a lone surrogate) becomes U+FFFD.

    >>> carried("4.1 × 10⁻³ A·m²")
    '4.1 × 10{^-3} A·m{^2}'
    """
    out, before = [], " "
    for at, c in enumerate(text):
        if c == " ":
            out.append("{sp}" if before == " " or at == len(text) - 1 else " ")
        elif c in _RAISED or (_is_plain(c) and not (c == before == "-")):
            out.append(c)
        else:
            out.append(_by_number(c))
        before = c
    plain = _RAISED_RUN.sub(lambda run: f"{{^{run[0].translate(_LEVELLED)}}}", "".join(out))
    # two characters that are safe alone may join into one
    if not plain.isascii() and unicodedata.normalize("NFKC", plain) != plain.replace("µ", "μ"):
        plain = "".join(c if c.isascii() or c in _KEPT else _by_number(c) for c in plain)
    return _EDGES.sub(lambda first: _by_number(first[0]), plain)


def _is_plain(c: str) -> bool:
    if c.isascii():
        return c.isprintable() and c not in _ACTED_ON
    kind = unicodedata.category(c)
    stable = kind[0] in "LM" or kind == "Nd"
    return c in _KEPT or (stable and c not in _AFTER and unicodedata.normalize("NFKC", c) == c)


def _by_number(c: str) -> str:
    return f"{{{0xFFFD if unicodedata.category(c) == 'Cs' else ord(c):x}}}"


def restored(text: str) -> str:
    """The typed text of what stands in a slip.  ValueError if something in braces stands for nothing."""
    if "{" not in text and "}" not in text:
        return text
    plain, many = _BRACES.subn(lambda match: _one(match[1].lower()), text)
    if not text.count("{") == text.count("}") == many:
        raise ValueError("a brace without its fellow")
    return plain


@lru_cache(maxsize=256)  # units have the same few again and again
def _one(name: str) -> str:
    if name in _NAMES:
        return _NAMES[name]
    if name[0] == "^" and name[1:] and not name[1:].strip(_LEVEL):
        return name[1:].translate(_LIFTED)
    if not re.fullmatch("[0-9a-f]{1,6}", name) or (number := int(name, 16)) > 0x10FFFF or 0xD800 <= number < 0xE000:
        raise ValueError(f"nothing is written {{{name}}}")
    return chr(number)


def untangled(body: str) -> str:
    """The text between a slip's first and last line as one line, with what was done to it on the way undone."""
    body = _QUOTED.sub("", body.replace("\r", "\n"))
    if not body.isascii():
        body = _ANY_BEFORE.sub(lambda mark: _BEFORE[mark[0]], body)
        body = _RAISED_RUN.sub(lambda run: f"{{^{run[0].translate(_LEVELLED)}}}", body)
        body = _ANY_AFTER.sub(lambda mark: _AFTER[mark[0]], unicodedata.normalize("NFKC", body))
    return " ".join(body.split()).replace("\\ ", "")


def check(text: str, length: int) -> str:
    """The check of a text: `length` characters of a sheet code's alphabet.

    The text is one number, its characters the digits to base 2³², modulo a prime.  So one character put
    for another is always caught, unless the two lie a multiple of the prime apart in Unicode, and so are
    two characters swapped; any other change passes once in 523 times (two characters) or once in 6.4
    million (five).  It guards against accidents: whoever means to deceive can work it out too.
    """
    number = (
        int.from_bytes(text.replace("×", "x").replace("−", "-").encode("utf-32-be", "surrogatepass"), "big")
        % PRIMES[length]
    )
    out = ""
    for _ in range(length):
        number, digit = divmod(number, BASE)
        out = ALPHABET[digit] + out
    return out


def read_check(text: str) -> str:
    """A check as it was copied: capitals, and of each look-alike pair the one that is used."""
    return "".join(LOOK_ALIKES.get(c, c) for c in text.upper())
