"""The text of a file that was handed in: plain text, or mail as it is saved (RFC 5322 with MIME)."""

import re
from collections.abc import Iterator, Sequence
from datetime import UTC
from html import unescape
from typing import TYPE_CHECKING, NamedTuple

from exercises.files.text import is_utf_16

if TYPE_CHECKING:
    from email.message import Message

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
    """A file that holds no text that can be read; the text of the error says of “it” why."""


class Letter(NamedTuple):
    """A text that was handed in.

    mailed  when the mail was sent that it stands in: UTC, "2026-11-26 13:06:41", or ""
    page    what that mail says as a page, where it has both: some mail programs leave out of the text what it shows
    """

    text: str
    mailed: str = ""
    page: str = ""


def text_of(raw: bytes, name: str) -> str:
    """All that `letters_of` finds, as one text."""
    return "\n".join(letter.text for letter in letters_of(raw, name))


def letters_of(raw: bytes, name: str) -> list[Letter]:
    """The text in a file's bytes; of a mail, that of its parts and its attached text files.

    A mail that holds whole mails gives one for each: they have dates of their own.
    UTF-8, UTF-16 by its byte-order mark, or else Windows' Western letters: a slip's own checks tell
    whether that was right.  NoText, with a sentence, if it is no text.
    """
    if not raw.strip():
        raise NoText("It is empty.")
    if len(raw) > LARGEST:
        raise NoText(f"It has {len(raw):,} bytes; at most {LARGEST:,} are read. Give it in parts.")
    for start, what in _NO_TEXT.items():
        if raw.startswith(start):
            raise NoText(f"It is {what}, and a return slip is read from text only. Copy its text, or type it.")
    if name.lower().endswith(".eml") or (
        _HEADER.match(raw) and re.search(rb"^(?:from|mime-version):", raw[:100_000], re.I | re.M)
    ):
        try:
            return _mails(raw)
        except RecursionError:
            raise NoText("It is a mail of mails in mails, too deep to be read. Save its text as plain text.") from None
    return [Letter(_plain(raw))]


def _plain(raw: bytes) -> str:
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
        raise NoText("It is not text. Save the slip as plain text (.txt), or copy it into the page.") from None


def _mails(raw: bytes) -> list[Letter]:
    import email  # only here: the browser need not load it to read what was pasted
    import email.policy

    class Short(email.policy.Compat32):
        """Headers as they stand, cut: to take a long one apart takes time as the square of its length."""

        def header_source_parse(self, sourcelines: Sequence[str]) -> tuple[str, str]:
            header, value = super().header_source_parse(list(sourcelines))
            return header, value[:_LONGEST_HEADER]

    mails: list[_Mail] = []
    for mail, part in _parts(email.message_from_bytes(raw, policy=Short()), mails):
        kind = part.get_content_type()
        if kind not in ("text/plain", "text/html"):
            continue
        body = part.get_payload(decode=True)
        body = body if isinstance(body, bytes) else b""
        try:
            text = body.decode(part.get_content_charset() or "")
        except (LookupError, ValueError):  # no charset, one that does not exist, or not the one that is named
            text = _plain(body)
        (mail.plain if kind == "text/plain" else mail.pages).append(text)
    letters = [
        Letter(
            "\n".join(mail.plain or map(_page, mail.pages)),
            mail.mailed,
            "\n".join(map(_page, mail.pages)) if mail.plain else "",
        )
        for mail in mails
        if mail.plain or mail.pages
    ]
    if not letters:
        raise NoText("It is a mail without text. Save the slip itself as plain text (.txt).")
    return letters


class _Mail(NamedTuple):
    """A mail's texts, plain and as pages, and when it was sent, or ""."""

    plain: list[str]
    pages: list[str]
    mailed: str = ""


def _parts(message: "Message", mails: list[_Mail]) -> Iterator[tuple[_Mail, "Message"]]:
    """Every part of a mail with the innermost mail that it is of; each new mail is added to the list."""
    waiting: list[tuple[Message, _Mail | None]] = [(message, None)]
    for _ in range(_MOST_PARTS):
        if not waiting:
            return
        part, mail = waiting.pop()
        if mail is None:
            mail = _Mail([], [], _sent(part["date"]))
            mails.append(mail)
        yield mail, part
        if part.is_multipart():
            inner = None if part.get_content_maintype() == "message" else mail
            within = [each for each in part.get_payload() if isinstance(each, type(message))]
            waiting += [(each, inner) for each in reversed(within)]
    if waiting:
        raise NoText(f"It is a mail of more than {_MOST_PARTS:,} parts. Save its text as plain text.")


def _sent(header: object) -> str:
    """When a mail was sent by its Date header (RFC 5322), in UTC, or ""; an unknown zone, -0000, counts as UTC."""
    from email.utils import parsedate_to_datetime

    try:
        found = parsedate_to_datetime(str(header))
        utc = found.replace(tzinfo=found.tzinfo or UTC).astimezone(UTC)
        return utc.replace(tzinfo=None).isoformat(" ", "seconds")  # with four figures for the year 999 too
    except (ValueError, TypeError, OverflowError, IndexError):
        return ""


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
