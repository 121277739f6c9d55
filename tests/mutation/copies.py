"""A copy of what the tests need, to be changed in, and what goes on around them there."""

import os
import shutil
import time
from pathlib import Path

import hypothesis

ROOT = Path(__file__).parents[2]
COPIED = ("exercises", "generator", "tests", "content", "pyproject.toml", "README.md", "site_assets", "mkdocs.yml")


def copy(folder: Path) -> Path:
    for name in COPIED:
        at = ROOT / name
        if at.is_dir():
            shutil.copytree(at, folder / name, ignore=shutil.ignore_patterns("__pycache__", "node_modules"))
        else:
            folder.mkdir(exist_ok=True)
            shutil.copy(at, folder / name)
    return folder


def surroundings(folder: Path) -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(folder), "HYPOTHESIS_STORAGE_DIRECTORY": str(folder / ".h")}


def calm() -> None:
    """The clock stands still, so that a busy machine fails no test; drawn examples are the same each time."""
    time.perf_counter = time.process_time = lambda: 0.0
    phases = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
    quiet = {"deadline": None, "derandomize": True, "database": None, "phases": phases}
    hypothesis.settings.register_profile("calm", **quiet, suppress_health_check=list(hypothesis.HealthCheck))
    hypothesis.settings.load_profile("calm")
