"""Print figures as `name: value` lines; with names, only the benchmarks that print them.

uv run python -m tests.benchmarks
uv run python -m tests.benchmarks wrong_accused build_ratio
"""

import sys

from exercises.kinds.kind import all_kinds
from tests.benchmarks import (
    beside,
    building,
    by_settings,
    classes,
    coverage,
    far,
    judging,
    pages,
    pairs,
    records,
    slips,
    soak,
    speed,
    start,
    visits,
    windows,
)

#: What each benchmark prints, and the function that finds it.  Those by kind take a slug.
BY_KIND = {
    ("single_slip_named", "slips_hidden", "single_slip_like"): judging.slips,
    ("right_refused", "cut_off_called_slip"): judging.right,
    by_settings.WHOLE_CM: by_settings.whole_centimetres,
    ("slowest_sheet_ms",): by_settings.slowest,
    ("lone_window",): windows.lone,
    ("near_miss_accepted",): windows.near_misses,
    ("wrong_accused",): judging.accused,
    slips.MEANS: slips.means,
    ("other_row_named",): slips.other_rows,
    ("hidden_slip_named", "hidden_slip_named_least"): slips.hidden,
    ("pair_named", "pair_like_single", "pairs_tried"): pairs.pairs,
    ("pair_accused",): pairs.accused,
    ("scenarios_per_second_cpython", "scenarios_per_second_browser"): speed.scenarios,
    ("check_ms_p50", "check_ms_p95"): speed.checks,
}
WHOLE = {
    (
        "first_build_seconds",
        "build_seconds",
        "plain_build_seconds",
        "first_build_ratio",
        "build_ratio",
    ): building.build_ratio,
    records.NAMES: records.records,
    beside.NAMES: beside.bench,
    coverage.RECORD_NAMES: coverage.records,
    coverage.NEAR_NAMES: coverage.records_near,
    coverage.SHEET_NAMES: coverage.sheets,
    start.NAMES: start.start,
    pages.NAMES: pages.figures,
    visits.NAMES: visits.visits,
    far.NAMES: far.figures,
    ("class_seconds", "mark_seconds", "class_MB", "mark_MB", "class_loop_ns", "mark_loop_ns"): classes.sizes,
    ("desk_seconds", "desk_longest_gap_ms"): classes.desk,
    ("marks_file_open_s",): classes.marks_file,
}
#: Those that take many minutes, only where they are named.
LONG = {
    ("class_growth", "mark_growth", "sheets_alike"): classes.growth,
    (
        "soak",
        "soak_errors",
        "soak_memory_MB",
        "soak_memory_growth_MB",
        "soak_check_ms_first",
        "soak_check_ms_last",
    ): soak.soak,
    ("random_strings", "random_strings_worst_ms", "random_strings_crashes"): soak.random_strings,
}


def main(wanted: list[str]) -> int:
    known = {name for names in (*BY_KIND, *WHOLE, *LONG) for name in names} | {"scenarios_per_second"}
    for name in wanted:
        if name.split(".")[-1] not in known and not any(k.startswith(name) for k in known):
            print(f"No benchmark is called {name}; there are {', '.join(sorted(known))}.", file=sys.stderr)
            return 2
    for names, run in BY_KIND.items():
        for slug in all_kinds():
            if _asked(wanted, names, slug):
                _print(run(slug), f"{slug}.")
    for names, run in (WHOLE | LONG).items():
        if _asked(wanted, names, "") and (wanted or names not in LONG):
            _print(run(), "")
    return 0


def _asked(wanted: list[str], names: tuple[str, ...], slug: str) -> bool:
    if not wanted:
        return True
    offered = [*names, *(f"{slug}.{name}" for name in names)]
    return any(name.startswith(want) for want in wanted for name in offered)


def _print(figures: dict[str, float], prefix: str) -> None:
    for name, value in figures.items():
        print(f"{prefix}{name}: {value:.4g}", flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
