"""Write golden.jsonl: 200 codes and what each stands for.  Run once for a new edition or kind; never to mend a failure.

    uv run python -m tests.exercises.make_golden
"""

import random
from pathlib import Path

from exercises.kinds import all_kinds
from exercises.sheet_code import DISTANCES, LENGTHS_MM, PLACE_COUNT, SCALE_STEPS, SEEDS, Setting, SheetCode, write
from exercises.student import numbers

GOLDEN = Path(__file__).with_name("golden.jsonl")
CODES = 200


def codes(kind) -> list[str]:
    """Half left open to the draw, half with some of a laboratory's settings."""
    chance = random.Random(f"golden {kind.slug}")
    made = []
    for i in range(CODES):
        setting = Setting()
        if i % 2:
            setting = Setting(
                chance.choice((None, chance.randrange(PLACE_COUNT))),
                chance.choice(SCALE_STEPS),
                chance.choice(DISTANCES),
                chance.choice((None, chance.choice(LENGTHS_MM))),
            )
        made.append(write(SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS), setting)))
    return made


def main() -> None:
    lines = [numbers(code) for kind in all_kinds().values() for code in codes(kind)]
    GOLDEN.write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
