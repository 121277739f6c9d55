"""The server of one's own machine and of a room: what it sends, to how many, and what it says."""

import http.client
import re
import signal
import socket
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from generator.build.runtime import ROOT
from generator.build.trouble import Trouble
from generator.commands import serving
from generator.commands.command import main

CLIENTS = 200
#: The command, stopped by Ctrl+C even where the tests run in the background, whose processes ignore it.
SERVE = """\
import signal
signal.signal(signal.SIGINT, signal.default_int_handler)
from generator.commands.command import main
main()
"""


@pytest.fixture
def folder(tmp_path):
    """A small site with a file of each kind."""
    (tmp_path / "page").mkdir()
    (tmp_path / "page" / "index.html").write_text("<h1>page</h1>")
    for name in ("index.html", "a.js", "a.css", "a.wasm", "a.zip", "a.svg", "a.json", "a.webmanifest", "a.bin"):
        (tmp_path / name).write_bytes(b"x" * 5000)
    (tmp_path.parent / "beside.txt").write_text("not for the room")
    return tmp_path


@pytest.fixture
def server(folder):
    it = serving.open_server(folder, port=0)
    threading.Thread(target=it.serve_forever, args=(0.02,), daemon=True).start()
    yield it
    it.shutdown()
    it.server_close()


def ask(server, path, **headers):
    """(status, headers, body) of one question on a connection of its own."""
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=20)
    connection.request("GET", path, headers=headers)
    got = connection.getresponse()
    found = got.status, got.headers, got.read()
    connection.close()
    return found


def test_media_types_are_those_a_browser_insists_on(server):
    # IANA's register of media types; WebAssembly Web API, W3C, for application/wasm; RFC 9239 for scripts
    for name, media in {
        "a.js": "text/javascript",
        "a.css": "text/css",
        "a.wasm": "application/wasm",
        "a.zip": "application/zip",
        "a.svg": "image/svg+xml",
        "a.json": "application/json",
        "a.webmanifest": "application/manifest+json",
        "a.bin": "application/octet-stream",
        "": "text/html",
    }.items():
        status, headers, body = ask(server, f"/{name}")
        assert (status, headers["Content-Type"], len(body)) == (200, media, 5000)


def test_what_has_not_changed_is_not_sent_again(server, folder):
    _, headers, _ = ask(server, "/a.js")
    for known in (
        {"If-None-Match": headers["ETag"]},
        {"If-Modified-Since": headers["Last-Modified"]},
        {"If-None-Match": f'"other", W/{headers["ETag"]}'},
    ):
        status, _, body = ask(server, "/a.js", **known)
        assert (status, body) == (304, b"")
    (folder / "a.js").write_text("changed")
    status, now, body = ask(server, "/a.js", **{"If-None-Match": headers["ETag"]})
    assert (status, body) == (200, b"changed") and now["ETag"] != headers["ETag"]
    assert now["Cache-Control"] == "no-cache"


@pytest.mark.parametrize(
    ("asked", "sent"),
    [
        ("bytes=0-", (0, 4999)),
        ("bytes=4000-", (4000, 4999)),
        ("bytes=4999-", (4999, 4999)),
        ("bytes=10-10", (10, 10)),
        ("bytes=10-99999", (10, 4999)),
    ],
)
def test_a_file_that_broke_off_is_taken_up_where_it_did(server, folder, asked, sent):
    content = bytes(n % 251 for n in range(5000))
    (folder / "a.bin").write_bytes(content)
    _, whole, _ = ask(server, "/a.bin")
    assert whole["Accept-Ranges"] == "bytes"
    for more in ({}, {"If-Range": whole["ETag"]}):
        status, headers, body = ask(server, "/a.bin", Range=asked, **more)
        first, last = sent
        assert (status, body) == (206, content[first : last + 1])
        assert headers["Content-Range"] == f"bytes {first}-{last}/5000" and headers["ETag"] == whole["ETag"]
        assert headers["Content-Type"] == whole["Content-Type"]


def test_no_part_of_another_file_is_sent(server, folder):
    """RFC 9110: 13.1.5 for another tag; 14.2 for what is no such range; 14.4 and 15.5.17 for one that lies outside."""
    _, headers, _ = ask(server, "/a.bin")
    (folder / "a.bin").write_bytes(b"y" * 4000)
    status, _, body = ask(server, "/a.bin", **{"Range": "bytes=3000-", "If-Range": headers["ETag"]})
    assert (status, body) == (200, b"y" * 4000)
    for asked in ("bytes=-5", "bytes=9-8", "bytes=0-1,5-6", "lines=1-2", "bytes=x-", f"bytes={'9' * 5000}-"):
        assert ask(server, "/a.bin", Range=asked)[0] == 200, asked
    for asked in ("bytes=4000-", "bytes=4001-5000"):
        status, headers, body = ask(server, "/a.bin", Range=asked)
        assert (status, headers["Content-Range"], body) == (416, "bytes */4000", b""), asked


