"""A working as straight-line code, for what is worked thousands of times over.

The formulas are run once with symbols for the givens, and every sum and
product that they make is written down, each different one once.  The result is
a function of the givens that does the same operations in the same order, so it
gives the same numbers without the calls between them.  Where a formula decides
by a number, or hands one to a function that wants a float, there is no such
code: `Cannot`, and the formulas are run as they stand.
"""

from collections.abc import Callable, Iterable, Mapping

from exercises.working.arithmetic import Exact, Hundredths, Tenths


class Cannot(Exception):
    """These formulas have no straight-line code."""


class Code:
    """Statements as they are found, each expression once under a name of its own."""

    def __init__(self):
        self.names: dict[tuple, str] = {}
        self.lines: dict[str, tuple] = {}
        self.functions: dict[str, Callable] = {}
        self.inputs: list[str] = []
        self.positive: dict[str, None] = {}

    def put(self, *expression) -> "Symbol":
        """The symbol of an expression: ("x", op, "y"), or ("f", "(", "x", …)."""
        if expression not in self.names:
            self.names[expression] = name = f"v{len(self.names)}"
            self.lines[name] = expression
        return Symbol(self, self.names[expression])

    def call(self, function: Callable, *given) -> "Symbol":
        # one lambda made twice from the same place, with nothing enclosed, is one function
        plain = getattr(function, "__code__", None)
        key = function if plain is None or function.__closure__ or function.__defaults__ else plain
        name = next((n for n, (k, _) in self.functions.items() if k == key), None)
        if name is None:
            name = f"f{len(self.functions)}"
            self.functions[name] = key, function
        return self.put(name, "(", *(_text(g) for g in given))

    def require(self, x) -> None:
        """Have the code raise ValueError where x is not above 0."""
        if isinstance(x, Symbol):
            self.positive[x.name] = None
        elif x <= 0:
            raise Cannot("a number that is not above 0")

    def given(self, key: str, value):
        """Symbols for a number, or for a row or table of numbers; Cannot for anything else."""
        name = f"g{len(self.inputs)}"
        made = self._part(name, value)
        # a row of another length than the one traced is refused when it is taken apart
        self.inputs.append(f"{_pattern(name, value)} = givens[{key!r}]")
        return made

    def _part(self, name: str, value):
        if isinstance(value, float):
            return Symbol(self, name)
        if not isinstance(value, tuple) or not value:
            raise Cannot(name)
        return tuple(self._part(f"{name}_{i}", v) for i, v in enumerate(value))

    def text(self, wanted: list) -> str:
        """The source of a function of the givens that returns what the wanted symbols stand for, in a tuple.

        The givens are in it only by the names of their places: no value of theirs, and nothing that was typed.
        """
        out = [_text(w) for w in wanted]
        needed, waiting = set(), [*out, *self.positive]
        while waiting:
            name = waiting.pop()
            if name in self.lines and name not in needed:
                needed.add(name)
                waiting += self.lines[name]
        body = [f"{name} = {_written(e)}" for name, e in self.lines.items() if name in needed]
        if self.positive:
            body += [f"if not {' > 0 < '.join(self.positive)} > 0:", "    raise ValueError('a span reaches 0')"]
        return "\n    ".join(["def straight(givens):", *self.inputs, *body, f"return ({', '.join(out)},)"])

    def function(self, wanted: list) -> Callable[[Mapping], tuple]:
        """The function whose source is `text`."""
        space: dict = {name: function for name, (_, function) in self.functions.items()}
        exec(compile(self.text(wanted), "<straight-line code>", "exec"), space)
        return space["straight"]


def _pattern(name: str, value) -> str:
    if isinstance(value, float):
        return name
    return f"[{', '.join(_pattern(f'{name}_{i}', v) for i, v in enumerate(value))}]"


def _written(expression: tuple) -> str:
    if len(expression) > 1 and expression[1] == "(":
        return f"{expression[0]}({', '.join(expression[2:])})"
    return " ".join(expression)


def _text(x) -> str:
    if isinstance(x, Symbol) and x.name:
        return x.name
    if type(x) in (int, float):
        return repr(x) if x >= 0 else f"({x!r})"
    raise Cannot(type(x).__name__)


def _refuse(*_):
    raise Cannot("a formula that decides by a number")


