"""Draw places in exercises/ at random, change one at a time in a copy, and run the tests that reach that line."""

import argparse
import ast
import json
import os
import random
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections import Counter, defaultdict
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import Queue

from cosmic_ray.ast import get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator, operator_names
from coverage import numbits

ROOT = Path(__file__).parents[2]
TESTS = ("tests/exercises", "tests/outside")
#: An annotation is no working code: X | None with another sign is only a fault of its spelling.
#: Those that replace a name by a number need to be told which name.
LEFT_OUT = ("BitOr", "VariableReplacer", "VariableInserter")
PATIENCE = 90  # seconds for one change; a test that hangs has noticed
MOST_TESTS = 400
COPIED = ("exercises", "generator", "tests", "content", "pyproject.toml", "README.md", "site_assets", "mkdocs.yml")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sample", type=int, default=300, help="how many changes to try")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--module", default="", help="only files whose path has this in it")
    parser.add_argument("--jobs", type=int, default=os.cpu_count())
    parser.add_argument("--reach", type=Path, help="where the lines that each test reaches are kept, or were kept before")
    chosen = parser.parse_args()
    reach = chosen.reach or Path(tempfile.mkdtemp()) / "reach"
    if not reach.exists():
        print("Finding which tests reach which lines ...", flush=True)
        find_reach(reach)
    reached = read_reach(reach)
    places = [p for path in sources(chosen.module) for p in places_of(path, reached.get(path, {}))]
    picked = random.Random(chosen.seed).sample(places, min(chosen.sample, len(places)))
    print(f"{len(places):,} places; trying {len(picked)}.", flush=True)
    with tempfile.TemporaryDirectory() as work:
        copies: Queue = Queue()
        for n in range(chosen.jobs):
            copies.put(copy(Path(work) / str(n)))

        def one(place):
            folder = copies.get()
            try:
                return place, noticed(folder, place)
            finally:
                copies.put(folder)

        counts: Counter = Counter()
        with ThreadPoolExecutor(chosen.jobs) as pool:
            for place, fate in pool.map(one, picked):
                counts[fate] += 1
                if fate == "survived":
                    print(f"survived: {place['path']}:{place['line']} {place['operator']} {change(place)}", flush=True)
    tried = counts["killed"] + counts["survived"]
    print(f"mutants: {tried}\nmutants_same_code: {counts['same']}\nmutation_score: {counts['killed'] / max(tried, 1):.3f}")
    return 0


def sources(wanted: str) -> list[str]:
    return [str(p.relative_to(ROOT)) for p in sorted((ROOT / "exercises").rglob("*.py")) if wanted in str(p)]


def copy(folder: Path) -> Path:
    """What the tests need, to be changed in."""
    for name in COPIED:
        at = ROOT / name
        if at.is_dir():
            shutil.copytree(at, folder / name, ignore=shutil.ignore_patterns("__pycache__", "node_modules"))
        else:
            folder.mkdir(exist_ok=True)
            shutil.copy(at, folder / name)
    return folder


def run(folder: Path, *command: str, timeout: float | None = None) -> int:
    environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1", "PYTHONPATH": str(folder), "HYPOTHESIS_STORAGE_DIRECTORY": str(folder / ".h")}
    done = subprocess.run([sys.executable, "-m", *command], cwd=folder, env=environment, capture_output=True, timeout=timeout)
    return done.returncode


def find_reach(kept: Path) -> None:
    """The coverage of every test, by function, in a file."""
    with tempfile.TemporaryDirectory() as work:
        folder = copy(Path(work) / "all")
        (folder / ".coveragerc").write_text("[run]\nsource = exercises\ndynamic_context = test_function\nrelative_files = true\ncore = ctrace\n")
        code = run(folder, "coverage", "run", "-m", "pytest", "-n", "0", *TESTS, "-p", "no:cacheprovider", "--durations=0", "-vv")
        if code:
            raise SystemExit("The tests fail as they are; mend them first.")
        shutil.copy(folder / ".coverage", kept)


def read_reach(kept: Path) -> dict[str, dict[int, list[str]]]:
    """path -> line -> the tests that reach it, those that reach the fewest lines first."""
    data = sqlite3.connect(kept)
    names = dict(data.execute("select id, context from context"))
    files = {i: p if p.startswith("exercises") else p[p.index("exercises") :] for i, p in data.execute("select id, path from file")}
    found: dict[str, dict[int, list[str]]] = defaultdict(lambda: defaultdict(list))
    width: Counter = Counter()
    for file, context, bits in data.execute("select file_id, context_id, numbits from line_bits"):
        if names[context]:
            for line in numbits.numbits_to_nums(bits):
                found[files[file]][line].append(names[context])
                width[names[context]] += 1
    for lines in found.values():
        for tests in lines.values():
            tests.sort(key=width.get)
    return found


def places_of(path: str, reached: dict[int, list[str]]) -> list[dict]:
    """Every change that can be made in a file: the operator, which of its places, the line, the tests to run."""
    code = (ROOT / path).read_text()
    nodes, out = get_ast(code), []
    skipped = annotations(code)
    for name in operator_names():
        if any(left in name for left in LEFT_OUT):
            continue
        operator, at = get_operator(name)(), 0
        for node in walk(nodes):
            for (line, _), _ in operator.mutation_positions(node):
                if line not in skipped:
                    out.append({"path": path, "operator": name, "occurrence": at, "line": line, "tests": reached.get(line, [])})
                at += 1
    return out


def walk(node):
    yield node
    for child in getattr(node, "children", ()):
        yield from walk(child)


def annotations(code: str) -> set[int]:
    """Lines that hold nothing but a field and its type."""
    return {n.lineno for n in ast.walk(ast.parse(code)) if isinstance(n, ast.AnnAssign) and n.value is None}


def noticed(folder: Path, place: dict) -> str:
    """"killed", "survived", or "same" where the change makes no other code."""
    at = folder / place["path"]
    code = at.read_text()
    changed = mutate_code(code, get_operator(place["operator"])(), place["occurrence"])
    if changed is None or changed == code:
        return "same"
    try:
        at.write_text(changed)
        tests = [as_node(t) for t in place["tests"][:MOST_TESTS]]
        if not tests:
            return "survived"
        # the nearest few first: most changes are noticed at once
        for some in (tests[:8], tests[8:]):
            if some and run(folder, "pytest", "-n", "0", "-x", "-q", "-p", "no:cacheprovider", *some, timeout=PATIENCE):
                return "killed"
        return "survived"
    except subprocess.TimeoutExpired:
        return "killed"
    finally:
        at.write_text(code)


def as_node(context: str) -> str:
    """tests.exercises.test_x.test_y as pytest takes it."""
    module, _, function = context.rpartition(".")
    return f"{module.replace('.', '/')}.py::{function}"


def change(place: dict) -> str:
    """The changed line, as it was and as it is."""
    code = (ROOT / place["path"]).read_text()
    changed = mutate_code(code, get_operator(place["operator"])(), place["occurrence"]) or code
    pairs = [(a, b) for a, b in zip(code.splitlines(), changed.splitlines()) if a != b]
    return json.dumps([s.strip()[:140] for s in pairs[0]], ensure_ascii=False) if pairs else ""


if __name__ == "__main__":
    started = time.monotonic()
    status = main()
    print(f"mutation_seconds: {time.monotonic() - started:.0f}")
    sys.exit(status)
