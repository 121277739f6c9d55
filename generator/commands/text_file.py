"""A file that is written piece by piece as text: as it is, or as the sheet of a workbook."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Protocol

from exercises.files.workbook import Written, around


class TextFile(Protocol):
    """What takes the pieces."""

    def write(self, text: str, /) -> object:
        """Write a piece."""
        ...


class _Sheet:
    """The sheet of a workbook: counts what is written of it."""

    def __init__(self, file: "_Binary") -> None:
        self._file, self.written = file, Written()

    def write(self, text: str, /) -> None:
        raw = text.encode()
        self.written = self.written.and_then(raw)
        self._file.write(raw)


class _Binary(Protocol):
    def write(self, raw: bytes, /) -> object: ...


@contextmanager
def text_file(path: Path) -> Iterator[TextFile]:
    """A new file; one whose name ends in .xlsx is a workbook, and the text is its sheet's."""
    if path.suffix != ".xlsx":
        with open(path, "w", encoding="utf-8", newline="") as plain:
            yield plain
        return
    with open(path, "wb") as file:
        file.write(around(Written())[0])  # in the place of what is known at the end
        sheet = _Sheet(file)
        yield sheet
        front, back = around(sheet.written)
        file.write(back)
        file.seek(0)
        file.write(front)


def write_text(path: Path, text: str) -> None:
    """Write a whole text as it is, with the ends of lines that it has."""
    path.write_text(text, encoding="utf-8", newline="")
