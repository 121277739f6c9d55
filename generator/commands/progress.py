"""How far long work is, on the error stream."""

import sys
import time
from collections.abc import Callable
from typing import TextIO

PATIENCE = 1.0  # seconds before progress is told, and between two lines of it


class Progress:
    """How far long work is: a line on the error stream that is written over where that is a terminal."""

    def __init__(self, total: int, stream: TextIO | None = None, clock: Callable[[], float] = time.monotonic) -> None:
        self.total, self.done, self.told = total, 0, False
        self.stream, self.clock = stream or sys.stderr, clock
        self.last = clock()

    def one_more(self) -> None:
        """Count one sheet more, and tell it if it is time."""
        self.done += 1
        if self.clock() - self.last >= PATIENCE:
            self.last, self.told = self.clock(), True
            over = self.stream.isatty()
            text = f"{self.done:,} of {self.total:,} sheets ({100 * self.done // self.total} %)"
            print(f"\r{text}" if over else text, end="" if over else "\n", file=self.stream, flush=True)

    def end(self) -> None:
        """Leave the line on a terminal, whole."""
        if self.told and self.stream.isatty():
            print(f"\r{self.total:,} of {self.total:,} sheets (100 %)", file=self.stream, flush=True)
