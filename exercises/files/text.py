"""The text of a file's bytes."""

from typing import Protocol

LARGEST = 20_000_000  # bytes of a file
BYTE_ORDER_MARK = "\ufeff"  # tells a spreadsheet that a table's letters are UTF-8
_NO_TEXT = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # how a workbook of today begins, and one of before


class FileError(ValueError):
    """A file that has no text that can be used; the text says why."""


class FromBrowser(Protocol):
    """Bytes as a page hands them over."""

    def to_py(self) -> memoryview:
        """The bytes as Python has them."""
        ...


def bytes_of(raw: bytes | FromBrowser) -> bytes:
    """The bytes of a file, as a page hands them over or as Python has them."""
    return raw if isinstance(raw, bytes) else bytes(raw.to_py())


def is_utf_16(raw: bytes) -> bool:
    """Whether the bytes begin with a byte-order mark of UTF-16."""
    return raw.startswith((b"\xff\xfe", b"\xfe\xff"))


def without_mark(text: str) -> str:
    """The text without the byte-order mark that it may begin with."""
    return text.removeprefix(BYTE_ORDER_MARK)


def decode(raw: bytes) -> str:
    """The text of a file, UTF-8 or UTF-16 by its byte-order mark.  FileError if it is no text, or too large."""
    if len(raw) > LARGEST:
        raise FileError(f"This file has {len(raw):,} bytes; at most {LARGEST:,} are read.")
    if raw.startswith(_NO_TEXT):
        raise FileError(
            "This is a workbook, a document or a packed file, and only text is read here. Open it in a spreadsheet "
            "and save it as “CSV UTF-8”."
        )
    try:
        if is_utf_16(raw):
            return raw.decode("utf-16")
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise FileError(
            "The letters of this file are not stored as UTF-8, so names could be read wrongly. "
            "Save it again as UTF-8; in a spreadsheet that is “CSV UTF-8”."
        ) from None
