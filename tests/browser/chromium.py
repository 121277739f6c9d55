"""Find a Chromium, or fetch one (from PATH, else Playwright's own, else Debian's package), and start it."""

import os
import shutil
import subprocess
import sys

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")

#: Without the pop-up of the address bar: it is a page of its own, of some four hundred scripts, made anew for each
#: window, and keeps a processor busy for half a second.  Playwright's own list gives way to this one.
OFF = (
    "AimEnabled",
    "AvoidCorsURLLoaderRestartOnRedirect",
    "AvoidUnnecessaryBeforeUnloadCheckSync",
    "DestroyProfileOnBrowserClose",
    "HttpsFirstBalancedModeAutoEnable",
    "HttpsUpgrades",
    "LensOverlay",
    "MediaRouter",
    "NetworkTimeServiceQuerying",
    "OptimizationHints",
    "PaintHolding",
    "PreconnectToSearch",
    "ThirdPartyStoragePartitioning",
    "WebUIOmniboxAimPopup",
    "WebUIOmniboxPopup",
)
SWITCHES = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--no-first-run",
    "--disable-sync",
    f"--disable-features={','.join(OFF)}",
]

#: For tests, whose pages run Python for a moment: only what runs for seconds is made into better machine code.
BRIEF = ["--js-flags=--wasm-tiering-budget=2000000000"]


class NoBrowser(Exception):
    """No Chromium here, and none could be fetched."""


def on_path() -> str | None:
    """The first browser on the PATH that runs; what is called so may only say where to get one."""
    return next((found for name in NAMES if (found := shutil.which(name)) and _run([found, "--version"])), None)


def _run(command: list[str]) -> bool:
    try:
        return subprocess.run(command, capture_output=True, timeout=600).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def find_chromium(playwrights_own: str, say=print) -> str:
    """The path of a Chromium.  NoBrowser, with what to install, if there is none to be had."""
    if found := on_path():
        return found
    if _run([playwrights_own, "--version"]):
        return playwrights_own
    say("Fetching a browser for the tests: Playwright's Chromium ...")
    if _run([sys.executable, "-m", "playwright", "install", "chromium"]) and _run([playwrights_own, "--version"]):
        return playwrights_own
    if shutil.which("apt-get") and os.geteuid() == 0:
        say("Playwright's Chromium cannot be had here. Fetching Debian's package chromium ...")
        _run(["apt-get", "update"])
        if _run(["apt-get", "install", "-y", "--no-install-recommends", "chromium"]) and (found := on_path()):
            return found
    raise NoBrowser(
        "The browser tests need Chromium and none was found or could be fetched. Install one so that "
        "`chromium` is on the PATH (on Debian: apt-get install chromium), then run the tests again."
    )


def launched(playwright, say=print, fonts="plain", more=()):
    """A Chromium that is running and sees one set of fonts (fonts.py).  NoBrowser if there is none to be had.

    more  further switches
    """
    from tests.browser.fonts import environment  # what it needs is large, and few processes start a browser

    path = find_chromium(playwright.chromium.executable_path, say)
    return playwright.chromium.launch(executable_path=path, args=[*SWITCHES, *more], env=environment(fonts))
