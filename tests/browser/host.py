"""A host for a test's own copies of the site: below any address, with a new version put up, or cut off."""

import functools
import re
import shutil
import threading
from pathlib import Path
from unittest import mock

from generator.build import offline
from generator.commands.serving import Handler, Server


class Shared(Handler):
    """Lets a browser keep what pages share, so that tests are quick: only pages are asked for each time."""

    def send_header(self, name, value):
        shared = name == "Cache-Control" and not self.path.partition("?")[0].endswith(("/", ".html"))
        super().send_header(name, "max-age=3600" if shared else value)


class Host:
    """Serves `folder` at `address`; set `folder` to put up another, `off` to cut the network.

    below  the path under which the site lies; asked  every path that was asked for while it was on
    """

    def __init__(self, folder: Path, below: str = "/", handler: type[Handler] = Handler):
        self.folder, self.below, self.off, self.asked = folder, below, False, []
        host = self

        class Its(handler):
            def handle_one_request(self):
                super().handle_one_request()
                if host.off:
                    self.close_connection = True

            def do_GET(self):
                if host.off:
                    self.close_connection = True
                    return
                self.path = re.sub("^http://[^/]*", "", self.path)  # as a browser asks whose proxy this is
                host.asked.append(self.path)
                if not self.path.startswith(host.below):
                    self.send_error(404)
                    return
                self.directory = str(host.folder)
                self.path = "/" + self.path.removeprefix(host.below)
                super().do_GET()

        self.server = Server(("127.0.0.1", 0), functools.partial(Its, directory=str(folder)))
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        self.address = f"http://127.0.0.1:{self.server.server_port}{below}"

    def close(self):
        self.off = True
        self.server.shutdown()
        self.server.server_close()


def version_with(site: Path, place: Path, changes: dict[str, tuple[str, str]]) -> str:
    """Make a copy of the site in which some files read differently, listed anew; its version.

    changes  file -> (what is replaced, by what)
    Its pages come to rest sooner than those of the site, so that a test waits less.
    """
    shutil.copytree(site, place)
    for name, (old, new) in changes.items():
        path = place / name
        text = path.read_text(encoding="utf-8")
        changed = re.sub(re.escape(old), lambda _, new=new: new, text)
        assert changed != text, f"{name} does not hold {old}"
        path.write_text(changed, encoding="utf-8")
    stamped = offline.stamped
    with mock.patch.object(offline, "stamped", lambda script, version: stamped(sooner(script), version)):
        return offline.write(place)


def sooner(script: str) -> str:
    assert "REST=3000;" in script
    return script.replace("REST=3000;", "REST=300;")
