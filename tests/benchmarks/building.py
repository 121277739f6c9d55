"""What making the pages costs: the whole build beside a plain mkdocs build of the same pages already rendered.

`build_ratio` is of a build as it is run from day to day, with the drawings and
the compiled code of unchanged sources kept from before; `first_build_ratio` of
a build that has nothing kept.
"""

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import yaml

from generator.build.runtime import ROOT, runtime_folder

RUNS = 3

CAPTURE = """
from pathlib import Path

def on_page_content(html, *, page, config, files):
    out = Path(config.docs_dir).parent / "rendered" / page.file.src_uri
    out.parent.mkdir(parents=True, exist_ok=True)
    front = "---\\ntitle: " + repr(page.title) + "\\n---\\n"
    out.write_text(front + "<div>" + html.replace("\\n\\n", "\\n") + "</div>\\n")
"""


def build_ratio() -> dict[str, float]:
    runtime_folder()
    with tempfile.TemporaryDirectory() as folder:
        whole, plain = Path(folder) / "whole", Path(folder) / "plain"
        whole.mkdir()
        for name in ("content", "exercises", "generator", "site_assets", "mkdocs.yml", "pyproject.toml"):
            (shutil.copytree if (ROOT / name).is_dir() else shutil.copy)(ROOT / name, whole / name)
        (whole / ".cache").mkdir()
        (whole / ".cache" / "runtime").symlink_to(ROOT / ".cache" / "runtime")
        _render(whole, plain)
        taken = {"first": [], "again": [], "plain": []}
        for _ in range(RUNS):
            # nothing drawn or compiled is kept from before; then a build after that one
            shutil.rmtree(whole / ".cache" / "made", ignore_errors=True)
            for name, place in (("first", whole), ("again", whole), ("plain", plain)):
                start = time.perf_counter()
                _mkdocs(place)
                taken[name].append(time.perf_counter() - start)
    first, again, theirs = (statistics.median(taken[name]) for name in ("first", "again", "plain"))
    return {
        "first_build_seconds": first,
        "build_seconds": again,
        "plain_build_seconds": theirs,
        "first_build_ratio": first / theirs,
        "build_ratio": again / theirs,
    }


def _render(whole: Path, plain: Path) -> None:
    """Build once, keeping each page's rendered HTML; make of it a plain mkdocs project without the hook."""
    settings = (whole / "mkdocs.yml").read_text()
    (whole / "capture.py").write_text(CAPTURE)
    (whole / "mkdocs.yml").write_text(
        settings.replace("  - generator/build/site_hook.py", "  - generator/build/site_hook.py\n  - capture.py")
    )
    _mkdocs(whole)
    (whole / "mkdocs.yml").write_text(settings)
    (whole / "rendered").rename(plain_docs := whole.parent / "docs")
    plain.mkdir()
    plain_docs.rename(plain / "content")
    shutil.copytree(whole / "site" / "eight", plain / "content" / "eight")
    config = yaml.safe_load(settings)
    del config["hooks"]
    config["markdown_extensions"] = ["attr_list"]
    config["validation"] = {"links": {"not_found": "ignore", "anchors": "ignore", "unrecognized_links": "ignore"}}
    (plain / "mkdocs.yml").write_text(yaml.safe_dump(config))


def _mkdocs(place: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--quiet"],
        cwd=place,
        env={**os.environ, "PYTHONPATH": str(place), "NO_MKDOCS_2_WARNING": "1"},
        check=True,
        capture_output=True,
    )
