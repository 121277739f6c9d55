"""Draw places in exercises/ at random, change one at a time in a copy, and run the tests that reach that line."""

import argparse
import os
import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.mutation.changes import changed_code, changed_line, places_of, sources
from tests.mutation.copies import copy
from tests.mutation.reach import Reach, find_reach
from tests.mutation.trial import begin, killer, warm


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sample", type=int, default=300, help="how many changes to try")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--minutes", type=float, default=1e6, help="begin no more after so long")
    parser.add_argument("--module", default="", help="only files whose path has this in it")
    parser.add_argument("--again", type=Path, help="what an earlier run printed: try what survived then")
    parser.add_argument("--killed", action="store_true", help="print what was noticed too, and by which test")
    parser.add_argument("--jobs", type=int, default=os.cpu_count())
    parser.add_argument(
        "--reach", type=Path, help="where the lines that each test reaches are kept, or were kept before"
    )
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as work:
        kept = chosen.reach or Path(work) / "reach"
        if not kept.exists():
            print("Finding which tests reach which lines ...", flush=True)
            find_reach(kept)
        reach = Reach(kept)
        places = [place for path in sources(chosen.module) for place in places_of(path)]
        if chosen.again:
            before = {line.split(" | ")[0] for line in chosen.again.read_text().splitlines()}
            picked = [place for place in places if f"survived: {place}" in before]
        else:
            picked = random.Random(chosen.seed).sample(places, min(chosen.sample, len(places)))
        print(f"{len(places):,} places; trying {len(picked)}.", flush=True)
        trials = Trials([copy(Path(work) / str(n)) for n in range(chosen.jobs)], reach, chosen.killed)
        try:
            trials.all(picked, time.monotonic() + 60 * chosen.minutes)
        except KeyboardInterrupt:
            print("Stopped; the score so far:")
        trials.score()
    return 0


class Trials:
    """Changes on trial, one in each copy at a time, and what became of them."""

    def __init__(self, folders: list[Path], reach: Reach, tell_killed: bool):
        self.free, self.reach, self.tell_killed = folders, reach, tell_killed
        self.running, self.fates = {}, Counter()
        warm()

    def all(self, places, until: float) -> None:
        for place in places:
            if time.monotonic() > until:
                print("The time is up; the score so far:")
                break
            changed = changed_code(place)
            if not changed:
                self.fates["same"] += 1
                continue
            folder = self.free.pop()
            (folder / place.path).write_text(changed)
            self.running[begin(folder, self.reach.tests(place.path, place.line))] = place, folder
            if not self.free:
                self.end_one()
        while self.running:
            self.end_one()

    def end_one(self) -> None:
        child, status = os.wait()
        place, folder = self.running.pop(child)
        (folder / place.path).write_text(place.code)
        self.free.append(folder)
        fate = "killed" if status else "survived"
        self.fates[fate] += 1
        if not status or self.tell_killed:
            print(f"{fate}: {place} | {killer(folder) if status else changed_line(place)}", flush=True)
        if not self.tried % 20:
            print(f"tried: {self.tried}, score so far {self.fates['killed'] / self.tried:.3f}", flush=True)

    @property
    def tried(self) -> int:
        return self.fates["killed"] + self.fates["survived"]

    def score(self) -> None:
        print(f"mutants: {self.tried}\nmutants_no_change: {self.fates['same']}")
        print(f"mutation_score: {self.fates['killed'] / max(self.tried, 1):.3f}")


if __name__ == "__main__":
    started = time.monotonic()
    status = main()
    print(f"mutation_seconds: {time.monotonic() - started:.0f}")
    sys.exit(status)
