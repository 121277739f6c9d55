"""A working as compiled code, for what is worked thousands of times over.

The formulas are run once with symbols for the givens, and every sum and
product that they make is written down, each different one once.  The result is
a function of the givens that does the same operations on the same numbers in
the same order, so it gives the same to the last bit, without the calls between
them.  Where a formula decides by a number, or hands one to a function that
wants a float, there is no such code: `Cannot`, and the formulas are run as they
stand.  evaluate.py chooses between the two; nothing else uses this.
"""

from collections import Counter
from collections.abc import Callable, Iterable
from contextlib import suppress
from math import fsum
from typing import Any, NoReturn

from exercises.working.arithmetic import Arithmetic, Exact, Hundredths, Number, Tenths
from exercises.working.steps import Givens, Working

DEEPEST = 12  # brackets within brackets in one line of code


class Cannot(Exception):
    """These formulas have no compiled code."""


class Compiled:
    """A function of the givens that was compiled."""

    def __init__(self, function: Callable[[Givens], tuple[float, ...]]):
        self._function = function

    def __call__(self, givens: Givens) -> tuple[float, ...] | None:
        """Its numbers; None where the givens are not what it was written for, so that the formulas must be run."""
        try:
            return self._function(givens)
        except (ValueError, ArithmeticError, TypeError):
            return None  # givens of another shape, a span that reaches 0, a slip that leads to no number


class Code:
    """Statements as they are found, each expression once under a name of its own."""

    def __init__(self) -> None:
        self.names: dict[tuple[str, ...], str] = {}
        self.lines: dict[str, tuple[str, ...]] = {}
        self.functions: dict[str, tuple[object, Callable[..., float]]] = {}
        self.inputs: list[str] = []
        self.positive: dict[str, None] = {}

    def put(self, *expression: str) -> "Symbol":
        """The symbol of an expression: ("x", op, "y"), ("f", "(", "x", …), or ("f", "([", "x", …) of a list."""
        if expression not in self.names:
            self.names[expression] = name = f"v{len(self.names)}"
            self.lines[name] = expression
        return Symbol(self, self.names[expression])

    def call(self, function: Callable[..., float], *given: Number) -> "Symbol":
        """The symbol of what a function gives of symbols and numbers."""
        return self.put(self._name_of(function), "(", *(text_of(g) for g in given))

    def total(self, numbers: Iterable[Number]) -> "Symbol":
        """The symbol of a sum, as `arithmetic.total` gives it."""
        return self.put(self._name_of(fsum), "([", *(text_of(n) for n in numbers))

    def _name_of(self, function: Callable[..., float]) -> str:
        # one lambda made twice from the same place, with nothing enclosed, is one function
        plain = getattr(function, "__code__", None)
        enclosed = getattr(function, "__closure__", None) or getattr(function, "__defaults__", None)
        key = function if plain is None or enclosed else plain
        name = next((n for n, (k, _) in self.functions.items() if k == key), None)
        if name is None:
            name = f"f{len(self.functions)}"
            self.functions[name] = key, function
        return name

    def require(self, x: Number) -> None:
        """Have the code raise ValueError where x is not above 0."""
        if isinstance(x, Symbol):
            self.positive[x.name] = None
        elif x <= 0:
            raise Cannot("a number that is not above 0")

    def given(self, key: str, value: object) -> Number:
        """Symbols for a number, or for a row or table of numbers; Cannot for anything else."""
        name = f"g{len(self.inputs)}"
        symbols = self._symbols(name, value)
        # a row of another length than the one traced is refused when it is taken apart
        self.inputs.append(f"{_pattern(name, value)} = givens[{key!r}]")
        return symbols

    def _symbols(self, name: str, value: object) -> Number:
        if isinstance(value, float):
            return Symbol(self, name)
        if not isinstance(value, tuple) or not value:
            raise Cannot(name)
        return tuple(self._symbols(f"{name}_{i}", v) for i, v in enumerate(value))

    def text(self, wanted: Iterable[Number]) -> str:
        """The source of a function of the givens that returns what the wanted symbols stand for, in a tuple.

        The givens are in it only by the names of their places: no value of theirs, and nothing that was typed.
        """
        out = [text_of(w) for w in wanted]
        used = Counter([*out, *self.positive])
        for name in reversed(self.lines):  # what a line takes stands before it
            if name in used:
                used.update(self.lines[name])
        body = self._body(used)
        if self.positive:
            body += [f"if not {' > 0 < '.join(self.positive)} > 0:", "    raise ValueError('a span reaches 0')"]
        return "\n    ".join(["def compiled(givens):", *self.inputs, *body, f"return ({', '.join(out)},)"])

    def _body(self, used: Counter[str]) -> list[str]:
        """A line for each expression that is used more than once or returned; one used once stands where it is used."""
        body: list[str] = []
        within: dict[str, tuple[str, int]] = {}  # expressions that wait for their one use, and how deep they are
        for name, expression in self.lines.items():
            if name not in used:
                continue
            depth = 1 + max(within[part][1] if part in within else 0 for part in expression)
            written = _written(tuple(within.pop(part)[0] if part in within else part for part in expression))
            if used[name] == 1 and depth < DEEPEST and name not in self.positive:
                within[name] = f"({written})", depth
            else:
                body.append(f"{name} = {written}")
        # what is returned and used nowhere else
        return body + [f"{name} = {written}" for name, (written, _) in within.items()]

    def function(self, wanted: Iterable[Number]) -> Compiled:
        """The function whose source is `text`."""
        space: dict[str, Any] = {name: function for name, (_, function) in self.functions.items()}
        exec(compile(self.text(wanted), "<compiled formulas>", "exec"), space)
        function = space.pop("compiled")
        function.__code__ = function.__code__.replace(co_linetable=b"")  # no traceback shows it, and memory is sent
        return Compiled(function)


