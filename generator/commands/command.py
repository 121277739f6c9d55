"""The command `eight`: build the site, serve it, make a class, mark what it hands in, or check a laboratory record."""

import argparse
import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

from generator.build.runtime import ROOT
from generator.build.trouble import Trouble
from generator.commands import class_command, mark_command, record_command
from generator.commands.serving import EVERY, HOST, PORT, Handler, serve

__all__ = ["Handler", "build", "main"]


def build() -> None:
    """Write the site to site/.  Trouble, the last good site left as it is, if that fails."""
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"],
        cwd=ROOT,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
    )
    if done.returncode:
        raise Trouble("The site was not built; what went wrong is said above. site/ is as it was.")


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(prog="eight", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    commands.add_parser("build", help="write the site to site/")
    serving = commands.add_parser("serve", help=f"build the site and serve it on {HOST}:{PORT}")
    serving.add_argument("--port", type=int, default=PORT, help=f"another port than {PORT}")
    serving.add_argument(
        "--host", default=HOST, help=f"{EVERY} lets other machines in; otherwise only this one ({HOST}) can"
    )
    serving.add_argument("--dir", type=Path, help="serve this folder, a site that is built already, and build nothing")
    class_command.add_to(commands)
    record_command.add_to(commands)
    mark_command.add_to(commands)
    chosen = parser.parse_args(arguments)
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGTERM, signal.default_int_handler)  # ends as Ctrl+C does: nothing half made stays
    try:
        if chosen.command == "class":
            class_command.run(chosen)
            return 0
        if chosen.command == "mark":
            mark_command.run(chosen)
            return 0
        if chosen.command == "record":
            record_command.run(chosen)
            return 0
        folder = getattr(chosen, "dir", None)
        if not folder:
            build()
            print("The site is in site/.", flush=True)
        if chosen.command == "serve":
            serve(folder or ROOT / "site", chosen.host, chosen.port)
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return 130
    return 0
