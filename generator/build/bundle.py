"""What the browser's Python gets: exercises/ and the part of pygeomag it needs, compiled, in one zip.

Compiled with `pyodide py-compile` by the same Python as the runtime's, so that
the browser does not compile.  The zip is the same byte for byte on every build.
"""

import io
import json
import os
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

import pygeomag

from generator.build.image_inside import ROOMS
from generator.build.runtime import ROOT
from generator.build.slimming import slimmed
from generator.build.trouble import Trouble

#: Of pygeomag, the code and the one set of coefficients in use; the rest is a megabyte of other models.
PYGEOMAG = ("__init__.py", "format.py", "geomag.py", "time.py", "util.py", "wmm/wmm_2025.py")
DATE = (2026, 1, 1, 0, 0, 0)


def sources() -> dict[str, bytes]:
    """Every file of the bundle by its path in the zip, uncompiled."""
    found = {str(p.relative_to(ROOT)): p.read_bytes() for p in sorted((ROOT / "exercises").rglob("*.py"))}
    home = Path(pygeomag.__file__).parent
    for name in PYGEOMAG:
        found[f"pygeomag/{name}"] = (home / name).read_bytes()
    return found


def write_zip(files: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """A zip that depends on nothing but its files."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name, DATE), files[name], method, 9)
    return out.getvalue()


def bundle() -> bytes:
    """The zip of compiled code.  Trouble if this Python is not the runtime's or does not compile it."""
    if sys.version_info[:2] != (3, 13):
        raise Trouble("The site is built with Python 3.13, the version of the browser's Python.")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "code.zip"
        path.write_bytes(write_zip({name: slimmed(source) for name, source in sources().items()}))
        # a fixed date makes the compiled files carry hashes of their source instead of the time of the build
        environment = {**os.environ, "SOURCE_DATE_EPOCH": "1767225600"}
        command = [sys.executable, "-m", "pyodide_cli", "py-compile", "--silent", str(path)]
        done = subprocess.run(command, env=environment, capture_output=True, text=True)
        if done.returncode:
            raise Trouble(f"The code for the browser does not compile: {done.stderr.strip()[-400:]}")
        with zipfile.ZipFile(path) as archive:
            return write_zip({name: archive.read(name) for name in archive.namelist()})


def rooms(code: bytes) -> bytes:
    """Of the zip of compiled code, the files that a student's page never runs."""
    with zipfile.ZipFile(io.BytesIO(code)) as archive:
        folders = tuple(room.replace(".", "/") + "/" for room in ROOMS)
        return write_zip({name: archive.read(name) for name in archive.namelist() if name.startswith(folders)})


def lock_without_packages(lock: str) -> str:
    """The runtime's lock file without its list of packages: none is used here, and the list is 120 kB."""
    return json.dumps({**json.loads(lock), "packages": {}})
