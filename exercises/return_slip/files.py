"""The text of a file that was handed in: plain text, or mail as it is saved (RFC 5322 with MIME)."""

import re
from collections.abc import Sequence
from html import unescape

from exercises.files.text import is_utf_16

LARGEST = 40_000_000  # bytes
_NO_TEXT = {
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"GIF8": "a picture",
    b"RIFF": "a picture",
    b"%PDF": "a PDF",
    b"PK\x03\x04": "a packed file or a document",
    b"\xd0\xcf\x11\xe0": "a document",
}
_HEADER = re.compile(rb"(?:[A-Za-z][A-Za-z0-9-]{0,60}:[^\n]{0,2000}\r?\n(?:[ \t][^\n]{0,2000}\r?\n){0,200}){2}")
_MOST_PARTS = 1000
_LONGEST_HEADER = 1000  # characters of one header of a mail that are read
_TAG = re.compile(r"<(/?)([a-z][a-z0-9:]{0,30})?[^<>]*>", re.IGNORECASE)
_HIDING, _BREAKING = ("script", "style", "head"), ("br", "p", "div", "li", "tr", "pre", "blockquote")


class NoText(ValueError):
    """A file that holds no text that can be read; the text of the error says why."""


def text_of(raw: bytes, name: str) -> str:
    """The text in a file's bytes; of a mail, that of its parts and its attached text files.

    UTF-8, UTF-16 by its byte-order mark, or else Windows' Western letters: a slip's own checks tell
    whether that was right.  NoText, with a sentence, if it is no text.
    """
    name = name[:80]
    if not raw.strip():
        raise NoText(f"{name} is empty.")
    if len(raw) > LARGEST:
        raise NoText(f"{name} has {len(raw):,} bytes; at most {LARGEST:,} are read. Give it in parts.")
    for start, what in _NO_TEXT.items():
        if raw.startswith(start):
            raise NoText(f"{name} is {what}, and a return slip is read from text only. Copy its text, or type it.")
    if name.lower().endswith(".eml") or (
        _HEADER.match(raw) and re.search(rb"^(?:from|mime-version):", raw[:100_000], re.I | re.M)
    ):
        try:
            return _mail(raw, name)
        except RecursionError:
            raise NoText(
                f"{name} is a mail of mails in mails, too deep to be read. Save its text as plain text."
            ) from None
    return _plain(raw, name)


def _plain(raw: bytes, name: str) -> str:
    try:
        if is_utf_16(raw):
            return raw.decode("utf-16")
        if b"\0" in raw:
            raise ValueError
        try:
            return raw.decode("utf-8-sig")
        except UnicodeDecodeError:
            return raw.decode("cp1252", "replace")
    except ValueError:
        raise NoText(f"{name} is not text. Save the slip as plain text (.txt), or copy it into the page.") from None


def _mail(raw: bytes, name: str) -> str:
    import email  # only here: the browser need not load it to read what was pasted
    import email.policy

    class Short(email.policy.Compat32):
        """Headers as they stand, cut: to take a long one apart takes time as the square of its length."""

        def header_source_parse(self, sourcelines: Sequence[str]) -> tuple[str, str]:
            header, value = super().header_source_parse(list(sourcelines))
            return header, value[:_LONGEST_HEADER]

    plain: list[str] = []
    pages: list[str] = []
    for at, part in enumerate(email.message_from_bytes(raw, policy=Short()).walk()):
        if at >= _MOST_PARTS:
            raise NoText(f"{name} is a mail of more than {_MOST_PARTS:,} parts. Save its text as plain text.")
        if part.get_content_type() not in ("text/plain", "text/html"):
            continue
        body = part.get_payload(decode=True)
        body = body if isinstance(body, bytes) else b""
        try:
            text = body.decode(part.get_content_charset() or "")
        except (LookupError, ValueError):  # no charset, one that does not exist, or not the one that is named
            text = _plain(body, name)
        (plain if part.get_content_type() == "text/plain" else pages).append(text)
    if not plain and not pages:
        raise NoText(f"{name} is a mail without text. Save the slip itself as plain text (.txt).")
    return "\n".join(plain or map(_page, pages))


def _page(text: str) -> str:
    """The text of a page: its blocks on lines of their own, without its scripts and styles.

    Read by its tags alone, in time in proportion to its length whatever is in it; a slip has no < or > of its own.
    """
    out, hidden, at = [], 0, 0
    text = _without_comments(text)
    for tag in _TAG.finditer(text):
        if not hidden:
            out.append(text[at : tag.start()])
        at = tag.end()
        name = (tag[2] or "").lower()
        if name in _HIDING:
            hidden = max(0, hidden - 1) if tag[1] else hidden + 1
        elif name in _BREAKING:
            out.append("\n")
    if not hidden:
        out.append(text[at:])
    return unescape(re.sub(r"&#\w{9,}", "\ufffd", "".join(out)))


def _without_comments(text: str) -> str:
    out, at = [], 0
    while (start := text.find("<!--", at)) >= 0 and (end := text.find("-->", start + 4)) >= 0:
        out.append(text[at:start])
        at = end + 3
    return "".join([*out, text[at:]])
