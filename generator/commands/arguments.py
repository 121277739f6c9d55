"""The commands of `eight`, as each of them enters its arguments."""

import argparse
from typing import Protocol


class Commands(Protocol):
    """The commands of a parser."""

    def add_parser(
        self,
        name: str,
        *,
        help: str,
        epilog: str | None = None,
        formatter_class: type[argparse.HelpFormatter] = ...,
        allow_abbrev: bool = ...,
    ) -> argparse.ArgumentParser:
        """A new command and its own parser."""
        ...
