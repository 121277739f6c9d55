"""What the build writes so that the site can be kept and installed: the list with hashes, the links, the icons."""

import base64
import hashlib
import io
import json
import struct
from urllib.parse import unquote, urljoin

import numpy as np
import pytest
from matplotlib import colors, image

from generator.build import icons, offline
from generator.build.runtime import ROOT


def listed_in(folder) -> dict:
    """What a worker says that it keeps."""
    return json.loads((folder / "offline.js").read_text().partition(";\n")[0].removeprefix("const SITE = "))


@pytest.fixture
def small(tmp_path):
    for name in (
        "index.html",
        "a/index.html",
        "eight/x.js",
        "assets/y z.svg",
        "sitemap.xml",
        "assets/javascripts/bundle.js",
    ):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(f"this is {name}")
    return tmp_path


def test_every_file_is_listed_by_its_address_and_hash(small):
    version = offline.write(small)
    site = listed_in(small)
    assert site["version"] == version
    assert set(site["files"]) == {
        "",
        "a/",
        "eight/x.js",
        "assets/y%20z.svg",
        "assets/javascripts/bundle.js",
        "eight/offline.js",
    }
    for address, found in site["files"].items():
        name = unquote(address)
        path = small / (f"{name}index.html" if name == "" or name.endswith("/") else name)
        # as Subresource Integrity (W3C) writes it
        assert found == base64.b64encode(hashlib.sha256(path.read_bytes()).digest()).decode()


def test_a_version_is_the_same_again_and_another_after_any_change(small):
    versions = [offline.write(small), offline.write(small)]
    assert versions[0] == versions[1]
    seen = {versions[0]}
    for name in ("a/index.html", "eight/x.js", "assets/y z.svg"):
        (small / name).write_text(f"{name} has changed")
        seen.add(offline.write(small))
    (small / "a" / "index.html").rename(small / "a.html")
    seen.add(offline.write(small))
    assert len(seen) == 5
    (small / "sitemap.xml").write_text("no page asks for it")
    assert offline.write(small) in seen


def test_worker_and_page_name_the_same_version(small):
    version = offline.write(small)
    assert (small / "eight" / "offline.js").read_text().count(f'const version="{version}";') == 1


def test_the_built_site_keeps_all_that_a_page_asks_for(site):
    kept = listed_in(site)["files"]
    for path in site.rglob("*"):
        name = path.relative_to(site).as_posix()
        left_out = name.endswith((".map", "sitemap.xml", "sitemap.xml.gz")) or "/lunr/" in name or name == "offline.js"
        if path.is_file() and not left_out:
            assert name.removesuffix("index.html") in kept, name
    assert offline.listed(site) == kept  # nothing was written after the list


@pytest.mark.parametrize("url", ["", "class/", "exercises/tan-a/", "a/b/c.html"])
def test_links_lead_to_the_root_from_any_depth(url):
    html = offline.with_links('<html><head><meta charset="utf-8"><title>x</title></head></html>', url)
    page = f"http://host/some/where/{url}"
    found = [urljoin(page, part.split('"')[1]) for part in html.replace("src=", "href=").split("href=")[1:]]
    assert found == [
        f"http://host/some/where/{name}" for name in ("eight/offline.js", "manifest.webmanifest", "eight/icon-192.png")
    ]
    assert html.endswith("</head></html>") and html.count('name="theme-color"') == 2


def size_of(png: bytes) -> tuple[int, int]:
    # Portable Network Graphics, W3C, 11.2.2: the header's width and height
    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    return struct.unpack(">II", png[16:24])


def test_the_manifest_names_icons_that_are_there_and_of_their_size(site):
    manifest = json.loads((site / "manifest.webmanifest").read_text())
    assert not any(manifest[key].startswith("/") for key in ("start_url", "scope"))
    sizes = set()
    for icon in manifest["icons"]:
        content = (site / icon["src"]).read_bytes()
        assert len(content) < 40_000
        if icon["type"] == "image/png":
            assert "{}x{}".format(*size_of(content)) == icon["sizes"]
            sizes.add((icon["sizes"], icon.get("purpose", "any")))
    assert {("192x192", "any"), ("512x512", "any"), ("512x512", "maskable")} <= sizes


def test_nothing_of_the_maskable_icon_lies_outside_its_safe_zone():
    picture = image.imread(io.BytesIO(icons.installable_files()["eight/icon-mask-512.png"]))[..., :3]
    drawn = np.abs(picture - np.array(colors.to_rgb(icons.PAPER))).max(axis=2) > 0.01
    y, x = np.nonzero(drawn)
    assert 0.3 * 512 < np.hypot(x - 255.5, y - 255.5).max() < 0.4 * 512


def test_the_colours_are_those_of_the_pages():
    styles = (ROOT / "site_assets" / "notebook.css").read_text()
    assert f"--er-paper: {icons.PAPER};" in styles and f"--er-paper: {icons.PAPER_DARK};" in styles
    drawing = (ROOT / "site_assets" / "icon.svg").read_text()
    assert all(colour in drawing for colour in (icons.PAPER, icons.INK, icons.ACCENT, icons.NORTH, icons.SOUTH))


def test_an_authors_server_keeps_nothing(small):
    offline.write_none(small)
    assert "unregister" in (small / "offline.js").read_text()
