"""The runtime's WebAssembly without what no page of ours needs.

The runtime offers all its functions by name to extensions, which are compiled
apart and loaded later.  No page loads any, and the names are half a megabyte.
The form of the file is the standard's (WebAssembly Core Specification, chapter 5).
"""

import re
from collections.abc import Iterator

TYPES_AT = 8  # where the first section begins
IMPORTS, EXPORTS, CODE, DATA = 2, 7, 10, 11  # numbers of sections
FUNCTION, TABLE, MEMORY, GLOBAL = range(4)  # kinds of imports and exports
#: Functions that only write into the memory what an image holds too, and what they become (locals, instructions, end):
#: that which writes addresses into the data, and that which prepares C++'s streams and gives back its argument.
EMPTY = {"__wasm_apply_data_relocs": b"\0\x0b", "_ZNSt3__28ios_base4InitC2Ev": b"\0\x20\0\x0b"}


def imported(module: bytes) -> set[str]:
    """The names of all that the module imports."""
    return {name for name, _ in _imports(module)}


def fewer_exports(module: bytes, scripts: str) -> bytes:
    """The module without the exports that neither its scripts name nor it itself imports."""
    named = set(re.findall(r"\w+", scripts)) | imported(module)
    kept = [entry for name, _, entry in _exports(module) if name in named]
    return _with_section(module, EXPORTS, _number(len(kept)) + b"".join(kept))


def without_data(module: bytes, functions: dict[str, int]) -> bytes:
    """The module without what it writes into its memory at the start, for an image of the memory holds it.

    That is the data, and what the functions EMPTY do; `functions` are the numbers of functions (see functions).
    ValueError if the data have another form than they have in the pinned runtime.
    """
    bodies = _bodies(module)
    before = sum(kind == FUNCTION for _, kind in _imports(module))
    for name, body in EMPTY.items():
        bodies[functions[name] - before] = _number(len(body)) + body
    module = _with_section(module, CODE, _number(len(bodies)) + b"".join(bodies))
    data = _section(module, DATA)
    if data[:3] != b"\x01\x00\x23":  # one segment, which begins at a global, the memory's base
        raise ValueError("the data of the runtime have another form")
    _, end = _read(data, 3)
    return _with_section(module, DATA, data[: end + 1] + b"\x00")


def functions(module: bytes) -> dict[str, int]:
    """The number of each function that is exported."""
    return {name: index for name, index, _ in _exports(module)}


def _sections(module: bytes) -> Iterator[tuple[int, int, int, int]]:
    """(number, where it begins, where its content begins, where it ends) of each section."""
    at = TYPES_AT
    while at < len(module):
        size, start = _read(module, at + 1)
        yield module[at], at, start, start + size
        at = start + size


def _section(module: bytes, wanted: int) -> bytes:
    return next(module[start:end] for number, _, start, end in _sections(module) if number == wanted)


def _with_section(module: bytes, wanted: int, content: bytes) -> bytes:
    at, end = next((at, end) for number, at, _, end in _sections(module) if number == wanted)
    return module[:at] + bytes((wanted,)) + _number(len(content)) + content + module[end:]


def _imports(module: bytes) -> Iterator[tuple[str, int]]:
    """(name, kind) of each import."""
    section = _section(module, IMPORTS)
    count, at = _read(section, 0)
    for _ in range(count):
        _, at = _name(section, at)
        name, at = _name(section, at)
        kind, at = section[at], at + 1
        yield name, kind
        if kind in (TABLE, MEMORY):
            at += kind == TABLE  # its type
            bounded, at = section[at] & 1, at + 1
            for _ in range(1 + bounded):
                _, at = _read(section, at)
        elif kind == GLOBAL:
            at += 2
        else:  # a function's type, or a tag's after a byte
            _, at = _read(section, at + (kind != FUNCTION))


def _exports(module: bytes) -> Iterator[tuple[str, int, bytes]]:
    """(name, number of what is exported, the entry's bytes) of each export."""
    section = _section(module, EXPORTS)
    count, at = _read(section, 0)
    for _ in range(count):
        begin = at
        name, at = _name(section, at)
        index, at = _read(section, at + 1)
        yield name, index, section[begin:at]


def _bodies(module: bytes) -> list[bytes]:
    """The functions' code, each with its size before it."""
    section = _section(module, CODE)
    count, at = _read(section, 0)
    bodies = []
    for _ in range(count):
        size, start = _read(section, at)
        bodies.append(section[at : start + size])
        at = start + size
    return bodies


def _name(content: bytes, at: int) -> tuple[str, int]:
    size, at = _read(content, at)
    return content[at : at + size].decode(), at + size


def _read(content: bytes, at: int) -> tuple[int, int]:
    """A number in the standard's form (LEB128) and where it ends."""
    value, shift = 0, 0
    while True:
        value |= (content[at] & 127) << shift
        shift += 7
        at += 1
        if content[at - 1] < 128:
            return value, at


def _number(value: int) -> bytes:
    digits = []
    while value > 127:
        digits.append(value & 127 | 128)
        value >>= 7
    return bytes((*digits, value))
