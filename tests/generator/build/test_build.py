"""The build: the same every time, and never at the cost of the last good site."""

import errno
import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from generator.build import bundle, runtime
from generator.build.cache import cached
from generator.build.runtime import ROOT
from generator.build.trouble import Trouble, about_disk

CODE = ("eight/exercises.zip",)
IMAGE = ("eight/image.json", "eight/image.bin", "eight/runtime.bin")
OUR_HOOK = "hooks:\n  - generator/build/site_hook.py\n"
PARTS = ("content", "exercises", "generator", "site_assets", "mkdocs.yml", "pyproject.toml")


def digest(folder: Path) -> dict[str, str]:
    return {
        str(p.relative_to(folder)): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


@pytest.fixture
def checkout(tmp_path, site):
    """A copy of the project, its runtime already fetched, with a last good site in it."""
    for name in PARTS:
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, tmp_path / name)
    (tmp_path / ".cache").mkdir()
    (tmp_path / ".cache" / "runtime").symlink_to(ROOT / ".cache" / "runtime")
    # what was drawn and compiled for `site`, without what another process is just writing
    shutil.copytree(ROOT / ".cache" / "made", tmp_path / ".cache" / "made", ignore=shutil.ignore_patterns("tmp*"))
    good = tmp_path / "site"
    good.mkdir()
    (good / "index.html").write_text("the last good site")
    return tmp_path


def mkdocs(checkout: Path, **environment) -> subprocess.CompletedProcess:
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict"],
        cwd=checkout,
        env={**os.environ, "PYTHONPATH": str(checkout), "NO_MKDOCS_2_WARNING": "1", **environment},
        capture_output=True,
        text=True,
    )


def test_built_again_elsewhere_it_is_the_same_bytes(checkout, site):
    """The code and the memory image too: another folder, home, time zone, language, hash seed and moment."""
    shutil.rmtree(checkout / ".cache" / "made")  # all of it is made again
    (home := checkout / "home").mkdir()
    elsewhere = {
        "HOME": str(home),
        "TMPDIR": str(home),
        "TZ": "Asia/Tokyo",
        "LANG": "de_DE.UTF-8",
        "PYTHONHASHSEED": "7",
    }
    done = mkdocs(checkout, **elsewhere)
    assert done.returncode == 0, done.stderr
    built = digest(checkout / "site")
    assert built == digest(site)
    assert {"eight/python/pyodide.asm.wasm", "exercises/tan-a/index.html", *CODE, *IMAGE} <= set(built)
    assert not (checkout / "site.new").exists() and not (checkout / "site.old").exists()


def test_a_failed_fetch_leaves_the_last_good_site_and_says_what_to_do(checkout):
    (checkout / ".cache" / "runtime").unlink()
    shutil.rmtree(checkout / ".cache" / "made")
    done = mkdocs(checkout, npm_config_registry="http://127.0.0.1:9/", npm_config_fetch_retries="0")
    assert done.returncode != 0
    assert "could not be fetched" in done.stderr and "run the command again" in done.stderr
    assert (checkout / "site" / "index.html").read_text() == "the last good site"
    assert not (checkout / "site.new").exists()
    assert list((checkout / ".cache" / "runtime").iterdir()) == []


def test_a_full_disk_leaves_the_last_good_site_and_says_what_to_do(checkout):
    # the disk's own error, raised where a page is about to be written, by a hook that is no part of the code: what
    # was made of the code is not made again
    (checkout / "full_disk.py").write_text(
        "def on_post_page(output, *, page, config):\n    raise OSError(28, 'No space left on device')\n"
    )
    settings = checkout / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    assert text.count(OUR_HOOK) == 1
    settings.write_text(text.replace(OUR_HOOK, f"{OUR_HOOK}  - full_disk.py\n"), encoding="utf-8")
    done = mkdocs(checkout)
    assert done.returncode != 0
    assert "The disk is full" in done.stderr and "Free some space" in done.stderr
    assert (checkout / "site" / "index.html").read_text() == "the last good site"
    assert not (checkout / "site.new").exists()


def test_a_warning_leaves_the_last_good_site(checkout):
    page = checkout / "content" / "index.md"
    page.write_text(page.read_text() + "\n[nowhere](nowhere.md)\n")
    done = mkdocs(checkout)
    assert done.returncode != 0
    assert (checkout / "site" / "index.html").read_text() == "the last good site"


def test_an_unknown_figure_is_named(checkout):
    page = checkout / "content" / "index.md"
    page.write_text(page.read_text() + "\n<!-- figure: nosuch -->\n")
    done = mkdocs(checkout)
    assert done.returncode != 0 and "No figure is called nosuch" in done.stderr


def test_a_runtime_that_does_not_match_its_pin_is_not_used(tmp_path, monkeypatch):
    pin = tmp_path / "pin"
    shutil.copytree(runtime.PIN, pin)
    lock = pin / "package-lock.json"
    text = lock.read_text()
    start = text.index("sha512-TkYrUv9m8Qmf")
    lock.write_text(text[:start] + "sha512-" + "A" * 86 + "==" + text[text.index('"', start) :])
    monkeypatch.setattr(runtime, "PIN", pin)
    with pytest.raises(Trouble, match="integrity"):
        runtime.runtime_folder(tmp_path / "kept")
    assert list((tmp_path / "kept").iterdir()) == []


def test_the_runtime_is_the_pinned_one():
    assert runtime.pinned_version() == "0.29.5"
    assert (runtime.runtime_folder() / "pyodide.mjs").is_file()


def test_the_bundle_is_compiled_and_small():
    one = cached("exercises.zip", bundle.bundle)  # made again, it is the same: see the site built elsewhere
    # what a page of a student runs, and what the class desk and the record run: look twice before they grow
    assert len(one) - len(bundle.rooms(one)) < 700_000
    assert len(bundle.rooms(one)) < 600_000
    assert "pygeomag/wmm/wmm_2025.py" in bundle.sources()
    assert not any("generator" in name for name in bundle.sources())


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES, errno.EIO])
def test_disk_troubles_say_what_to_do(code):
    sentence = str(about_disk(OSError(code, "x", "some/file"), "building the site"))
    assert "not finished" in sentence and sentence.endswith(".")
