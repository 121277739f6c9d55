"""Codes at the edges of what a laboratory can set, and the digest of what each kind's stand for.

    uv run python -m tests.exercises.edges KIND ...

adds a new kind, or a new edition of one, to golden/edges.json.  Never run it to mend a failure: see golden.py.
"""

import hashlib
import itertools
import json
import sys

from exercises.bench.local_field import PLACES
from exercises.codes.sheet_code import LENGTHS_MM, Setting, SheetCode, write
from exercises.kinds.kind import all_kinds
from exercises.student.desk import numbers
from tests.exercises.golden import FOLDER

KEPT = FOLDER / "edges.json"
TIMES = {"graph": 8, "distances": 8, "dial": 4, "earth": 4, "law": 4, "uncertainty": 4}  # where the draw is quick
WEAKEST, STRONGEST = (next(n for n, p in enumerate(PLACES) if p.name == name) for name in ("Bergen", "Manila"))


def digest(slug: str) -> str:
    """Of the shortest and the longest magnets, in the weakest field and the strongest, with few distances and many."""
    kind = all_kinds()[slug]
    shortest, longest = (end(n for n in LENGTHS_MM if n) for end in (min, max))
    edges = itertools.product((WEAKEST, STRONGEST), (0.5, 1.0), (4, 6), (shortest, longest), range(TIMES.get(slug, 2)))
    codes = [
        write(SheetCode(kind.letter, kind.edition, 7919 * n, Setting(*setting)))
        for n, (*setting, _) in enumerate(edges)
    ]
    return hashlib.sha256("\n".join(map(numbers, codes)).encode()).hexdigest()


if __name__ == "__main__":
    kept = json.loads(KEPT.read_text()) if KEPT.exists() else {}
    KEPT.write_text(json.dumps({**kept, **{slug: digest(slug) for slug in sys.argv[1:]}}, indent=1) + "\n")
