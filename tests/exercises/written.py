"""What one sheet of each kind says in words and numbers: titles, what is given, the solution; what each slip comes to.

It is kept in golden/written.txt and golden/slips.txt (see tests/keep.py).
"""

from collections.abc import Iterable
from pathlib import Path

from exercises.kinds.kind import all_kinds, open_code
from tests.exercises.golden import FOLDER, codes_of
from tests.exercises.slip_values import slip_values

MOST = 6  # values of a slip that are kept
KEPT, SLIPS_KEPT = FOLDER / "written.txt", FOLDER / "slips.txt"


def _opened(slug: str):
    """The sheet of a kind's fourth golden code."""
    return open_code(codes_of(all_kinds()[slug].letter)[3])


def written(slug: str) -> list[str]:
    """The lines of a sheet."""
    sheet = _opened(slug)
    kind, scenario, working = sheet.kind, sheet.scenario, sheet.working
    values, page = working.all_values(), kind.page
    lines = [
        f"{kind.title}: {scenario.code}",
        page.task,
        page.formula,
        *(f"{what}: {value}" for what, value in page.givens(scenario)),
    ]
    for group in page.groups(scenario, working):
        lines += [f"-- {group.heading}", *(f"{s.title}: {s.line(values, working.givens)}" for s in group.steps)]
    return [line for line in lines if line]


def slips(slug: str) -> list[str]:
    """What each slip gives in the first step of each column that it shows in."""
    sheet = _opened(slug)
    working = sheet.working
    found: dict[tuple[str, str], str] = {}
    for step in working.steps:
        if not step.choices:
            for slip, values in slip_values(working, step, sheet.slips, {}):
                shown = [f"{v:.6g}" for v in values[:MOST]] + [f"{len(values) - MOST} more"] * (len(values) > MOST)
                found.setdefault((slip.key, step.column), f"{slip.key}, {step.id}: {' or '.join(shown)}")
    return [line for _, line in sorted(found.items())]


def kept(path: Path) -> dict[str, list[str]]:
    """The lines of a kept file by the slug of their kind."""
    parts = path.read_text().split("\n\n") if path.exists() else []
    return {lines[0]: lines[1:] for lines in (part.splitlines() for part in parts)}


def keep(slugs: Iterable[str], folder: Path = FOLDER) -> None:
    """Write both files anew for these kinds; what is kept of other kinds stays, in the order of the kinds."""
    slugs = tuple(slugs)
    for path, lines_of in ((folder / KEPT.name, written), (folder / SLIPS_KEPT.name, slips)):
        now = kept(path) | {slug: lines_of(slug) for slug in slugs}
        parts = ("\n".join([slug, *now[slug]]) for slug in all_kinds() if slug in now)
        path.write_text("\n\n".join(parts) + "\n")
