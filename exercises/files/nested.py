"""JSON that is nested deeper than it should be, found before it is read."""

import re

_PLAIN = re.compile(r'"(?:[^"\\]++|\\.)*+"?|[^][{}"]++', re.DOTALL)


def nested(text: str, deepest: int) -> bool:
    """Whether brackets stand deeper in one another than twice `deepest`, or more than `deepest` of them are not closed.

    >>> nested('[["]]]]"]]', 2), nested("[[[[[]]]]]", 2), nested("[[[", 2)
    (False, True, True)
    """
    bare = _PLAIN.sub("", text)  # without its strings
    for _ in range(deepest):
        bare = bare.replace("[]", "").replace("{}", "")  # the innermost
    return bare.count("[") + bare.count("{") > deepest
