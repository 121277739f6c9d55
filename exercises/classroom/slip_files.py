"""The text of a file that was handed in: plain text, or mail as it is saved (RFC 5322 with MIME)."""

import re
from html.parser import HTMLParser

LARGEST = 40_000_000  # bytes
_NO_TEXT = {
    b"\x89PNG": "a picture", b"\xff\xd8\xff": "a picture", b"GIF8": "a picture", b"RIFF": "a picture", b"%PDF": "a PDF",
    b"PK\x03\x04": "a packed file or a document", b"\xd0\xcf\x11\xe0": "a document",
}  # fmt: skip
_HEADER = re.compile(rb"(?:[A-Za-z][A-Za-z0-9-]{0,60}:[^\n]{0,2000}\r?\n(?:[ \t][^\n]{0,2000}\r?\n){0,200}){2}")
_MOST_PARTS = 1000


def text_of(raw: bytes, name: str) -> str:
    """The text in a file's bytes; of a mail, that of its parts and its attached text files.

    UTF-8, UTF-16 by its byte-order mark, or else Windows' Western letters: a slip's own checks tell
    whether that was right.  ValueError, with a sentence, if it is no text.
    """
    name = name[:80]
    if not raw.strip():
        raise ValueError(f"{name} is empty.")
    if len(raw) > LARGEST:
        raise ValueError(f"{name} has {len(raw):,} bytes; at most {LARGEST:,} are read. Give it in parts.")
    for start, what in _NO_TEXT.items():
        if raw.startswith(start):
            raise ValueError(f"{name} is {what}, and a return slip is read from text only. Copy its text, or type it.")
    if name.lower().endswith(".eml") or (_HEADER.match(raw) and re.search(rb"^(?:from|mime-version):", raw[:100_000], re.I | re.M)):
        try:
            return _mail(raw, name)
        except RecursionError:
            raise ValueError(f"{name} is a mail of mails in mails, too deep to be read. Save its text as plain text.") from None
    return _plain(raw, name)


def _plain(raw: bytes, name: str) -> str:
    try:
        if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
            return raw.decode("utf-16")
        if b"\0" in raw:
            raise ValueError
        try:
            return raw.decode("utf-8-sig")
        except UnicodeDecodeError:
            return raw.decode("cp1252", "replace")
    except ValueError:
        raise ValueError(f"{name} is not text. Save the slip as plain text (.txt), or copy it into the page.") from None


def _mail(raw: bytes, name: str) -> str:
    import email  # only here: the browser need not load it to read what was pasted
    import email.policy

    plain, pages = [], []
    for at, part in enumerate(email.message_from_bytes(raw, policy=email.policy.default).walk()):
        if at >= _MOST_PARTS:
            raise ValueError(f"{name} is a mail of more than {_MOST_PARTS:,} parts. Save its text as plain text.")
        if part.get_content_type() not in ("text/plain", "text/html"):
            continue
        body = part.get_payload(decode=True) or b""
        try:
            text = body.decode(part.get_content_charset() or "")
        except (LookupError, ValueError):  # no charset, one that does not exist, or not the one that is named
            text = _plain(body, name)
        (plain if part.get_content_type() == "text/plain" else pages).append(text)
    if not plain and not pages:
        raise ValueError(f"{name} is a mail without text. Save the slip itself as plain text (.txt).")
    return "\n".join(plain or map(_page, pages))


class _Reader(HTMLParser):
    """The text of a page: its blocks on lines of their own, without its scripts and styles."""

    def __init__(self):
        super().__init__()
        self.out: list[str] = []
        self.hidden = 0

    def handle_starttag(self, tag, attrs):
        self.hidden += tag in ("script", "style", "head")
        if tag in ("br", "p", "div", "li", "tr", "pre", "blockquote"):
            self.out.append("\n")

    def handle_endtag(self, tag):
        self.hidden -= tag in ("script", "style", "head") and self.hidden > 0
        self.handle_starttag("br", ()) if tag in ("p", "div", "li", "tr") else None

    def handle_data(self, data):
        if not self.hidden:
            self.out.append(data)


def _page(text: str) -> str:
    reader = _Reader()
    reader.feed(text)
    reader.close()
    return "".join(reader.out)
