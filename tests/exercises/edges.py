"""Codes at the edges of what a laboratory can set, and the digest of what each kind's stand for.

The digests are in golden/edges.json.  They are golden numbers too: see golden.py.
"""

import hashlib
import itertools
import json
from pathlib import Path

from exercises.codes.sheet_code import GRIDS_MM, TWO_L, Setting, SheetCode, write
from exercises.kinds.kind import Kind
from exercises.student.desk import numbers
from tests.exercises.golden import FOLDER

KEPT = FOLDER / "edges.json"
MOST = 40  # codes of a kind
WEAKEST, STRONGEST = 10.0, 65.0  # µT


def name_of(kind: Kind, edition: int) -> str:
    """Under what name the digest of a kind's edition is kept."""
    return kind.slug if edition == 1 else f"{kind.slug} {edition}"


def settings_of(kind: Kind) -> list[Setting]:
    """The shortest and the longest magnets, in the weakest field and the strongest, by every rule and on every grid.

    Those that the kind does not refuse.
    """
    edges = itertools.product(TWO_L, (WEAKEST, STRONGEST), (40, 200), GRIDS_MM, (3, 8), (1.0, 0.5))
    return [setting for edge in edges if not kind.refuses(setting := Setting(*edge))]


def digest(kind: Kind, edition: int) -> str:
    """Of what a laboratory can set at the edges, as `settings_of` has it."""
    chosen = settings_of(kind)
    chosen = chosen[:: max(1, len(chosen) // MOST)]
    codes = [write(SheetCode(kind.letter, edition, 7919 * n, setting)) for n, setting in enumerate(chosen)]
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
