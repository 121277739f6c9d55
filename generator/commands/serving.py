"""A plain server for a folder of files: for one's own machine, and for a room of students without the internet."""

import contextlib
import errno
import functools
import http.server
import io
import re
import socket
import sys
from pathlib import Path
from typing import BinaryIO

from generator.build.trouble import Trouble

HOST, PORT = "127.0.0.1", 8000
EVERY = "0.0.0.0"  # every network this machine is in

#: The one range of bytes that is understood; a server may send the whole file for any other (RFC 9110, 14.2).
RANGE = re.compile("bytes=([0-9]{1,18})-([0-9]{0,18})")
PIECE = 65_536  # bytes read at once

CAUTION = (
    "Every machine in this network can now read all that is in {folder}. "
    "Serve the site and nothing else, in a network\n"
    "that you trust, and stop it after the lesson (Ctrl+C).\n"
    "By these addresses all works but two things that a browser gives only to https and to its own machine: "
    "keeping the\n"
    "site for use without a network, and copying with one press."
)


class Handler(http.server.SimpleHTTPRequestHandler):
    """Plain files, with the media types that the browser's Python insists on.

    A browser asks each time whether it has the newest (Cache-Control: no-cache) and is told so in a few bytes if it
    has, by the file's tag (RFC 9110, 13.1.2) or its date; so a new build shows at once.  A file that broke off is taken
    up where it did, if it is still the same (RFC 9110, 13.1.5 and 14).
    """

    protocol_version = "HTTP/1.1"  # one connection for many files
    timeout = 30  # s, after which a silent connection is closed
    extensions_map = {
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        # all that a site holds: a machine's own table of types may have been changed
        ".css": "text/css",
        ".csv": "text/csv",
        ".html": "text/html",
        ".js": "text/javascript",
        ".json": "application/json",
        ".png": "image/png",
        ".svg": "image/svg+xml",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json",
        ".zip": "application/zip",
    }

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        self.tag: str | None = None
        path = Path(self.translate_path(self.path))
        if path.is_dir():
            if not self.path.partition("?")[0].endswith("/"):
                return super().send_head()  # sends on to the address with a slash
            path /= "index.html"
        try:
            found = path.stat()
        except (OSError, ValueError):
            self.send_error(404)  # no listing of a folder either
            return None
        self.tag = f'"{found.st_mtime_ns:x}-{found.st_size:x}"'
        known = [tag.strip().removeprefix("W/") for tag in self.headers.get("If-None-Match", "").split(",")]
        if self.tag in known:
            self.send_response(304)
            self.end_headers()
            return None
        part = self._part(found.st_size)
        if part is None:
            return super().send_head()
        self._send_part(path, part, found.st_size)
        return None

    def _part(self, size: int) -> range | None:
        """The bytes that are asked for, of `size`: empty where there are none of them, None for the whole file."""
        asked = RANGE.fullmatch(self.headers.get("Range", ""))
        same = self.headers.get("If-Range", self.tag) == self.tag
        if asked is None or not same or self.command != "GET" or "If-Modified-Since" in self.headers:
            return None
        first, last = int(asked[1]), int(asked[2] or size)
        return range(first, min(last + 1, size)) if asked[2] == "" or last >= first else None

    def _send_part(self, path: Path, part: range, size: int) -> None:
        if not part:
            self.send_response(416)
            self.send_header("Content-Range", f"bytes */{size}")
            self.send_header("Content-Length", "0")
            self.end_headers()
            return
        try:
            file = path.open("rb")
        except OSError:
            self.send_error(404)
            return
        with file:
            self.send_response(206)
            self.send_header("Content-Type", self.guess_type(path))
            self.send_header("Content-Range", f"bytes {part.start}-{part.stop - 1}/{size}")
            self.send_header("Content-Length", str(len(part)))
            self.end_headers()
            file.seek(part.start)
            for at in range(part.start, part.stop, PIECE):
                self.wfile.write(file.read(min(PIECE, part.stop - at)))

    def send_response(self, code: int, message: str | None = None) -> None:
        super().send_response(code, message)
        if code in (200, 206, 304) and self.tag:
            self.send_header("ETag", self.tag)
            self.send_header("Cache-Control", "no-cache")
            self.send_header("Accept-Ranges", "bytes")

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        self.tag = None
        super().send_error(code, message, explain)

    def log_message(self, *_: object) -> None:
        """Say nothing for each file; errors show in the browser."""


