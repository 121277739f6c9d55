"""Every file of others that a reader gets is named on "What the site carries", with what its package states."""

import functools
import io
import zipfile
from fnmatch import fnmatch
from importlib.metadata import distribution

from generator.build import carried as of_others
from generator.build.assets import JOINED, WRITTEN
from generator.build.carried import INSIDE, page
from generator.build.runtime import pinned_version, runtime_folder

#: The site's own files: what is written here, and what the build makes of it.
OURS = (
    *(f"eight/{name}" for name in (*WRITTEN, JOINED, "report.css", "offline.js", "icon-*.png", "*.zip")),
    *("*.html", "class/*.csv", "offline.js", "manifest.webmanifest", "search/search_index.json", "sitemap.xml*"),
)

#: Looked for once: it searches the runtime's machine code.
carried = functools.cache(of_others.carried)


def named(address: str) -> list[str]:
    return [one.name for one in carried() if any(fnmatch(address, pattern) for pattern in one.files)]


def test_every_shipped_file_is_our_own_or_named_on_the_page(site):
    unnamed = [
        address
        for path in sorted(site.rglob("*"))
        if path.is_file()
        and not any(fnmatch(address := path.relative_to(site).as_posix(), pattern) for pattern in OURS)
        and not named(address)
    ]
    assert unnamed == [], "Say in generator/build/carried.py whose these are."


def test_what_lies_inside_our_own_archive_is_named(site):
    with zipfile.ZipFile(io.BytesIO((site / "eight/exercises.zip").read_bytes())) as archive:
        rooms = {name.partition("/")[0] for name in archive.namelist()}
    assert rooms - {"exercises"} == {"pygeomag"} and "pygeomag" in named("eight/exercises.zip")


def test_no_entry_names_a_file_that_is_not_there(site):
    there = [path.relative_to(site).as_posix() for path in site.rglob("*")]
    for one in carried():
        for pattern in one.files:
            assert any(fnmatch(address, pattern) for address in there), f"{one.name}: {pattern}"


def test_versions_and_texts_are_those_of_the_packages():
    found = {one.name: one for one in carried()}
    assert found["Pyodide"].version == pinned_version()
    assert set(INSIDE) < set(found)  # each of the marks is there
    for name, package in (("pygeomag", "pygeomag"), ("Material for MkDocs", "mkdocs-material")):
        assert found[name].version == distribution(package).version
        assert "Permission is hereby granted" in found[name].texts[0]
    assert "rxjs" in found and "lunr" in found
    assert any("Mark Adler" in notice for notice in found["Pyodide"].notices)
    assert any("Python Software Foundation" in notice for notice in found["Pyodide"].notices)


def test_the_page_has_them_all_and_leaves_our_own_licence_open(site):
    html = (site / "class/carried/index.html").read_text(encoding="utf-8")
    assert page() in html
    assert "has not stated a licence" in html.replace("\n", " ")
    assert all(f"<h2>{one.name} {one.version}".strip() in html for one in carried())
    assert "Pictogrammers" not in (site / "search/search_index.json").read_text(encoding="utf-8")


def test_the_image_and_the_runtime_hold_nothing_but_what_is_named():
    """What they are made of is the runtime's files, named one by one; a new one is to be looked at."""
    with zipfile.ZipFile(runtime_folder() / "python_stdlib.zip") as library:
        extra = {n.split("/")[1] for n in library.namelist() if n.startswith("site-packages/") and n.count("/") > 1}
    assert extra <= {"README.txt"}
