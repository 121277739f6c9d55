"""The golden codes and their numbers, as they were when their edition was made."""

import json
from pathlib import Path

FOLDER = Path(__file__).with_name("golden")
HOW_MANY = {"tan-a": 200, "": 40}  # codes of a kind; "" for every other

GOLDEN = [json.loads(line) for path in sorted(FOLDER.glob("*.jsonl")) for line in path.read_text().splitlines()]


def codes_of(letter: str) -> list[str]:
    """The golden codes of the kind with this letter."""
    return [golden["code"] for golden in GOLDEN if golden["code"][0] == letter]
