"""What a misread number may be: the ways in which a pointer on a scale is misread."""

from typing import Literal, NamedTuple

Way = Literal["shift", "complement", "exchanged", "backwards", "point"]
#: With these "one" is said before the words: "one read 10° too small".
SAID_WITH_ONE = ("shift", "backwards")
#: All eight readings of a distance may be misread in these ways.
OF_ALL_EIGHT = ("shift", "complement")
MOST = 3  # ways that are named at once


class Misreading(NamedTuple):
    """One way to misread a number, and the words for it."""

    way: Way
    words: str

    @property
    def of_one(self) -> str:
        """What is said of a single reading after "It looks like"."""
        return f"one {self.words}" if self.way in SAID_WITH_ONE else self.words


def likely_misreadings(seen: float, expected: float, room: float) -> list[Misreading]:
    """The ways to misread `expected` as `seen`, at most three, the likeliest first.  All in degrees.

    room  how near the expected reading a way must come; a way that changes less than twice as much explains nothing

    >>> [m.words for m in likely_misreadings(34.0, 44.2, 0.5)]
    ['read 10° too small']
    """
    tens, rest = divmod(seen, 10)
    ways = [(seen + by, Misreading("shift", f"read {by}° too small")) for by in (10, 5, 20)]
    ways += [(seen - by, Misreading("shift", f"read {by}° too large")) for by in (10, 5, 20)]
    complement = Misreading("complement", "90° less the reading, counted from the wrong end of the quarter")
    ways.append((90 - seen, complement))
    if tens != rest // 1:
        ways.append((10 * (rest // 1) + tens + rest % 1, Misreading("exchanged", "its two figures exchanged")))
    backwards = Misreading("backwards", "counted from the next numbered mark, backwards")
    ways.append((10 * tens + 10 - rest, backwards))
    ways.append((10 * seen, Misreading("point", "its point one place too far to the left")))
    near = sorted((abs(value - expected), i) for i, (value, _) in enumerate(ways) if abs(value - seen) > 2 * room)
    return [ways[i][1] for gap, i in near if gap <= room][:MOST]
