"""What is run in the browser's Python at the build before its memory is kept, and the one thing left of it there.

The image holds memory and no files, so everything that will be imported is
imported before.  What is imported later all the same (a rare encoding, the
mail parser) is fetched then: see `watch`.
"""

import codecs
import gc
import hashlib
import importlib
import json
import pkgutil
import re
import sys
import types
import unicodedata
from collections.abc import Callable, Sequence

STANDARD = next((place for place in sys.path if place.endswith(".zip")), "")  # where the standard library lies
#: Codecs that the code names; Python imports each when it is first used.
CODECS = ("ascii", "cp1252", "latin_1", "utf_8_sig", "utf_16", "utf_16_le", "utf_16_be", "utf_32_be")
#: What a student's page never runs: it comes in a file of its own (bundle.rooms) where a page asks for it.
ROOMS = ("exercises.classroom", "exercises.record")
#: What these import of the standard library, so that it need not be fetched for them; a test sees that it is all.
STANDARD_OF_ROOMS = ("hmac", "textwrap")
#: Puts files in their places: those of the rooms as a zip at the place given, if the first is true; else the standard
#: library at that place, and the tables of codecs into memory.
type Fetch = Callable[[bool, str], None]
#: Modules of the runtime whose tables are taken out (generator/build/memory.py): none is imported before they are back.
WITHOUT_TABLES = tuple(f"_codecs_{name}" for name in ("cn", "hk", "iso2022", "jp", "kr", "tw"))
#: What unicodedata loses: the characters' names, whose tables do not come back.
WITHOUT_NAMES = ("name", "lookup", "_ucnhash_CAPI")
#: What may have a text for `help` in the runtime, and from how many characters on it is taken out.
HELPED = (
    type,
    types.ModuleType,
    types.BuiltinFunctionType,
    types.MethodDescriptorType,
    types.ClassMethodDescriptorType,
    types.WrapperDescriptorType,
    types.GetSetDescriptorType,
    types.MemberDescriptorType,
)
LONG = 80
#: A table of line numbers that gives none, for code of any length here (a byte for each eight instructions, see
#: CPython's Objects/locations.md).  Of an empty table Python's own `traceback` makes an error in place of a text.
NO_LINES = b"\xff" * 1024
WARM = 1  # sheets of each kind that are drawn and judged once


def prepare() -> str:
    """Import all, judge a few sheets so that what is made once is made, and leave in memory only what is needed.

    What is returned is for generator/build/memory.py: what stands in memory that is needed no more.
    """
    import exercises

    for module in pkgutil.walk_packages(exercises.__path__, "exercises."):
        if not module.name.startswith(ROOMS):
            importlib.import_module(module.name)
    for name in [name for name in sys.modules if name.startswith(ROOMS)]:  # packages, which the walk imported
        del sys.modules[name]
    for room in ROOMS:
        delattr(exercises, room.removeprefix("exercises."))
    for name in STANDARD_OF_ROOMS:
        importlib.import_module(name)
    for name in CODECS:
        codecs.lookup(name)
    _warm()
    _without_lines()
    for name in WITHOUT_TABLES:
        vars(sys)["modules"][name] = None  # so that an import fails
    for name in WITHOUT_NAMES:
        delattr(unicodedata, name)
    return json.dumps({"frozen": _frozen(), "help": _help()})


def tidy() -> int:
    """Free what can be freed, and put all objects in the list of those that the collector leaves alone.

    Returned is the address of one of them.
    """
    gc.collect()
    _blank()
    gc.collect()
    gc.freeze()
    return id(sys.modules)


def _frozen() -> list[tuple[str, int, str]]:
    """The code of modules in the runtime that have been imported, of which nothing is read a second time."""
    imp = importlib.import_module("_imp")
    names = [name for name in imp._frozen_module_names() if name in sys.modules]
    found = sorted({bytes(imp.find_frozen(name, withdata=True)[0]) for name in names})  # some have two names
    return [(code[:16].hex(), len(code), hashlib.sha256(code).hexdigest()[:32]) for code in found]


