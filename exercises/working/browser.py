"""How a page and Python talk: Python answers with a JSON object as text, and the page hands over a file's bytes."""

import json
from collections.abc import Buffer
from typing import Protocol, runtime_checkable


def page_answer(**fields: object) -> str:
    """A JSON object as text.  TypeError if a field is nothing that JSON can hold.

    >>> page_answer(ok=True, text="20°")
    '{"ok": true, "text": "20°"}'
    """
    return json.dumps(fields, ensure_ascii=False)


@runtime_checkable
class BrowserBytes(Protocol):
    """An array of bytes of the browser's own, as the runtime in the page passes it on."""

    def to_py(self) -> Buffer:
        """The same bytes as Python has them."""


def bytes_of(data: Buffer | BrowserBytes) -> bytes:
    """The bytes of a file, as the browser hands them over or as Python does."""
    return bytes(data.to_py() if isinstance(data, BrowserBytes) else data)
