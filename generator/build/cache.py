"""What takes long to make is kept in .cache/ and made again only when something it is made of has changed.

The key is a hash of all code and of the pinned versions, so nothing stale is
ever used; deleting .cache/made/ costs two seconds and nothing else.
"""

import hashlib
import shutil
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from generator.build.runtime import ROOT

KEPT = ROOT / ".cache" / "made"


@cache
def made_of() -> str:
    """A hash of everything that made things are made of."""
    found = hashlib.sha256((ROOT / "pyproject.toml").read_bytes())
    for room in ("exercises", "generator"):
        for path in sorted((ROOT / room).rglob("*.py")):
            found.update(f"{path.relative_to(ROOT)}\0".encode() + path.read_bytes())
    return found.hexdigest()[:24]


def kept(name: str, make: Callable[[], bytes]) -> bytes:
    """What `make` gives, from the last time if nothing has changed.  A folder that cannot be written is done without."""
    home = KEPT / made_of()
    place = home / hashlib.sha256(name.encode()).hexdigest()[:24]
    if place.is_file():
        return place.read_bytes()
    content = make()
    try:
        if not home.exists():
            shutil.rmtree(KEPT, ignore_errors=True)  # made of older code
        home.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=home, delete=False) as file:
            file.write(content)
        Path(file.name).replace(place)
    except OSError:
        pass
    return content


def kept_text(name: str, make: Callable[[], str]) -> str:
    """`kept` for text."""
    return kept(name, lambda: make().encode()).decode()