def _help() -> list[str]:
    """The long texts that `help` shows of what is written in C."""
    classes, inner = {object}, [object]
    while inner:
        found = set(type.__subclasses__(inner.pop())) - classes
        classes |= found
        inner += found
    owners = (*classes, *(m for m in sys.modules.values() if isinstance(m, types.ModuleType)))
    things = (thing for owner in owners for thing in (owner, *vars(owner).values()) if isinstance(thing, HELPED))
    return sorted({text for thing in things if isinstance(text := thing.__doc__, str) and len(text) > LONG})


def _warm() -> None:
    from exercises.codes.sheet_code import SheetCode, write
    from exercises.kinds.kind import all_kinds, open_code, sheet_of
    from exercises.student import desk as student
    from exercises.working.evaluate import forget
    from exercises.working.mathematics import set_out

    for kind in reversed(all_kinds().values()):
        forget()  # but for the first kind: the compiled code of all is more to fetch than it saves
        for seed in range(WARM):
            code = write(SheetCode(kind.letter, kind.edition, seed))
            student.open_sheet(kind.slug, code)
            working = open_code(code).working
            values = working.all_values()
            entries = {
                s.id: values[s.id] if s.choices else f"{values[s.id] * (1 + seed / 10):.4g}" for s in working.steps
            }
            student.check(code, json.dumps(entries))
    for kept in (sheet_of, write, set_out):
        kept.cache_clear()
    re.purge()


def _without_lines() -> None:
    """Take the tables of line numbers from functions of the standard library, and from those made while it ran.

    They are an eighth of the image.  Our own keep theirs, so that a fault's traceback says where it was.
    """

    def bare(code: types.CodeType) -> types.CodeType:
        inner = (bare(c) if isinstance(c, types.CodeType) else c for c in code.co_consts)
        return code.replace(co_linetable=NO_LINES, co_consts=tuple(inner))

    for thing in gc.get_objects():
        # "<": of no file, such as compiled formulas
        if isinstance(thing, types.FunctionType) and thing.__code__.co_filename.startswith((STANDARD, "<")):
            thing.__code__ = bare(thing.__code__)


def _blank() -> None:
    """Overwrite memory that is free, which holds what was read and compiled: zeros are sent in no time.

    Blocks of zeros are asked for, large ones first, until they come from beyond `end`, where nothing has been yet.
    """
    last = bytes(1 << 20)
    end, held, size = id(last), [], 1 << 19
    sizes = []
    while size > 600:
        sizes.append(size)
        size = size * 3 // 4
    for size in (*sizes, *range(495, 15, -16)):  # from 512 bytes down, Python's own allocator in steps of 16
        while id(block := bytes(size)) < end:
            held.append(block)


class Late:
    """Stands before the finder of files: at the first import of something that is not there yet, has its files fetched.

    Those of the rooms are one file, the standard library another.  All else of ours is in the image.
    """

    def __init__(self, fetch: Fetch):
        self.fetch = fetch
        self.here: set[bool] = set()  # whether the files of the rooms are there, and whether the standard library is

    def find_spec(self, name: str, path: Sequence[str] | None = None, target: types.ModuleType | None = None) -> None:
        of_rooms = name.startswith(ROOMS)
        if of_rooms in self.here:
            return
        self.here.add(of_rooms)  # what is imported meanwhile does not come here again
        try:
            if of_rooms:
                package = sys.modules["exercises"]
                place = f"{package.__path__[0]}.rooms.zip"
                self.fetch(True, place)
                package.__path__.append(f"{place}/exercises")  # imported out of the zip
                return  # a new place has nothing in any cache, and to forget these would itself import something
            self.fetch(False, STANDARD)
            for module in WITHOUT_TABLES:
                vars(sys)["modules"].pop(module, None)
        except BaseException:
            self.here.discard(of_rooms)
            raise
        importlib.invalidate_caches()


def watch(fetch: Fetch) -> None:
    """From now on call `fetch` before anything more is imported."""
    files = next(i for i, finder in enumerate(sys.meta_path) if getattr(finder, "__name__", "") == "PathFinder")
    sys.meta_path.insert(files, Late(fetch))
