"""Find a Chromium, or fetch one: from PATH, else Playwright's own, else Debian's package."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")


class NoBrowser(Exception):
    """No Chromium here, and none could be fetched."""


def on_path() -> str | None:
    return next((found for name in NAMES if (found := shutil.which(name))), None)


def _run(command: list[str]) -> bool:
    try:
        return subprocess.run(command, capture_output=True, timeout=600).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def find_chromium(playwrights_own: str, say=print) -> str:
    """The path of a Chromium.  NoBrowser, with what to install, if there is none to be had."""
    if found := on_path():
        return found
    if Path(playwrights_own).exists():
        return playwrights_own
    say("Fetching a browser for the tests: Playwright's Chromium ...")
    if _run([sys.executable, "-m", "playwright", "install", "chromium"]) and Path(playwrights_own).exists():
        return playwrights_own
    if shutil.which("apt-get") and os.geteuid() == 0:
        say("Playwright's Chromium cannot be had here. Fetching Debian's package chromium ...")
        _run(["apt-get", "update"])
        if _run(["apt-get", "install", "-y", "--no-install-recommends", "chromium", "fonts-dejavu"]) and (found := on_path()):
            return found
    raise NoBrowser(
        "The browser tests need Chromium and none was found or could be fetched. Install one so that "
        "`chromium` is on the PATH (on Debian: apt-get install chromium), then run the tests again."
    )
