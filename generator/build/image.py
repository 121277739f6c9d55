"""The memory image: the browser's Python with everything imported, so that a browser need not start it from nothing.

Made once for each state of the sources by the runtime itself, run by node
(image.mjs, image_inside.py).  It rests on an interface of the runtime that is
not promised to anyone: so the browser tries what it got on a known sum, and
starts the plain way if anything is amiss (site_assets/start.js).
"""

import gzip
import hashlib
import io
import json
import os
import shutil
import tempfile
import zipfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import brotli

from exercises.codes.sheet_code import SheetCode, write
from exercises.kinds.kind import all_kinds
from exercises.student import desk as student
from generator.build.bundle import write_zip
from generator.build.cache import cached
from generator.build.glue import fewer_functions
from generator.build.memory import packed_runs, without_spare
from generator.build.node import run
from generator.build.runtime import DECODER, decoder_folder, runtime_folder
from generator.build.webassembly import fewer_exports, functions, imported, without_data

HERE = Path(__file__).parent
#: The sheet of the known sum: a kind that is quickly drawn, and not one that is drawn before the image is taken.
KNOWN = ("distances", 8_000)

#: Names in the site.  They tell a server nothing, so that it sends the bytes as they are.
IMAGE, RUNTIME, GLUE, UNPACKER, ABOUT = "image.bin", "runtime.bin", "glue.bin", "unpacker.bin", "image.json"
TABLES = "tables.bin"  # of codecs, fetched when one of them is needed
#: What is in GLUE, for a host whose policy lets no script be unpacked.
GLUE_AS_IT_IS = "glue.js"
#: Brotli's window is as large as it may be.  Its best quality takes a minute, and the tests' builds do without.
WINDOW, BEST, QUICK = 24, 11, 5
QUICKLY = "EIGHT_READINGS_QUICK"  # the environment variable that asks for it


def image_files(code: bytes) -> dict[str, bytes]:
    """The files of the image by name.  Trouble if they cannot be made.

    They are the memory of the runtime with `code` (see bundle) in it, but for what a student's page never runs;
    the runtime's WebAssembly without the data that the memory holds too; the script that ties it to the browser; the
    decoder that unpacks these three; and how to unpack and try them.
    """
    digest = hashlib.sha256(code).hexdigest()
    quality = QUICK if os.environ.get(QUICKLY) else BEST
    made = cached(f"image {digest}", lambda: write_zip(_make(code), zipfile.ZIP_STORED))
    packed = cached(f"image {digest} {quality}", lambda: write_zip(_packed(_files(made), quality)))
    return _files(packed)


def _files(archive: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(archive)) as opened:
        return {name: opened.read(name) for name in opened.namelist()}


def _packed(made: dict[str, bytes], quality: int) -> dict[str, bytes]:
    """The files as they are sent."""
    about, tables = json.loads(made.pop(ABOUT)), made.pop(TABLES)
    with ThreadPoolExecutor() as pool:  # the compressor lets other threads work
        sent = dict(zip(made, pool.map(lambda content: compressed(content, quality), made.values())))
    sent[UNPACKER] = gzip.compress((decoder_folder() / f"{DECODER}_bg.wasm").read_bytes(), 9, mtime=0)
    about["arriving"] = sum(map(len, sent.values()))  # bytes, so that a page can say how much of them is there
    return sent | {ABOUT: json.dumps(about).encode(), TABLES: tables, GLUE_AS_IT_IS: made[GLUE]}


def compressed(content: bytes, quality: int = QUICK) -> bytes:
    """What the decoder of the site unpacks: brotli, RFC 7932."""
    packed: bytes = brotli.compress(content, quality=quality, lgwin=WINDOW)
    return packed


def _make(code: bytes) -> dict[str, bytes]:
    """The files as they are used."""
    runtime = runtime_folder()
    full, script = (runtime / "pyodide.asm.wasm").read_bytes(), (runtime / "pyodide.asm.js").read_text()
    loader = runtime / "pyodide.mjs"
    script = fewer_functions(script, imported(full), loader.read_text())
    webassembly = fewer_exports(full, script + loader.read_text())
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder)
        for name in ("python_stdlib.zip", "pyodide-lock.json"):
            shutil.copyfile(runtime / name, out / name)
        (out / "pyodide.asm.wasm").write_bytes(webassembly)
        (out / "pyodide.asm.js").write_text(script)
        (out / "code.zip").write_bytes(code)
        parts = (loader, out, out / "code.zip", HERE / "image_inside.py", out)
        run("The memory image", HERE / "image.mjs", *map(str, parts))
        spare, memory = json.loads((out / "about.json").read_text()), (out / "memory").read_bytes()
    image, tables = without_spare(memory, spare)
    image, runs = packed_runs(image)
    about = {"size": len(memory), "runs": runs, "known": known_sum(), "tables": [(at, len(of)) for at, of in tables]}
    return {
        TABLES: b"".join(of for _, of in tables),
        IMAGE: image,
        RUNTIME: without_data(webassembly, functions(full)),
        GLUE: script.encode(),
        ABOUT: json.dumps(about).encode(),
    }


def known_sum() -> tuple[str, list[str], str]:
    """What to ask a Python that was started from the image: (function, arguments, the answer of this Python)."""
    slug, seed = KNOWN
    kind = all_kinds()[slug]
    code = write(SheetCode(kind.letter, kind.edition, seed))
    return "numbers", [code], student.numbers(code)
