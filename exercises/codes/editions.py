"""What each edition of the draw reads of the lists that may grow.

Places, lengths, names and materials are only ever added at the end of their
lists, and an edition reads as many of each as there were when it was made.  So
a code of an old edition gives the same numbers for ever.  Slips keep to the
same rule by `Slip.since` (slips/catalogue.py).
"""

from dataclasses import dataclass

from exercises.bench.local_field import PLACES, Place


@dataclass(frozen=True)
class Counts:
    """How many entries of each list an edition reads.

    places     of local_field.PLACES
    birds      of scenario.BIRDS
    materials  of magnets.MATERIALS
    """

    places: int
    birds: int
    materials: int


COUNTS = {1: Counts(places=24, birds=16, materials=5)}
NEWEST = max(COUNTS)


def counts_of(edition: int) -> Counts:
    """The counts that an edition reads by: those of the newest entry that is not newer than it.

    >>> counts_of(1).places
    24
    """
    return COUNTS[max((known for known in COUNTS if known <= edition), default=min(COUNTS))]


def places_of(edition: int = NEWEST) -> tuple[Place, ...]:
    """The places that an edition reads: what may be offered, in place of the whole list, where a code is made."""
    return PLACES[: counts_of(edition).places]
