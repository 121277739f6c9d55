"""What the site hands to its readers that others made: whose it is, its version, its licence, from their own files.

To ship another thing of others, enter it in `carried`: its package, the files of the site that are or hold it, and
where its package states the licence.  A text that no package carries is not invented; the page says where it is stated.
"""

import io
import json
import re
import sysconfig
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from importlib.metadata import Distribution, distribution
from pathlib import Path

from fontTools.ttLib import TTFont

from generator.build.font import formula_font
from generator.build.runtime import ROOT, decoder_folder, runtime_folder
from generator.build.theme_files import FOLDER, script

UNSTATED = "not stated in the package"
#: The field model's name and date, as its package writes them.
MODEL = re.compile(r'"(WMM-\d+)", "([\d/]+)"')
#: Libraries in the runtime's WebAssembly, and what in it shows that they are there, with the version where it says one.
INSIDE = {
    "zlib": rb" inflate ([\d.]+) Copyright",
    "Expat": rb"expat_([\d.]+)",
    "libbzip2": rb"(\d\.\d\.\d), \d+-\w+-\d{4}",
    "libmpdec": rb"libmpdec",
    "HACL*": rb"Modules/_hacl/",
    "mimalloc": rb"mimalloc: error",
}
NOTICE = re.compile(rb"[\x20-\x7e\n]*(?:Copyright|\(c\) )[\x20-\x7e\n]*\d{4}[\x20-\x7e\n]*")
COMMENT = re.compile(r"/\*!(.*?)\*/", re.DOTALL)
#: What mkdocs-material's two scripts are made of besides its own code, by the tables for debugging in its package.
PARTS = re.compile(r'"node_modules/((?:@[^/"]+/)?[^/"]+)/')


@dataclass(frozen=True)
class Carried:
    """A thing of others.

    what     what of it is here, one sentence
    files    patterns of addresses in the site that are it or hold it
    licence  its name, as the package has it
    stated   where the package states it, one sentence
    texts    whole licence texts that the package carries
    notices  notices of copyright that stand in the shipped files themselves
    """

    name: str
    version: str
    what: str
    files: tuple[str, ...]
    licence: str
    stated: str
    texts: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()

    def html(self) -> str:
        """Its passage of the page."""
        heading = f"{self.name} {self.version}".strip()
        rows = [
            f"<h2>{escape(heading)}</h2><p>{escape(self.what)} Licence: <strong>{escape(self.licence)}</strong>. "
            f"{escape(self.stated)}</p>"
        ]
        if self.notices:
            rows.append(_folded("Notices that stand in its files", "\n".join(self.notices)))
        rows += [_folded("The text of the licence", text) for text in self.texts]
        return "".join(rows)


def _folded(title: str, text: str) -> str:
    return f'<details><summary>{title}</summary><pre class="er-licence">{escape(text.strip())}</pre></details>'


def carried() -> tuple[Carried, ...]:
    """All that the site carries of others."""
    return (*_runtime(), _decoder(), *_field_model(), *_theme(), _font())


def page() -> str:
    """The passages of the page, one after another."""
    return "".join(one.html() for one in carried())


