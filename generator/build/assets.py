"""The files that the browser loads besides the pages: what is hand-written, the runtime, the code."""

from pathlib import Path

from exercises.classroom.report.page import STYLES
from generator.build import light
from generator.build.bundle import bundle, lock_without_packages, rooms
from generator.build.cache import cached
from generator.build.font import formula_font
from generator.build.icons import installable_files
from generator.build.image import image_files
from generator.build.runtime import DECODER, FILES, ROOT, decoder_folder, runtime_folder
from generator.build.theme_files import packed
from generator.build.theme_fixes import JOINED, JOINED_OF, joined

FOLDER = "eight"  # in the site
WRITTEN = (
    "icon.svg",
    "bench.css",
    "bench.js",
    "bench_end.js",
    "bench_readings.js",
    "bench_settling.js",
    "bench_state.js",
    "formulas.css",
    "formulas.OFL.txt",
    "notebook.css",
    "desk.js",
    "code.js",
    "conventions.js",
    "keep.js",
    "drill.js",
    "typing.js",
    "page.js",
    "python.js",
    "start.js",
    "taken.js",
    "theme.js",
    "ahead.js",
    "coming.js",
    "practice.js",
    "why.js",
    "worker.js",
    "handin.js",
    "handin.css",
    "sheet.css",
    "help.js",
    "class.css",
    "class.js",
    "class_handle.js",
    "class_work.js",
    "class_returned.js",
    "class_alike.js",
    "class_drops.js",
    "class_list.js",
    "class_marks.js",
    "class_marks_file.js",
    "class_students.js",
    "class_paper.js",
    "reach.js",
    "record.css",
    "record.js",
    "record_file.js",
    "record_form.js",
    "record_found.js",
)


def plain_files() -> dict[str, Path | bytes | str]:
    """Address in the site -> a file to copy or its content.  Trouble if one cannot be had."""
    runtime = runtime_folder()
    files: dict[str, Path | bytes | str] = {f"{FOLDER}/{name}": file for name, file in _written().items()}
    files[f"{FOLDER}/theme.bin"] = packed()
    files[f"{FOLDER}/report.css"] = STYLES
    texts = (
        STYLES if name == "report.css" else (ROOT / "site_assets" / name).read_text(encoding="utf-8")
        for name in JOINED_OF
    )
    files[f"{FOLDER}/{JOINED}"] = joined(texts)
    files |= installable_files()
    files[f"{FOLDER}/formulas.woff2"] = formula_font()
    for name in FILES:
        # some hosts do not know what .mjs is
        files[f"{FOLDER}/python/{name.replace('.mjs', '.js')}"] = runtime / name
    files[f"{FOLDER}/unpacker.js"] = decoder_folder() / f"{DECODER}.js"
    files[f"{FOLDER}/python/pyodide-lock.json"] = lock_without_packages((runtime / "pyodide-lock.json").read_text())
    return files


def _written() -> dict[str, Path | str]:
    paths = {name: ROOT / "site_assets" / name for name in WRITTEN}
    scripts = [name for name in WRITTEN if name.endswith(".js")]
    texts = light.scripts([paths[name].read_text(encoding="utf-8") for name in scripts])
    return paths | dict(zip(scripts, texts, strict=True))


def compiled_files() -> dict[str, bytes]:
    """The files that take a compiler: the code for the browser, and the image of its memory.  Trouble if one fails."""
    code = cached("exercises.zip", bundle)
    files = {f"{FOLDER}/exercises.zip": code, f"{FOLDER}/rooms.zip": rooms(code)}
    return files | {f"{FOLDER}/{n}": content for n, content in image_files(code).items()}
