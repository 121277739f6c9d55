"""Codes at the edges of what a laboratory can set, and the digest of what each kind's stand for.

The digests are in golden/edges.json.  They are golden numbers too: see golden.py.
"""

import hashlib
import itertools
import json
from pathlib import Path

from exercises.bench.local_field import PLACES
from exercises.codes.editions import counts_of
from exercises.codes.sheet_code import LENGTHS_MM, Setting, SheetCode, write
from exercises.kinds.kind import Kind
from exercises.student.desk import numbers
from tests.exercises.golden import FOLDER

KEPT = FOLDER / "edges.json"
TIMES = {"graph": 8, "distances": 8, "dial": 4, "earth": 4, "law": 4, "uncertainty": 4}  # where the draw is quick
WEAKEST, STRONGEST = (next(n for n, p in enumerate(PLACES) if p.name == name) for name in ("Bergen", "Manila"))


def name_of(kind: Kind, edition: int) -> str:
    """Under what name the digest of a kind's edition is kept."""
    return kind.slug if edition == 1 else f"{kind.slug} {edition}"


def digest(kind: Kind, edition: int) -> str:
    """Of the shortest and the longest magnets, in the weakest field and the strongest, with few distances and many."""
    lengths = [n for n in LENGTHS_MM[: counts_of(edition).lengths] if n]
    ends, times = (min(lengths), max(lengths)), range(TIMES.get(kind.slug, 2))
    edges = itertools.product((WEAKEST, STRONGEST), (0.5, 1.0), (4, 6), ends, times)
    codes = [
        write(SheetCode(kind.letter, edition, 7919 * n, Setting(*setting))) for n, (*setting, _) in enumerate(edges)
    ]
    return hashlib.sha256("\n".join(map(numbers, codes)).encode()).hexdigest()


def keep(kind: Kind, anew: bool = False, path: Path = KEPT) -> bool:
    """Write the digest of a kind's newest edition, if it has none yet; whether it was written.

    anew  write it again
    """
    kept, name = json.loads(path.read_text()) if path.exists() else {}, name_of(kind, kind.edition)
    if name in kept and not anew:
        return False
    kept[name] = digest(kind, kind.edition)
    path.write_text(json.dumps(kept, indent=1) + "\n")
    return True
