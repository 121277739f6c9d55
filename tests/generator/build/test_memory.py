"""What is taken out of the memory image: what is told, and nothing beside it."""

import hashlib
import struct

import pytest

from generator.build import memory
from generator.build.memory import PAGE, TAIL, packed_runs, without_spare

START = 144  # bytes before the memory itself
HEAD, OBJECTS = 1024, (4096, 4160, 8000)  # the list's own links, and those of three objects in it
CODE = bytes(range(1, 200))
TEXT = b"Return " + b"what is asked for, " * 9
SHOWN = TEXT.decode()


def piece(content: bytes) -> memory.Piece:
    return content[:16].hex(), len(content), hashlib.sha256(content).hexdigest()[:32]


def image(texts: bytes = b"", size: int = 3 * PAGE) -> bytes:
    made = bytearray(START + size)
    made[4:8] = START.to_bytes(4, "little")
    links = [OBJECTS[1], HEAD, OBJECTS[2], OBJECTS[0]]  # not in the order of their places
    for before, at, after in zip([links[-1], *links], links, [*links[1:], links[0]]):
        made[START + at : START + at + 8] = struct.pack("<II", after, before)
    made[START + 6000 : START + 6000 + len(CODE)] = CODE
    made[START + 100 : START + 100 + len(texts)] = texts
    return bytes(made)


def slimmed(given: bytes, monkeypatch, frozen=(), texts=()) -> bytes:
    monkeypatch.setattr(memory, "OF_NAMES", ())
    monkeypatch.setattr(memory, "OF_CODECS", ())
    left, tables = without_spare(given, {"frozen": list(frozen), "help": list(texts), "tracked": OBJECTS[0] + 8})
    assert tables == []
    return left


def test_objects_are_in_no_list_and_the_list_is_empty(monkeypatch):
    left = slimmed(image(), monkeypatch)
    assert all(left[START + at : START + at + 8] == bytes(8) for at in OBJECTS)
    assert struct.unpack_from("<II", left, START + HEAD) == (HEAD, HEAD)
    assert left[START + 6000 : START + 6000 + len(CODE)] == CODE


def test_a_piece_is_taken_out_where_all_of_it_agrees(monkeypatch):
    """Another one begins alike, before it."""
    given = bytearray(image())
    given[START + 5000 : START + 5000 + 100] = CODE[:100]
    left = slimmed(bytes(given), monkeypatch, [piece(CODE)])
    assert left[START + 5000 : START + 5100] == CODE[:100]
    assert left[START + 6000 : START + 6000 + len(CODE)] == bytes(len(CODE))
    with pytest.raises(
        ValueError, match="199 bytes that begin with 0102.* are not in the memory of the runtime; see memory.py"
    ):
        slimmed(left, monkeypatch, [piece(CODE)])


@pytest.mark.parametrize("first", [b"", b"read($self, size=-1, /)\n--\n\n"])
def test_a_text_for_help_loses_all_but_its_first_line_and_its_end(monkeypatch, first):
    texts = b"\0" + first + TEXT + b"\0" + TEXT[1:] + b"\0"
    left = slimmed(image(texts), monkeypatch, texts=[SHOWN])[START + 100 : START + 100 + len(texts)]
    end = 1 + len(first) + len(TEXT)
    assert left[: 1 + len(first)] == b"\0" + first
    assert left[1 + len(first) : end - TAIL] == bytes(len(TEXT) - TAIL)
    assert left[end - TAIL :] == texts[end - TAIL :]


def test_a_text_behind_the_data_of_the_runtime_stays(monkeypatch):
    """An object of Python's may hold the same text."""
    given = bytearray(image())
    given[START + 9000 : START + 9000 + len(TEXT)] = TEXT
    assert TEXT in slimmed(bytes(given), monkeypatch, texts=[SHOWN])


def test_the_tables_of_codecs_can_be_put_back(monkeypatch):
    monkeypatch.setattr(memory, "OF_NAMES", ())
    monkeypatch.setattr(memory, "OF_CODECS", (piece(CODE),))
    left, tables = without_spare(image(), {"frozen": [], "help": [], "tracked": OBJECTS[0] + 8})
    assert tables == [(6000, CODE)]
    assert left[START + 6000 : START + 6000 + len(CODE)] == bytes(len(CODE))


def test_a_table_that_differs_in_a_byte_stops_the_build(monkeypatch):
    """It is of another runtime than the pinned one."""
    content = bytearray(CODE)
    content[150] ^= 1
    monkeypatch.setattr(memory, "OF_CODECS", (piece(bytes(content)),))
    with pytest.raises(ValueError, match="are not in the memory"):
        without_spare(image(), {"frozen": [], "help": [], "tracked": OBJECTS[0] + 8})


def test_pages_of_zeros_are_left_out_and_all_can_be_put_together():
    given = bytes(PAGE) + b"a" * (2 * PAGE) + bytes(PAGE) + b"b" * 10
    content, runs = packed_runs(given)
    assert runs == [(PAGE, 2 * PAGE), (4 * PAGE, 10)] and content == b"a" * (2 * PAGE) + b"b" * 10
