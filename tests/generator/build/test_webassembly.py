"""A runtime of a few bytes, written by the standard, loses what no page needs."""

import pytest

from generator.build.webassembly import (
    DATA,
    EMPTY,
    _number,
    _read,
    _section,
    fewer_exports,
    functions,
    imported,
    without_data,
)


def named(name: str) -> bytes:
    return _number(len(name)) + name.encode()


def module(data: bytes = b"\x01\x00\x23\x00\x0b\x03abc") -> bytes:
    """A memory, a global and a function are imported; of three functions the second doubles a number."""
    relocations, streams = EMPTY
    sections = {
        1: b"\x02" + b"\x60\x00\x00" + b"\x60\x01\x7f\x01\x7f",
        2: b"\x03"
        + (named("env") + named("memory") + b"\x02\x01\x01\x02")
        + (named("env") + named("base") + b"\x03\x7f\x00")
        + (named("GOT.func") + named("asked") + b"\x00\x00"),
        3: b"\x03\x00\x01\x00",
        7: b"\x05"
        + (named(relocations) + b"\x00\x01")
        + (named(streams) + b"\x00\x02")
        + (named("asked") + b"\x00\x03")
        + (named("used") + b"\x00\x03")
        + (named("spare") + b"\x00\x03"),
        10: b"\x03" + b"\x05\x00\x41\x07\x1a\x0b" + b"\x07\x00\x20\x00\x41\x02\x6c\x0b\x02\x00\x0b",
        DATA: data,
    }
    return b"\0asm\x01\0\0\0" + b"".join(
        bytes((number,)) + _number(len(content)) + content for number, content in sections.items()
    )


def test_only_what_the_scripts_or_the_module_itself_names_is_exported():
    left = fewer_exports(module(), 'var _used=wasmExports["used"];_used();')
    assert functions(left) == {"asked": 3, "used": 3}
    assert set(functions(module())) == {*EMPTY, "asked", "used", "spare"}


def test_what_is_imported_is_named():
    assert imported(module()) == {"memory", "base", "asked"}


def test_the_data_and_what_only_writes_data_are_left_out():
    whole = module()
    left = without_data(whole, functions(whole))
    assert _section(left, DATA) == b"\x01\x00\x23\x00\x0b\x00"
    assert _section(left, 10) == b"\x03" + b"\x02\x00\x0b" + b"\x04\x00\x20\x00\x0b" + b"\x02\x00\x0b"


@pytest.mark.parametrize("data", [b"\x02\x00\x23\x00\x0b\x00\x01\x00", b"\x01\x00\x41\x00\x0b\x00", b"\x01\x01\x00"])
def test_data_of_another_form_are_refused(data):
    with pytest.raises(ValueError, match="another form"):
        without_data(module(data), functions(module()))


@pytest.mark.parametrize("value", [0, 127, 128, 300, 5_000_000])
def test_numbers_are_written_as_they_are_read(value):
    assert _read(b"\xff" + _number(value), 1) == (value, 1 + len(_number(value)))
