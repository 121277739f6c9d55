"""The code is formatted, linted and typed: what ruff and mypy say, in their strict modes, is nothing."""

import subprocess
import sys

import pytest

from generator.build.runtime import ROOT

TOOLS = {
    "formatted": ("ruff", "format", "--check", "--quiet", "."),
    "linted": ("ruff", "check", "--quiet", "--output-format", "concise", "."),
    "typed": ("mypy", "--no-error-summary"),
}


@pytest.mark.parametrize("what", TOOLS)
def test_the_code_is(what):
    done = subprocess.run([sys.executable, "-m", *TOOLS[what]], cwd=ROOT, capture_output=True, text=True, timeout=500)
    said = (done.stdout + done.stderr).strip()
    assert (done.returncode, said) == (0, ""), f"run: uv run {' '.join(TOOLS[what])}"


def test_no_line_is_kept_from_the_tools_without_a_reason():
    ours = [p for room in ("exercises", "generator", "tests") for p in (ROOT / room).rglob("*.py")]
    never = ("# fmt" + ": ", "# type" + ": ignore")
    for path in (p for p in ours if "node_modules" not in p.parts):
        for number, line in enumerate(path.read_text().splitlines(), 1):
            where = f"{path.relative_to(ROOT)}:{number}"
            assert not any(mark in line for mark in never), where
            assert "# no" + "qa" not in line or " - " in line.partition("# no" + "qa")[2], where