def _runtime() -> Iterator[Carried]:
    home = runtime_folder()
    about = json.loads((home / "package.json").read_text(encoding="utf-8"))
    code = (home / "pyodide.asm.wasm").read_bytes()
    made = json.loads((home / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]
    memory = ("eight/image.*", "eight/runtime.bin", "eight/glue.*", "eight/tables.bin")
    yield Carried(
        name="Pyodide",
        version=about["version"],
        what=(
            "Python for the browser: the runtime, its scripts, and the files from which it starts quickly, "
            "which lack what no page here needs."
        ),
        files=("eight/python/*", *memory),
        licence=about["license"],
        stated=f"Its package states this in package.json and has no text of it; its home is {about['homepage']}.",
        notices=tuple(_notices(code)),
    )
    own = Path(sysconfig.get_path("stdlib")) / "LICENSE.txt"
    yield Carried(
        name="Python",
        version=made["python"],
        what="The language and its standard library, inside the runtime and in the image of its memory.",
        files=("eight/python/*", *memory),
        licence="Python Software Foundation License Version 2, and others for parts of it",
        stated=(
            "The runtime's package has no text of it; this one lies beside the Python with which the site was built."
            if own.is_file()
            else "The runtime's package has no text of it. It is what Python answers to license()."
        ),
        texts=(own.read_text(encoding="utf-8"),) if own.is_file() else (),
    )
    inside = {"Emscripten": str(made["platform"]).removeprefix("emscripten_").replace("_", ".")}
    for name, mark in INSIDE.items():
        if found := re.search(mark, code):
            inside[name] = found[1].decode() if found.re.groups else ""
    for name, version in inside.items():
        yield Carried(
            name=name,
            version=version,
            what="It is part of the runtime.",
            files=("eight/python/pyodide.asm.*", "eight/runtime.bin", "eight/glue.*"),
            licence=UNSTATED,
            stated="The runtime's package says nothing of it; ask its own makers.",
        )


def _notices(code: bytes) -> list[str]:
    """Notices of copyright in a file of machine code, each once."""
    found = (" ".join(match.decode("ascii").split()) for match in NOTICE.findall(code))
    return list(dict.fromkeys(text for text in found if len(text) < 500))


def _decoder() -> Carried:
    home = decoder_folder().parent
    about = json.loads((home / "package.json").read_text(encoding="utf-8"))
    return Carried(
        name=about["name"],
        version=about["version"],
        what="It unpacks those files.",
        files=("eight/unpacker.js", "eight/unpacker.bin"),
        licence=about["license"],
        stated="Its package carries the texts.",
        texts=tuple(path.read_text(encoding="utf-8") for path in sorted(home.glob("LICENSE*"), reverse=True)),
    )


def _field_model() -> Iterator[Carried]:
    package = distribution("pygeomag")
    holds = ("eight/exercises.zip", "eight/image.bin")
    yield Carried(
        name="pygeomag",
        version=package.version,
        what="Works out the earth's field at a place and on a date.",
        files=holds,
        licence="MIT",
        stated="Its package carries the text.",
        texts=_texts(package),
    )
    at = package.locate_file("pygeomag/wmm/wmm_2025.py")
    (name, date), *_ = MODEL.findall(Path(str(at)).read_text(encoding="utf-8"))
    yield Carried(
        name="World Magnetic Model",
        version=name,
        what=f"The coefficients of {date} from which pygeomag works out the field.",
        files=holds,
        licence=UNSTATED,
        stated=(
            "The package says that the model is a joint product of the United States' National Geospatial-Intelligence "
            "Agency and the United Kingdom's Defence Geographic Centre, developed by NCEI and the British Geological "
            "Survey, and says no more about the coefficients."
        ),
    )


def _theme() -> Iterator[Carried]:
    package = distribution("mkdocs-material")
    (searching,) = (FOLDER / "assets/javascripts/workers").glob("search.*.min.js")
    yield Carried(
        name="Material for MkDocs",
        version=package.version,
        what="The frame of every page: its styles, its script and the search.",
        files=("assets/*", "eight/theme.bin"),
        licence="MIT",
        stated="Its package carries the text.",
        texts=_texts(package),
    )
    icons = (FOLDER / ".icons/material/LICENSE").read_text(encoding="utf-8")
    yield Carried(
        name="Material Design Icons",
        version="",
        what="The small drawings on buttons and beside notes.",
        files=("*.html", "assets/stylesheets/*"),
        licence="see the text",
        stated="It lies beside the icons in the theme's package.",
        texts=(icons,),
    )
    for at, text in (script(), (searching.relative_to(FOLDER).as_posix(), searching.read_text(encoding="utf-8"))):
        yield from _parts(at, text)


def _parts(at: str, text: str) -> Iterator[Carried]:
    """What a script of the theme is made of besides its own code."""
    (table,) = FOLDER.glob(f"{at}.map")
    notices = ["\n".join(line.strip(" *") for line in one.splitlines()).strip() for one in COMMENT.findall(text)]
    for name in sorted(set(PARTS.findall(table.read_text(encoding="utf-8")))):
        own = tuple(notice for notice in notices if notice.startswith(name))
        yield Carried(
            name=name,
            version=next(iter(re.findall(r" v([\d.]+)", " ".join(own))), ""),
            what="It is part of the theme's script." if at == script()[0] else "It is part of the search.",
            files=(at, "eight/theme.bin") if at == script()[0] else (at,),
            licence="see the notice" if own else UNSTATED,
            stated=(
                "The script has this notice and no more."
                if own
                else "The theme's package says nothing of it; ask its own makers."
            ),
            notices=own,
        )


def _font() -> Carried:
    names = TTFont(io.BytesIO(formula_font()))["name"]
    return Carried(
        name="STIX Two Math",
        version=str(names.getDebugName(5)).removeprefix("Version "),
        what="The font of the formulas, cut down to their characters.",
        files=("eight/formulas.woff2", "eight/formulas.OFL.txt"),
        licence="SIL Open Font License 1.1",
        stated=str(names.getDebugName(13)),
        texts=((ROOT / "site_assets/formulas.OFL.txt").read_text(encoding="utf-8"),),
        notices=(str(names.getDebugName(0)),),
    )


def _texts(package: Distribution) -> tuple[str, ...]:
    """The licence texts in a package's own list of its files."""
    files = [file for file in package.files or () if ".dist-info" in str(file) and "LICENSE" in file.name]
    return tuple(file.read_text(encoding="utf-8") for file in files)
