"""The files that the browser loads besides the pages: what is hand-written, the runtime, the code."""

from pathlib import Path

from exercises.classroom.report_page import STYLES
from generator.bundle import bundle, lock_without_packages
from generator.kept import kept
from generator.runtime import FILES, ROOT, runtime_folder

FOLDER = "eight"  # in the site
WRITTEN = ("icon.svg", "notebook.css", "desk.js", "keep.js", "drill.js", "python.js", "why.js", "worker.js",
           "handin.js", "handin.css",
           "class.css", "class.js", "class_work.js", "class_returned.js", "class_marks.js",
           "record.css", "record.js", "record_file.js", "record_found.js")  # fmt: skip


def plain_files() -> dict[str, Path | bytes | str]:
    """Address in the site -> a file to copy or its content.  Trouble if one cannot be had."""
    runtime = runtime_folder()
    files: dict[str, Path | bytes | str] = {f"{FOLDER}/{n}": ROOT / "site_assets" / n for n in WRITTEN}
    files[f"{FOLDER}/report.css"] = STYLES
    for name in FILES:
        files[f"{FOLDER}/python/{name}"] = runtime / name
    files[f"{FOLDER}/python/pyodide-lock.json"] = lock_without_packages((runtime / "pyodide-lock.json").read_text())
    return files


def compiled_files() -> dict[str, bytes]:
    """The files that take a compiler: the code for the browser.  Trouble if it does not compile."""
    return {f"{FOLDER}/exercises.zip": kept("exercises.zip", bundle)}
