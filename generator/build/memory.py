"""The memory image without what is needed no more once Python has started, and without its zeros.

What is taken out becomes zeros: whole pages of them are not sent, and the rest packs to nothing.
"""

import hashlib
from typing import TypedDict

PAGE = 4096  # bytes
#: Tables of the pinned runtime: (the first 16 bytes, how many there are, the first half of their SHA-256).
type Piece = tuple[str, int, str]
#: The tables of the codecs for Chinese, Japanese and Korean.  They come in a file of their own when a mail needs them;
#: before that nobody can read them (image_inside.WITHOUT_TABLES).  The `PyInit__codecs_` functions alone lead to them.
OF_CODECS: tuple[Piece, ...] = (
    ("003001300230fb30c902c702a8000330", 102_434, "21f03d66b3a666775b826bdf1b873e67"),
    ("f043324c0346a64578456772774db345", 123_876, "ec7c849678b840f93acbf9969e00ca3d"),
    ("0030013002300cff0efffb301aff1bff", 156_534, "2c3f272212563d406b2907547ca87694"),
    ("8287ffffffffffffffffffffffffffff", 123_428, "bd0842a1a368f885a8d784c380c8e87e"),
    ("46a247a2ffff44a2ffffb1a1ffffffff", 78_560, "230795d40193452d0e5db6d5f9b0e99c"),
    ("b28bb28bb28bb28bb28bb28bb28bb28b", 92_672, "738827db46e8582f434597658a1ac8a7"),
)
#: The tables of the names of characters.  `unicodedata.name` and `unicodedata.lookup` alone lead to them, and are not
#: there either (image_inside.WITHOUT_NAMES).
OF_NAMES: tuple[Piece, ...] = (
    ("e4ae04fa0241cefe0242defe0243c6f5", 162_032, "995f145c7c87eaf06d697858606b2865"),
    ("0021000097fa01000d000f000c000f00", 143_056, "22afc54e4fd030b1616db626313ac08c"),
)
#: How much of the end of a text stays: the linker lets a shorter text that ends alike begin inside it.
TAIL = 40


class Spare(TypedDict):
    """What image_inside tells of the memory."""

    frozen: list[Piece]  # code of modules that have been imported
    help: list[str]  # long texts for `help`
    tracked: int  # the address of one of the objects that the collector of cycles leaves alone


type Tables = list[tuple[int, bytes]]


def without_spare(image: bytes, spare: Spare) -> tuple[bytes, Tables]:
    """The image, as long as before, without what a start needs not, and the tables that can be put back.

    Of each of these its address and its content.  ValueError if a table is not found in the image.
    """
    memory = bytearray(image)
    start = int.from_bytes(image[4:8], "little")  # of the memory itself, after what the runtime says about it
    tables = [(at - start, content) for at, content in (_blanked(memory, piece) for piece in OF_CODECS)]
    for piece in (*OF_NAMES, *spare["frozen"]):
        _blanked(memory, piece)
    data = _untracked(memory, start, spare["tracked"])
    _without_help(memory, data, set(spare["help"]))
    return bytes(memory), tables


def packed_runs(image: bytes) -> tuple[bytes, list[tuple[int, int]]]:
    """What is left of an image without pages of zeros, and the runs (place, length) that it is made of."""
    runs: list[tuple[int, int]] = []
    zeros = bytes(PAGE)
    for at in range(0, len(image), PAGE):
        page = image[at : at + PAGE]
        if page == zeros[: len(page)]:
            continue
        if runs and sum(runs[-1]) == at:
            runs[-1] = runs[-1][0], runs[-1][1] + len(page)
        else:
            runs.append((at, len(page)))
    return b"".join(image[at : at + size] for at, size in runs), runs


def _blanked(memory: bytearray, piece: Piece) -> tuple[int, bytes]:
    """Take a piece out; its place and content."""
    begins, size, digest = piece
    at = memory.find(bytes.fromhex(begins))
    while at >= 0:
        if hashlib.sha256(memory[at : at + size]).hexdigest().startswith(digest):
            content = bytes(memory[at : at + size])
            memory[at : at + size] = bytes(size)
            return at, content
        at = memory.find(bytes.fromhex(begins), at + 1)
    raise ValueError(f"{size} bytes that begin with {begins} are not in the memory of the runtime; see memory.py")


def _untracked(memory: bytearray, start: int, tracked: int) -> int:
    """Take all objects that the collector of cycles leaves alone out of its list; give the address of the list.

    Two addresses before each object are the links of the list, and no two are alike.  An object without them counts
    as one that is not in any list, and is left alone all the more.
    """
    words = memoryview(memory)[start:].cast("I")
    first = at = tracked // 4 - 2
    objects = []
    while True:
        objects.append(at)
        at = words[at] // 4
        if at == first:
            break
    head = min(objects)  # the list's own two links, which lie in the data of the runtime, before all objects
    for at in objects:
        words[at] = words[at + 1] = 0
    words[head] = words[head + 1] = head * 4  # an empty list
    return start + head * 4


def _without_help(memory: bytearray, end: int, texts: set[str]) -> None:
    """Take out texts that stand before `end`.  The first line, where it tells of arguments, stays."""
    at = 0
    for text in bytes(memory[:end]).split(b"\0"):
        arguments = text.find(b"\n--\n\n")
        shown = text[arguments + 5 :] if arguments >= 0 else text
        if len(shown) > TAIL and shown.decode(errors="replace") in texts:
            begin, stop = at + len(text) - len(shown), at + len(text) - TAIL
            memory[begin:stop] = bytes(stop - begin)
        at += len(text) + 1
