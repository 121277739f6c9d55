"""Python source without what nobody reads in a browser: the words of docstrings, and the types of functions.

They are a sixth of what a phone fetches.  Lines stay where they are, so that a
traceback names the line of the file as it was written.  The types of a class's
fields stay: dataclasses are made of them.
"""

import ast
from collections.abc import Iterator
from typing import NamedTuple

type Function = ast.FunctionDef | ast.AsyncFunctionDef


class Cut(NamedTuple):
    """A stretch of the source, in bytes, what stands there instead, and how its line ends are kept."""

    start: int
    end: int
    instead: bytes = b""
    line_end: bytes = b"\n"


def slimmed(source: bytes) -> bytes:
    """The source of a module without its docstrings and its functions' annotations.  SyntaxError if it is none."""
    starts = [0]
    for line in source.split(b"\n"):
        starts.append(starts[-1] + len(line) + 1)
    for cut in sorted(_cuts(ast.parse(source), source, starts), reverse=True):
        lines = source[cut.start : cut.end].count(b"\n")
        source = source[: cut.start] + cut.instead + cut.line_end * lines + source[cut.end :]
    return source


def _cuts(tree: ast.Module, source: bytes, starts: list[int]) -> Iterator[Cut]:
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)):
            yield from _docstring(node, starts)
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            yield from _annotations(node, source, starts)


def _docstring(node: ast.Module | ast.ClassDef | Function, starts: list[int]) -> Iterator[Cut]:
    if ast.get_docstring(node, clean=False) is None:
        return
    text = node.body[0]
    # a dataclass without a docstring would write one at the start, which takes longer than all the rest of it
    yield Cut(*_place(text, starts), b'" "' if isinstance(node, ast.ClassDef) else b"pass")


def _annotations(node: Function, source: bytes, starts: list[int]) -> Iterator[Cut]:
    given = node.args
    every = [*given.posonlyargs, *given.args, *given.kwonlyargs, given.vararg, given.kwarg]
    for one in every:
        if one is not None and one.annotation is not None:
            begin, end = _place(one, starts)
            yield Cut(begin + len(one.arg.encode()), end)
    if node.returns is not None:
        begin, end = _place(node.returns, starts)
        yield Cut(source.rindex(b"->", 0, begin), end, line_end=b"\\\n")  # no bracket is open there


def _place(node: ast.expr | ast.stmt | ast.arg, starts: list[int]) -> tuple[int, int]:
    end_line, end = node.end_lineno or node.lineno, node.end_col_offset or node.col_offset
    return starts[node.lineno - 1] + node.col_offset, starts[end_line - 1] + end