class Server(http.server.ThreadingHTTPServer):
    """Many clients at once: a thread for each, and room for a class that opens the page in the same second."""

    request_queue_size = 256

    def handle_error(self, request: socket.socket | tuple[bytes, socket.socket], client_address: object) -> None:
        # a phone that goes out of reach or a page that is left is nothing to report
        if not isinstance(sys.exception(), (ConnectionError, TimeoutError)):
            super().handle_error(request, client_address)


def open_server(folder: Path, host: str = HOST, port: int = PORT) -> Server:
    """A server for a folder, listening.  Trouble if there is no site in it or the address cannot be had."""
    if not (folder / "index.html").is_file():
        raise Trouble(
            f"There is no site in {folder} (no index.html). Build it first with `eight build`, or give its folder."
        )
    try:
        return Server((host, port), functools.partial(Handler, directory=str(folder)))
    except socket.gaierror as error:
        raise Trouble(
            f"{host} is no address of this machine. Leave --host out, or give --host {EVERY} for a room."
        ) from error
    except (OSError, OverflowError) as error:
        raise Trouble(_refused(host, port, error)) from error


def _refused(host: str, port: int, error: Exception) -> str:
    code = getattr(error, "errno", None)
    if isinstance(error, OverflowError):
        return f"There is no port {port}. Give one from 1024 to 65535: eight serve --port 8001."
    if code == errno.EADDRINUSE:
        return (
            f"Port {port} is taken. Stop what uses it, or give another: eight serve --port "
            f"{port + 1 if port < 65535 else 8001}."
        )
    if code == errno.EACCES:
        return (
            f"Port {port} may not be used without special rights. Give one from 1024 to 65535: eight serve --port 8001."
        )
    if code == errno.EADDRNOTAVAIL:
        return f"{host} is no address of this machine. Leave --host out, or give --host {EVERY} for a room."
    return f"{host} port {port} cannot be used: {error}."


def serve(folder: Path, host: str = HOST, port: int = PORT) -> None:
    """Serve a folder until interrupted, saying where.  Trouble if it cannot be."""
    with open_server(folder, host, port) as server:
        port = server.server_port
        own = host if host != EVERY else HOST
        try:
            print(f"Eight Readings is at http://{own}:{port}/ (stop with Ctrl+C).", flush=True)
            if host == EVERY:
                print("\n".join(for_the_room(port)), CAUTION.format(folder=folder), sep="\n", flush=True)
            server.serve_forever()
        except KeyboardInterrupt:
            print()


def for_the_room(port: int) -> list[str]:
    """Lines that say at which addresses other machines find this one."""
    found = own_addresses()
    if not found:
        return [
            "Other machines need this machine's address in their network; look it up in its network settings and put",
            f":{port}/ behind it, as in http://192.168.1.20:{port}/.",
        ]
    return ["Other machines in the room open:", *(f"    http://{address}:{port}/" for address in found)]


def own_addresses() -> list[str]:
    """This machine's IPv4 addresses that others may reach it by, the likeliest first; none if it is in no network."""
    found: list[str] = []
    # where a packet for such a network would leave from; nothing is sent (RFC 1918, RFC 5737)
    for elsewhere in ("192.0.2.1", "192.168.255.254", "10.255.255.254", "172.31.255.254"):
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
            try:
                probe.connect((elsewhere, 9))
                found.append(probe.getsockname()[0])
            except OSError:
                continue
    with contextlib.suppress(OSError):
        named = socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)
        found += [str(address[0]) for *_, address in named]
    return [address for address in dict.fromkeys(found) if not address.startswith(("127.", "0."))]