class Symbol:
    """A number that is not known yet."""

    __slots__ = ("code", "name")

    def __init__(self, code: Code, name: str):
        self.code, self.name = code, name

    def __add__(self, other):
        return self.code.put(self.name, "+", _text(other))

    def __radd__(self, other):
        # a sum begins with 0
        return self if type(other) is int and other == 0 else self.code.put(_text(other), "+", self.name)

    def __sub__(self, other):
        return self.code.put(self.name, "-", _text(other))

    def __rsub__(self, other):
        return self.code.put(_text(other), "-", self.name)

    def __mul__(self, other):
        return self.code.put(self.name, "*", _text(other))

    def __rmul__(self, other):
        return self.code.put(_text(other), "*", self.name)

    def __truediv__(self, other):
        return self.code.put(self.name, "/", _text(other))

    def __rtruediv__(self, other):
        return self.code.put(_text(other), "/", self.name)

    def __pow__(self, other):
        return self.code.put(self.name, "**", _text(other))

    __eq__ = __ne__ = __lt__ = __le__ = __gt__ = __ge__ = __bool__ = __float__ = __int__ = __index__ = __hash__ = (
        _refuse
    )


#: Times the same thing is worked before it is worth being written as code: a student's one sheet never is.
OFTEN = 60


def once_often(kept: dict, key, write: Callable, *given):
    """What `write(*given)` returned, kept under the key; None before it was asked for often, and if it Cannot."""
    found = kept.setdefault(key, 0)
    if isinstance(found, int):
        kept[key] = found = found + 1
        if found <= OFTEN:
            return None
        try:
            found = write(*given)
        except (Cannot, TypeError):
            found = None
        kept[key] = found
    return found


#: What a coded function raises where a number is not what it was written for.
FELL = (ValueError, ArithmeticError, KeyError, TypeError)


class _Given(dict):
    """Givens as symbols; what is no number, or rows of numbers, cannot be asked for."""

    def __missing__(self, key):
        raise Cannot(key)


def symbols_of(code: Code, givens: Mapping) -> _Given:
    """Symbols for all the givens that are numbers, or rows or tables of them."""
    found = _Given()
    for key, value in givens.items():
        try:
            found[key] = code.given(key, value)
        except Cannot:
            pass  # a word, or a table with words in it: no formula that asks for it has code
    return found


def apply(function: Callable, x):
    """The function of x, or the symbol for it."""
    return x.code.call(function, x) if isinstance(x, Symbol) else function(x)


class TracedExact(Exact):
    """Exact, written down."""

    apply = staticmethod(apply)

    @staticmethod
    def differ(one, other) -> bool:
        return _text(one) != _text(other)


class TracedTenths(TracedExact):
    @staticmethod
    def angle(x, twice=False):
        return apply(Tenths.angle, x)


class TracedHundredths(TracedExact):
    @staticmethod
    def angle(x, twice=False):
        return apply(Hundredths.angle, x)


def traced_values(traced, a) -> dict:
    """What `all_values` gives, of the steps whose formulas can be written down.

    traced  a working whose givens are symbols
    """
    known: dict = {}
    for step in traced.plan.order:
        try:
            known[step.id] = step.formula(a, known, traced.givens, traced.parts)
        except (Cannot, KeyError):
            pass  # itself, or one that it needs
    return known


def slips_as_code(working, slips: Iterable, step_ids: Iterable[str], slipped_parts: Callable):
    """Code for what each slip makes of some steps of a working.  Cannot, where there is none.

    Returns (function, owners): the function of the givens gives a flat tuple, for each step its right
    value and then what slips make of it; owners has, for each step, the keys of those slips in order.
    """
    code = Code()
    traced = type(working)(working.plan, symbols_of(code, working.givens), working.parts)
    starts = [traced_values(traced, a) for a in (TracedExact, TracedTenths, TracedHundredths)]
    found: dict[str, list] = {s: [] for s in step_ids}
    if not all(s in start for s in found for start in starts):
        raise Cannot("one of these steps")
    for slip in slips:
        parts = slipped_parts(working, slip)
        working.plan.touched((slip.part,), working)  # found out by numbers, once
        for start in starts if slip.by_angle else starts[:1]:
            for s, value in traced.slipped(slip.part, parts, start, a=TracedExact).items():
                if s in found:
                    found[s].append((value, slip.key))
    wanted = [w for s, values in found.items() for w in (starts[0][s], *(v for v, _ in values))]
    return code.function(wanted), [[key for _, key in values] for values in found.values()]
