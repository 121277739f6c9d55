"""Notation that a page is to set and not to show: B_H, ^(3/2), m^1.5, and LaTeX."""

import re
from html.parser import HTMLParser

RAW = re.compile(r"\b[A-Za-z]_[A-Za-z]|\^[(\d]|\\[a-z]{2,}|_\\")
#: What holds text that is typed, copied or run, and so stands as it is typed.
LEFT = {"script", "style", "code", "pre", "textarea"}
SHOWN = {"aria-label", "title", "alt", "placeholder", "content", "label"}
VOID = {"area", "br", "col", "hr", "img", "input", "link", "meta", "source"}


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.within: list[str] = []
        self.found: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.found += [f"{tag}[{name}]: {text}" for name, text in attrs if name in SHOWN and RAW.search(text or "")]
        if tag not in VOID:
            self.within.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        self.handle_endtag(tag)

    def handle_endtag(self, tag):
        if tag in self.within:
            while self.within.pop() != tag:
                pass

    def handle_data(self, data):
        if not LEFT & set(self.within) and (found := RAW.search(data)):
            self.found.append(data[max(0, found.start() - 40) : found.end() + 40])


def raw_in(html: str) -> list[str]:
    """Raw notation in what HTML shows or has read out, each with some text around it."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.found
