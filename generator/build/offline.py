"""The site without a network: the worker that keeps it on a device, with the list of what it keeps.

    with_links  the manifest, the icons and the page's script, in the head of each page
    write       when all other files are there: the list with hashes, in the worker at the site's root
    write_none  in place of it where nothing is to be kept

Every address is relative to the worker's own, so the site works wherever it is put.
"""

import base64
import hashlib
import json
import re
from pathlib import Path
from urllib.parse import quote

from mkdocs.utils import get_relative_url

from generator.build import light
from generator.build.icons import PAPER, PAPER_DARK
from generator.build.runtime import ROOT

ASSETS = ROOT / "site_assets"
WORKER, SCRIPT = "offline.js", "eight/offline.js"  # in the site
ENCODING = re.compile("<meta charset=[^>]*>")
#: What no page asks for: the list for search engines.
LEFT_OUT = ("sitemap.xml", "sitemap.xml.gz")
#: What only a start without the memory image takes, a strict host, or a rare import: kept where it was needed.
LATER = (
    *("eight/python/pyodide.asm.wasm", "eight/python/pyodide.asm.js", "eight/python/python_stdlib.zip"),
    *("eight/exercises.zip", "eight/glue.js", "eight/tables.bin"),
)


def with_links(html: str, url: str) -> str:
    """A page with the links in its head that let it be kept and installed; `url` is its address in the site."""
    root = "" if url in ("", "./") else f"{get_relative_url('.', url)}/"
    links = (
        f'<link rel="manifest" href="{root}manifest.webmanifest">'
        f'<link rel="apple-touch-icon" href="{root}eight/icon-192.png">'
        f'<meta name="theme-color" content="{PAPER}" media="(prefers-color-scheme: light)">'
        f'<meta name="theme-color" content="{PAPER_DARK}" media="(prefers-color-scheme: dark)">'
    )
    if "<math" in html or "er-drill" in html:
        # asked for with the page, so that it is there when the page is first drawn
        font = f"{root}eight/formulas.woff2"
        links += f'<link rel="preload" href="{font}" as="font" type="font/woff2" crossorigin>'
    # first of all, and not held up by what comes after it: it says what lacks
    first = f'<script src="{root}{SCRIPT}" async></script>'
    html = ENCODING.sub(lambda encoding: encoding[0] + first, html, 1)
    return html.replace("</head>", f"{links}</head>", 1)


def listed(folder: Path) -> dict[str, str]:
    """The files of a built site that are kept: address in the site, as a browser asks for it -> SHA-256 in base64."""
    found = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_dir() or name == WORKER or name.endswith(LEFT_OUT):
            continue
        address = name.removesuffix("index.html") if path.name == "index.html" else name
        found[quote(address)] = base64.b64encode(hashlib.sha256(path.read_bytes()).digest()).decode()
    return found


def write(folder: Path) -> str:
    """Write the worker and the page's script into a built site whose other files are all there; the version.

    The version is a hash of all that is kept, so it is new whenever a file is.  To be called again after any change.
    """
    worker, script = ((ASSETS / name).read_text(encoding="utf-8") for name in ("offline_worker.js", "offline.js"))
    (script,) = light.scripts([script])
    files = {address: found for address, found in listed(folder).items() if address != SCRIPT}
    version = hashlib.sha256(json.dumps([files, worker, script]).encode()).hexdigest()[:16]
    _put(folder / SCRIPT, stamped(script, version))
    site = json.dumps({"version": version, "files": listed(folder), "later": LATER}, indent=0)
    _put(folder / WORKER, f"const SITE = {site};\n{worker}")
    return version


def write_none(folder: Path) -> None:
    """Write a worker that removes what was kept, and a page's script that does nothing but ask for it."""
    _put(folder / WORKER, (ASSETS / "offline_none.js").read_text(encoding="utf-8"))
    _put(folder / SCRIPT, stamped((ASSETS / "offline.js").read_text(encoding="utf-8"), "none"))


def stamped(script: str, version: str) -> str:
    """The page's script with the version that it is of."""
    return script.replace('"VERSION"', f'"{version}"', 1)


def _put(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")
