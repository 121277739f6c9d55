"""What takes long to make is stored in .cache/, and made again only when the code has changed.

The key is a hash of all code and of the pinned versions, so nothing stale is
ever used; deleting .cache/made/ costs two seconds and nothing else.
"""

import hashlib
import shutil
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from generator.build.runtime import PIN, ROOT

FOLDER = ROOT / ".cache" / "made"


@cache
def code_hash() -> str:
    """A hash of all code, and of the versions of all packages: of everything that goes into what is stored."""
    found = hashlib.sha256((ROOT / "pyproject.toml").read_bytes() + (PIN / "package-lock.json").read_bytes())
    for room in ("exercises", "generator"):
        for path in sorted(path for path in (ROOT / room).rglob("*") if path.suffix in (".py", ".mjs")):
            found.update(f"{path.relative_to(ROOT)}\0".encode() + path.read_bytes())
    return found.hexdigest()[:24]


def cached(name: str, make: Callable[[], bytes]) -> bytes:
    """What `make` gives, from the last time if no code has changed; a name stands for one thing.

    Where the folder cannot be written, `make` is called every time.
    """
    home = FOLDER / code_hash()
    place = home / hashlib.sha256(name.encode()).hexdigest()[:24]
    if place.is_file():
        return place.read_bytes()
    content = make()
    try:
        if not home.exists():
            shutil.rmtree(FOLDER, ignore_errors=True)  # made of older code
        home.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=home, delete=False) as file:
            file.write(content)
        Path(file.name).replace(place)
    except OSError:
        pass
    return content


def cached_text(name: str, make: Callable[[], str]) -> str:
    """`cached` for text."""
    return cached(name, lambda: make().encode()).decode()
