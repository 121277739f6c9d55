"""The golden codes of each kind, and the numbers that they stood for when their edition was made.

They are in golden/KIND.jsonl, a line a code.  A number there never changes while
its edition is in use: `tests.keep` writes only what is missing.
"""

import json
import random
from pathlib import Path
from typing import Any

from exercises.codes.editions import counts_of
from exercises.codes.sheet_code import DISTANCES, LENGTHS_MM, SCALE_STEPS, SEEDS, Setting, SheetCode, read, write
from exercises.kinds.kind import Kind
from exercises.student.desk import numbers

FOLDER = Path(__file__).with_name("golden")
HOW_MANY = {"tan-a": 200, "": 40}  # codes of a kind and an edition; "" for every other kind


def kept(folder: Path = FOLDER) -> list[dict[str, Any]]:
    """Every golden code with its numbers, as the files have them."""
    return [json.loads(line) for path in sorted(folder.glob("*.jsonl")) for line in path.read_text().splitlines()]


GOLDEN = kept()


def codes_of(letter: str) -> list[str]:
    """The golden codes of the kind with this letter."""
    return [golden["code"] for golden in GOLDEN if golden["code"][0] == letter]


def new_codes(kind: Kind) -> list[str]:
    """Codes of the kind's newest edition: half are left open to the draw, half fix some of a laboratory's settings."""
    chance, offered = random.Random(f"golden {kind.slug}"), counts_of(kind.edition)
    codes = []
    for i in range(HOW_MANY.get(kind.slug, HOW_MANY[""])):
        setting = Setting()
        if i % 2:
            setting = Setting(
                chance.choice((None, chance.randrange(offered.places))),
                chance.choice(SCALE_STEPS[: offered.steps]),
                chance.choice(DISTANCES[: offered.distances]),
                chance.choice((None, chance.choice(LENGTHS_MM[: offered.lengths]))),
            )
        codes.append(write(SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS), setting)))
    return codes


def keep(kind: Kind, anew: bool = False, folder: Path = FOLDER) -> bool:
    """Write the golden codes of a kind's newest edition, if it has none yet; whether they were written.

    anew  write the numbers of this edition again, for the codes that it has; older editions stay
    """
    path = folder / f"{kind.slug}.jsonl"
    lines = path.read_text().splitlines() if path.exists() else []
    newest = [line for line in lines if read(json.loads(line)["code"]).edition == kind.edition]
    if newest and not anew:
        return False
    codes = [json.loads(line)["code"] for line in newest] or new_codes(kind)
    older = [line for line in lines if line not in newest]
    path.write_text("\n".join([*older, *map(numbers, codes)]) + "\n")
    return True
