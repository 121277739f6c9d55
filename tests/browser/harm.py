"""A host that harms one file: it cuts, stalls, truncates or corrupts it, or sends a page in its place."""

import contextlib
import socket
import threading
import time
from collections import Counter
from http import HTTPStatus
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

from generator.commands.serving import Handler
from tests.browser.host import Host

LARGE = 1_000_000  # bytes
READ = 0.3  # s for a browser to read what has come of a large file or a page before it breaks off


class Harming(Host):
    """Serves a folder and harms the files that `harm` names, until `mend`.

    ranges  whether parts of files are sent; own  path -> what is sent there in place of a file
    sent  path -> bytes of bodies, harmed or not
    """

    def __init__(self, folder: Path, ranges: bool = True):
        self.ranges, self.own, self.sent = ranges, {}, Counter()
        self.files, self.fault, self.half, self.left = (), "", False, None
        self.free = threading.Event()
        harming = self

        class Its(Harmed):
            host = harming

        super().__init__(folder, handler=Its)

    def sooner(self, name: str, *changes: tuple[str, str]) -> None:
        """Have a script come with shorter times: (what is replaced, by what)."""
        text = (self.folder / "eight" / name).read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        self.own[f"eight/{name}"] = text.encode(), "text/javascript"

    def harm(self, files, fault: str, half: bool = False, times: int = -1) -> None:
        """From now on.

        fault  "cut": the connection is reset; "stall": nothing more comes; "ends early": the connection ends though
               more was promised; "short": so does the file, and its length says so; "corrupt": some bytes are others;
               "page": a page comes in its place, as where somebody has to sign in to the network
        half   not at once, but half-way; times  how often each file is harmed, -1 for ever
        """
        self.mend()
        self.harmed = set()
        self.free = threading.Event()
        self.files, self.fault, self.half = tuple(files), fault, half
        self.left = Counter(dict.fromkeys(files, times)) if times > 0 else None

    def stop(self) -> None:
        """Nothing more is harmed; what has stalled stays so."""
        self.files = ()

    def mend(self) -> None:
        """The fault is over; what has stalled goes on."""
        self.stop()
        self.free.set()

    def harms(self, path: str) -> bool:
        if path not in self.files:
            return False
        if self.left is None:
            return True
        self.left[path] -= 1
        return self.left[path] >= 0

    def close(self):
        self.mend()
        super().close()


class Harmed(Handler):
    """The handler of such a host."""

    host: Harming

    def do_GET(self):
        where = urlsplit(self.path)
        path = where.path.removeprefix("/")
        if path == "harm":  # asked by a driver that is no Python: ?file=…&fault=…&half=1&times=1, or ?file=…&stop=1
            asked = {name: values[0] for name, values in parse_qs(where.query).items()}
            if "fault" in asked:
                self.host.harm([asked["file"]], asked["fault"], "half" in asked, int(asked.get("times", -1)))
            elif "stop" in asked:
                self.host.stop()
            self.answer(str(self.host.sent[asked["file"]]).encode(), "text/plain")
        elif self.host.harms(path):
            self.harmed(path)
        elif path in self.host.own:
            self.answer(*self.host.own[path])
        else:
            if not self.host.ranges:
                del self.headers["Range"]
            with contextlib.suppress(ConnectionError):
                super().do_GET()

    def answer(self, content: bytes, kind: str) -> None:
        self.tag = None
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def harmed(self, path: str) -> None:
        fault, free = self.host.fault, self.host.free
        file = Path(self.translate_path(self.path))
        file = file / "index.html" if file.is_dir() else file
        found = file.stat()
        content = self.host.own[path][0] if path in self.host.own else file.read_bytes()
        self.tag = f'"{found.st_mtime_ns:x}-{found.st_size:x}"'
        half = len(content) // 2
        if fault == "page":
            self.answer(b"<!doctype html><title>Sign in</title><p>Sign in to this network.", "text/html")
            return
        if self.host.half or fault in ("short", "corrupt", "ends early"):
            promised = half if fault == "short" else len(content)
            self.send_response(HTTPStatus.OK)
            self.send_header("Content-Type", self.guess_type(file))
            self.send_header("Content-Length", str(promised))
            self.end_headers()
            self.send(content[:half])
        if fault == "corrupt":
            self.send(bytes(byte ^ 0x15 for byte in content[half : half + 1000]) + content[half + 1000 :])
        if fault == "stall":
            free.wait(60)
            if self.host.half:
                self.send(content[half:])
            else:
                self.do_GET()
        if fault in ("cut", "ends early"):
            self.close_connection = True
            if self.host.half and (found.st_size > LARGE or file.suffix == ".html") and path not in self.host.harmed:
                time.sleep(READ)
        self.host.harmed.add(path)
        if fault == "cut":  # by a reset, where "ends early" closes in order
            linger = b"\1\0\0\0\0\0\0\0"
            self.connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, linger)
            self.rfile.close()
            self.connection.close()

    def send(self, content: bytes) -> None:
        with contextlib.suppress(ConnectionError):
            self.wfile.write(content)

    def setup(self):
        super().setup()
        self.wfile = Counting(self.wfile, self)

    def send_header(self, name, value):
        if name != "Accept-Ranges" or self.host.ranges:
            super().send_header(name, value)


class Counting:
    """Where a handler writes; it counts what is no header."""

    def __init__(self, wfile, handler: Harmed):
        self.wfile, self.handler = wfile, handler

    def write(self, content):
        if not content.startswith(b"HTTP/"):
            self.handler.host.sent[self.handler.path.removeprefix("/").partition("?")[0]] += len(content)
        return self.wfile.write(content)

    def __getattr__(self, name):
        return getattr(self.wfile, name)
