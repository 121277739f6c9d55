"""What one sheet of each kind says in words and numbers: titles, what is given, the solution; and what each slip comes to.

    uv run python -m tests.exercises.written

writes golden/written.txt and golden/slips.txt anew, after a wording or a slip was changed on purpose: read the
difference before it is kept.
"""

from exercises.judging.diagnosis import slip_values
from exercises.kinds.kind import all_kinds, open_code
from tests.exercises.golden import FOLDER, codes_of

KEPT, SLIPS_KEPT = FOLDER / "written.txt", FOLDER / "slips.txt"


def _opened(slug: str):
    """The sheet of a kind's fourth golden code."""
    return open_code(codes_of(all_kinds()[slug].letter)[3])


def written(slug: str) -> list[str]:
    """The lines of a sheet."""
    kind, scenario, working = _opened(slug)
    values, page = working.all_values(), kind.page
    lines = [
        f"{kind.title}: {scenario.code}",
        page.task,
        page.formula,
        *(f"{what}: {value}" for what, value in page.givens(scenario)),
    ]
    for heading, steps in page.groups(scenario, working):
        lines += [f"-- {heading}", *(f"{step.title}: {step.line(values, working.givens)}" for step in steps)]
    return [line for line in lines if line]


def slips(slug: str) -> list[str]:
    """What each slip gives in the first step of each column that it shows in."""
    kind, _, working = _opened(slug)
    found: dict[tuple[str, str], str] = {}
    for step in working.steps:
        if not step.choices:
            for slip, values in slip_values(working, step, kind.slips, {}):
                found.setdefault(
                    (slip.key, step.column), f"{slip.key}, {step.id}: {' or '.join(f'{v:.6g}' for v in values)}"
                )
    return [line for _, line in sorted(found.items())]


def whole(lines_of) -> str:
    """The lines of all kinds, an empty line between two."""
    return "\n\n".join("\n".join([slug, *lines_of(slug)]) for slug in all_kinds()) + "\n"


if __name__ == "__main__":
    KEPT.write_text(whole(written))
    SLIPS_KEPT.write_text(whole(slips))
