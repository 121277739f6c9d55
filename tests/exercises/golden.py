"""The golden codes of each kind, and the numbers that they stood for when their edition was made.

They are in golden/KIND.jsonl, a line a code.  A number there never changes while
its edition is in use: `tests.keep` writes only what is missing.
"""

import json
import random
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from exercises.codes.editions import NEWEST, counts_of
from exercises.codes.sheet_code import (
    DISTANCES,
    FIELDS_UT10,
    FIRST_YEAR,
    GRIDS_MM,
    LENGTHS_MM,
    SCALE_STEPS,
    SEEDS,
    TWO_L,
    YEARS,
    Setting,
    SheetCode,
    Station,
    read,
    write,
)
from exercises.kinds.kind import Kind
from exercises.student.desk import numbers

FOLDER = Path(__file__).with_name("golden")
HOW_MANY = {"tan-a": 200, "": 60}  # codes of a kind and an edition; "" for every other kind


def kept(folder: Path = FOLDER) -> list[dict[str, Any]]:
    """Every golden code with its numbers, as the files have them."""
    return [json.loads(line) for path in sorted(folder.glob("*.jsonl")) for line in path.read_text().splitlines()]


GOLDEN = kept()


def codes_of(letter: str) -> list[str]:
    """The golden codes of the kind with this letter."""
    return [golden["code"] for golden in GOLDEN if golden["code"][0] == letter]


def any_setting(chance: random.Random) -> Setting:
    """Some of a laboratory's settings fixed, the others left open; a kind may refuse them together."""

    def some[T](choices: Sequence[T], open_: T) -> T:
        return chance.choice(choices) if chance.random() < 0.5 else open_

    places = range(counts_of(NEWEST).places)
    station = Station(chance.choice(places), FIRST_YEAR + chance.randrange(YEARS), 1 + chance.randrange(12))
    return Setting(
        two_l=chance.choice(TWO_L),
        field=some((station, chance.choice(FIELDS_UT10) / 10), None),
        length_mm=some(LENGTHS_MM, None),
        grid_mm=chance.choice(GRIDS_MM),
        distances=some(DISTANCES, None),
        scale_step=some(SCALE_STEPS, None),
    )


def new_codes(kind: Kind) -> list[str]:
    """Codes of the kind's newest edition: half are left open to the draw, half fix some of a laboratory's settings."""
    chance = random.Random(f"golden {kind.slug}")
    codes = []
    for i in range(HOW_MANY.get(kind.slug, HOW_MANY[""])):
        setting = any_setting(chance) if i % 2 else Setting()
        while kind.refuses(setting):
            setting = any_setting(chance)
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
