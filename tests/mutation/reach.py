"""Which tests reach which line of exercises/: kept as coverage by test, read as lists of tests."""

import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from pathlib import Path

from coverage import numbits

from tests.mutation.copies import ROOT, copy, surroundings

TESTS = ("tests/exercises", "tests/outside")
SETTINGS = "[run]\nsource = exercises\nrelative_files = true\ncore = ctrace\n"


class Reach:
    """The tests of each line and of each file, those first that touch little else."""

    def __init__(self, kept: Path):
        data = sqlite3.connect(kept)
        tests = dict(data.execute("select id, context from context"))
        paths = dict(data.execute("select id, path from file"))
        self.lines: dict[tuple[str, int], list[str]] = defaultdict(list)
        share: dict[str, Counter] = defaultdict(Counter)
        width: Counter = Counter()
        for file, context, bits in data.execute("select file_id, context_id, numbits from line_bits"):
            test, path = tests[context], paths[file]
            if "::" in test:  # else it is reached by an import
                for line in numbits.numbits_to_nums(bits):
                    self.lines[path, line].append(test)
                    share[path][test] += 1
                    width[test] += 1
        for found in self.lines.values():
            found.sort(key=lambda test: (width[test], test))
        self.files = {p: sorted(of, key=lambda test: (-of[test] / width[test], test)) for p, of in share.items()}

    def tests(self, path: str, line: int) -> list[str]:
        """Those that reach the line, then the others of its file, since a value may be worked once and kept.

        Of a line that is only imported, such as a table: whole files of tests, the nearest first.
        """
        nearest = self.files.get(path, [])
        if first := self.lines.get((path, line)):
            return first + [test for test in nearest if test not in set(first)]
        name = Path(path).stem if Path(path).stem != "__init__" else Path(path).parent.name
        # those that name the file, and those that go through all files
        about = re.compile(rf"\b({name}|walk_packages)\b")
        naming = [
            str(p.relative_to(ROOT))
            for p in sorted(ROOT.glob("tests/[eo]*/**/test_*.py"))
            if about.search(p.read_text())
        ]
        return list(dict.fromkeys([*(test.partition("::")[0] for test in nearest), *naming]))


def find_reach(kept: Path) -> None:
    """The coverage of every test, by function, in a file."""
    with tempfile.TemporaryDirectory() as work:
        folder = copy(Path(work) / "all")
        (folder / ".coveragerc").write_text(SETTINGS)
        options = ("-n", "0", "-p", "tests.mutation.entered_by", "-p", "no:cacheprovider")
        command = (sys.executable, "-m", "coverage", "run", "-m", "pytest", *options, *TESTS)
        done = subprocess.run(command, cwd=folder, env=surroundings(folder), capture_output=True, text=True)
        if done.returncode:
            raise SystemExit(f"{done.stdout[-3000:]}\nThe tests fail as they are; mend them first.")
        shutil.copy(folder / ".coverage", kept)
