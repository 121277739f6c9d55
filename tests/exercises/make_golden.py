"""Write golden/KIND.jsonl: codes and what each stands for.  Run once for a new kind or edition; never to mend a failure.

uv run python -m tests.exercises.make_golden KIND ...
"""

import random
import sys

from exercises.bench.local_field import PLACES
from exercises.codes.sheet_code import DISTANCES, LENGTHS_MM, SCALE_STEPS, SEEDS, Setting, SheetCode, write
from exercises.kinds.kind import all_kinds
from exercises.student.desk import numbers
from tests.exercises.golden import FOLDER, HOW_MANY


def codes(kind) -> list[str]:
    """Half left open to the draw, half with some of a laboratory's settings."""
    chance = random.Random(f"golden {kind.slug}")
    made = []
    for i in range(HOW_MANY.get(kind.slug, HOW_MANY[""])):
        setting = Setting()
        if i % 2:
            setting = Setting(
                chance.choice((None, chance.randrange(len(PLACES)))),
                chance.choice(SCALE_STEPS),
                chance.choice(DISTANCES),
                chance.choice((None, chance.choice(LENGTHS_MM))),
            )
        made.append(write(SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS), setting)))
    return made


def main(slugs: list[str]) -> None:
    for slug in slugs:
        lines = [numbers(code) for code in codes(all_kinds()[slug])]
        (FOLDER / f"{slug}.jsonl").write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main(sys.argv[1:])
