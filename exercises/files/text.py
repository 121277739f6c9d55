"""The text of a file's bytes."""

from typing import Protocol

LARGEST = 20_000_000  # bytes of a file


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


def decode(raw: bytes) -> str:
    """The text of a file, UTF-8 or UTF-16 by its byte-order mark.  FileError if it is neither, or too large."""
    if len(raw) > LARGEST:
        raise FileError(f"This file has {len(raw):,} bytes; at most {LARGEST:,} are read.")
    try:
        if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
            return raw.decode("utf-16")
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise FileError(
            "The letters of this file are not stored as UTF-8, so names could be read wrongly. "
            "Save it again as UTF-8; in a spreadsheet that is “CSV UTF-8”."
        ) from None
