"""A root and a reciprocal that no entry can break: what a student types may be zero or below it."""

import math


def root(x: float) -> float:
    """√x; of a negative number the negative root, so that it is judged by its sign.

    >>> root(9.0), root(-9.0)
    (3.0, -3.0)
    """
    return math.copysign(math.sqrt(abs(x)), x)


def over(x: float) -> float:
    """1/x, and 0 for 0: the entry of zero is itself said to be wrong.

    >>> over(4.0), over(0.0)
    (0.25, 0.0)
    """
    return 1 / x if x else 0.0
