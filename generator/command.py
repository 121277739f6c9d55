"""The command `eight`: build the site, build it and serve it, or make a class."""

import argparse
import functools
import http.server
import os
import subprocess
import sys

from generator import class_command, mark_command, record_command
from generator.runtime import ROOT
from generator.trouble import Trouble

HOST, PORT = "127.0.0.1", 8000


def build() -> None:
    """Write the site to site/.  Trouble, the last good site left as it is, if that fails."""
    done = subprocess.run([sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"], cwd=ROOT, env={**os.environ, "NO_MKDOCS_2_WARNING": "1"})
    if done.returncode:
        raise Trouble("The site was not built; what went wrong is said above. site/ is as it was.")


class Handler(http.server.SimpleHTTPRequestHandler):
    """Plain files, with the media types that the browser's Python insists on."""

    extensions_map = {
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript",
        ".mjs": "text/javascript",
        ".wasm": "application/wasm",
        ".zip": "application/zip",
    }

    def log_message(self, *_):
        """Say nothing for each file; errors show in the browser."""


def serve(port: int = PORT) -> None:
    """Serve site/ on this machine until interrupted.  Trouble if the port is taken."""
    handler = functools.partial(Handler, directory=str(ROOT / "site"))
    try:
        server = http.server.ThreadingHTTPServer((HOST, port), handler)
    except OSError as error:
        raise Trouble(f"Port {port} is taken. Stop what uses it, or give another: eight serve --port 8001.") from error
    print(f"Eight Readings is at http://{HOST}:{port}/ (stop with Ctrl+C).", flush=True)
    with server:
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            print()


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(prog="eight", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    commands.add_parser("build", help="write the site to site/")
    serving = commands.add_parser("serve", help=f"build the site and serve it on {HOST}:{PORT}")
    serving.add_argument("--port", type=int, default=PORT, help=f"another port than {PORT}")
    class_command.add_to(commands)
    record_command.add_to(commands)
    mark_command.add_to(commands)
    chosen = parser.parse_args(arguments)
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
        build()
        print("The site is in site/.", flush=True)
        if chosen.command == "serve":
            serve(chosen.port)
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return 1
    return 0
