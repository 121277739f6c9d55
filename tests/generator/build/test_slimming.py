"""What a browser fetches is the same program as what is written, on the same lines, without words and types."""

import ast

import pytest

from generator.build.bundle import sources
from generator.build.slimming import slimmed

SOURCES = sources()


class Slim(ast.NodeTransformer):
    """The same cuts made in the tree, not in the text."""

    def visit(self, node):
        self.generic_visit(node)
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)) and ast.get_docstring(node) is not None:
            node.body[0] = ast.Expr(ast.Constant(" ")) if isinstance(node, ast.ClassDef) else ast.Pass()
        if isinstance(node, ast.FunctionDef):
            node.returns = None
        if isinstance(node, ast.arg):
            node.annotation = None
        return node


@pytest.mark.parametrize("name", SOURCES)
def test_it_is_the_same_program(name):
    text = slimmed(SOURCES[name])
    assert ast.dump(ast.parse(text)) == ast.dump(Slim().visit(ast.parse(SOURCES[name])))
    assert text.count(b"\n") == SOURCES[name].count(b"\n")


@pytest.mark.parametrize("name", SOURCES)
def test_every_statement_stays_on_its_line(name):
    def lines(source: bytes) -> list[tuple[type, int]]:
        kept = (n for n in ast.walk(ast.parse(source)) if isinstance(n, ast.stmt) and not isinstance(n, ast.Pass))
        words = (ast.Expr,)
        return [(type(n), n.lineno) for n in kept if not isinstance(n, words)]

    assert lines(slimmed(SOURCES[name])) == lines(SOURCES[name])


def test_what_it_takes_out():
    source = '''"""Words."""
def f(a: int, *b: str, c: "é" = 1, **d: dict[str, int]) -> tuple[
    int, str
]:
    """More
    words."""
    return a
class C:
    """Words."""
    x: int = 1
'''
    assert slimmed(source.encode()).decode().split("\n") == [
        "pass",
        "def f(a, *b, c = 1, **d) \\",
        "\\",
        ":",
        "    pass",
        "",
        "    return a",
        "class C:",
        '    " "',
        "    x: int = 1",
        "",
    ]