def _pattern(name: str, value: object) -> str:
    if not isinstance(value, tuple):
        return name
    return f"[{', '.join(_pattern(f'{name}_{i}', v) for i, v in enumerate(value))}]"


_ENDS = {"(": ")", "([": "])"}  # of what a function is given


def _written(expression: tuple[str, ...]) -> str:
    if len(expression) > 1 and expression[1] in _ENDS:
        return f"{expression[0]}{expression[1]}{', '.join(expression[2:])}{_ENDS[expression[1]]}"
    return " ".join(expression)


def text_of(x: Number) -> str:
    """A symbol or a number as it stands in the code.  Cannot for anything else."""
    if isinstance(x, Symbol) and x.name:
        return x.name
    if type(x) in (int, float):  # a float and a whole number go together more slowly than two floats
        return repr(float(x)) if x >= 0 else f"({float(x)!r})"
    raise Cannot(type(x).__name__)


class Symbol:
    """A number that is not known yet."""

    __slots__ = ("code", "name")

    def __init__(self, code: Code, name: str):
        self.code, self.name = code, name

    def __add__(self, other: Number) -> "Symbol":
        return self.code.put(self.name, "+", text_of(other))

    def __radd__(self, other: Number) -> "Symbol":
        return self.code.put(text_of(other), "+", self.name)

    def __sub__(self, other: Number) -> "Symbol":
        return self.code.put(self.name, "-", text_of(other))

    def __rsub__(self, other: Number) -> "Symbol":
        return self.code.put(text_of(other), "-", self.name)

    def __mul__(self, other: Number) -> "Symbol":
        return self.code.put(self.name, "*", text_of(other))

    def __rmul__(self, other: Number) -> "Symbol":
        return self.code.put(text_of(other), "*", self.name)

    def __truediv__(self, other: Number) -> "Symbol":
        return self.code.put(self.name, "/", text_of(other))

    def __rtruediv__(self, other: Number) -> "Symbol":
        return self.code.put(text_of(other), "/", self.name)

    def __pow__(self, other: Number) -> "Symbol":
        return self.code.put(self.name, "**", text_of(other))

    def _refuse(self, *_: object) -> NoReturn:
        raise Cannot("a formula that decides by a number, or does with one what no code is written for")

    __lt__ = __le__ = __gt__ = __ge__ = __abs__ = __neg__ = __round__ = __floor__ = __index__ = __iter__ = _refuse
    __eq__ = __ne__ = __bool__ = __float__ = __int__ = __hash__ = _refuse


class _Needed(dict[str, Number]):
    """Numbers by name; one that is not there is one that could not be written down."""

    def __missing__(self, key: str) -> NoReturn:
        raise Cannot(key)


def symbols_of(code: Code, givens: Givens) -> dict[str, Number]:
    """Symbols for all the givens that are numbers, or rows or tables of them."""
    found = _Needed()
    for key, value in givens.items():
        with suppress(Cannot):  # a word, or a table with words in it: no formula that asks for it has code
            found[key] = code.given(key, value)
    return found


def apply(function: Callable[[float], float], x: Number) -> Number:
    """The function of x, or the symbol for it."""
    return x.code.call(function, x) if isinstance(x, Symbol) else function(x)


class TracedExact(Exact):
    """Exact, written down."""

    apply = staticmethod(apply)

    @staticmethod
    def differ(one: Number, other: Number) -> bool:
        """Whether a slip can change a value."""
        return text_of(one) != text_of(other)


class TracedTenths(TracedExact):
    """Tenths, written down."""

    @staticmethod
    def angle(x: Number) -> Number:
        return apply(Tenths.angle, x)


class TracedHundredths(TracedExact):
    """Hundredths, written down."""

    @staticmethod
    def angle(x: Number) -> Number:
        return apply(Hundredths.angle, x)


#: The arithmetics of evaluate.KEPT, written down.
TRACED = (TracedExact, TracedTenths, TracedHundredths)


def traced(working: Working, code: Code) -> Working:
    """The same working with symbols for its givens."""
    return type(working)(working.plan, symbols_of(code, working.givens), working.parts)


def traced_values(working: Working, a: Arithmetic) -> dict[str, Number]:
    """What `all_values` gives, of the steps whose formulas can be written down.

    working  one whose givens are symbols
    """
    known = _Needed()
    for step in working.plan.order:
        with suppress(Cannot, TypeError):  # itself, or one that it needs
            known[step.id] = step.formula(a, known, working.givens, working.parts)
    return known