def test_only_what_is_in_the_folder_is_sent(server):
    assert ask(server, "/page/?code=1")[0] == 200
    status, headers, _ = ask(server, "/page?code=1")
    assert status == 301 and headers["Location"].endswith("/page/?code=1")
    for path in ("/../beside.txt", "/%2e%2e/beside.txt", "/..%2fbeside.txt", "/nothing", "/a.js/", "/\0"):
        status, headers, body = ask(server, path.replace("\0", "%00"))
        assert status == 404 and b"not for the room" not in body and "ETag" not in headers, path


def test_a_folder_is_not_listed(server, folder):
    (folder / "page" / "index.html").unlink()
    assert ask(server, "/page/")[0] == 404


def test_a_room_that_opens_it_at_once(server):
    with ThreadPoolExecutor(CLIENTS) as room:
        statuses = list(room.map(lambda _: ask(server, "/a.wasm")[0], range(CLIENTS)))
    assert statuses == [200] * CLIENTS


def test_slow_and_lost_clients_hold_up_nobody_and_are_not_reported(server, capfd):
    silent = [socket.create_connection(("127.0.0.1", server.server_port)) for _ in range(50)]
    for half in silent[:25]:
        half.send(b"GET /a.js HTTP/1.1\r\nHost: x\r\n")
    assert ask(server, "/a.js")[0] == 200
    for lost in silent:
        lost.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\1\0\0\0\0\0\0\0")  # closed by a reset
        lost.close()
    assert ask(server, "/a.js")[0] == 200
    assert capfd.readouterr().err == ""


def test_one_connection_serves_many_files(server):
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=20)
    for path in ("/", "/a.js", "/nothing", "/a.css"):
        connection.request("GET", path)
        connection.getresponse().read()
        if path != "/nothing":
            assert connection.sock is not None
    connection.close()


def test_a_port_or_an_address_that_cannot_be_had_is_said_plainly(folder, server, tmp_path, capsys):
    for arguments, sentence in (
        ((folder, "127.0.0.1", server.server_port), f"Port {server.server_port} is taken. Stop what uses it"),
        ((folder, "192.0.2.1", 0), "192.0.2.1 is no address of this machine"),  # RFC 5737: nobody's
        ((folder, "no such host", 0), "no such host is no address of this machine"),
        ((folder, "127.0.0.1", 70000), "There is no port 70000"),
        ((folder / "page" / "none", "127.0.0.1", 0), "There is no site in"),
    ):
        with pytest.raises(Trouble, match=re.escape(sentence)):
            serving.open_server(*arguments)
    assert main(["serve", "--dir", str(tmp_path / "none")]) == 1
    assert "no index.html" in capsys.readouterr().err


def test_the_command_serves_a_folder_without_building_and_says_where(folder):
    for cautioned in (False, True):
        with socket.create_server(("127.0.0.1", 0)) as free:
            port = free.getsockname()[1]
        command = [sys.executable, "-c", SERVE, "serve", "--dir", str(folder), "--port", str(port)]
        command += ["--host", serving.EVERY] if cautioned else []
        running = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        limit = threading.Timer(60, running.kill)  # then what is read below comes to its end
        limit.start()
        first = running.stdout.readline()
        assert f"http://127.0.0.1:{port}/" in first and "Ctrl+C" in first
        said = running.stdout.readline() if cautioned else ""  # before it is stopped
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
        connection.request("GET", "/page/")
        assert connection.getresponse().read() == b"<h1>page</h1>"
        connection.close()
        running.send_signal(signal.SIGINT)
        # not `communicate`, which passes over what readline has taken from the pipe beyond its line
        out, errors = running.stdout.read(), running.stderr.read()
        running.wait(30)
        limit.cancel()
        assert (running.returncode, errors) == (0, "")
        assert ("Every machine in this network can now read" in said + out) == cautioned


def test_the_addresses_for_the_room_reach_this_machine(folder):
    it = serving.open_server(folder, serving.EVERY, 0)
    threading.Thread(target=it.serve_forever, args=(0.02,), daemon=True).start()
    lines = "\n".join(serving.for_the_room(it.server_port))
    found = re.findall(r"    http://([0-9.]+):(\d+)/", lines)
    for address, port in found:
        assert not address.startswith("127.")
        with socket.create_connection((address, int(port)), timeout=5) as there:
            there.send(b"GET / HTTP/1.0\r\n\r\n")
            assert b"200" in there.recv(20)
    assert found or "look it up in its network settings" in lines
    it.shutdown()
    it.server_close()


def test_without_a_network_it_says_where_to_look(monkeypatch):
    monkeypatch.setattr(serving, "own_addresses", list)
    assert "network settings" in " ".join(serving.for_the_room(8000))
