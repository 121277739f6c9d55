"""At the edges of what a laboratory can set, where most draws are turned down, a code gives the same numbers too."""

import hashlib
import json

import pytest

from exercises.bench.local_field import PLACES
from exercises.kinds.kind import all_kinds
from tests.exercises.edges import KEPT, digest, name_of


@pytest.mark.parametrize("kind", all_kinds().values(), ids=lambda kind: kind.slug)
def test_the_edges_are_as_they_were(kind):
    kept = json.loads(KEPT.read_text())
    for edition in kind.draws:
        assert kept[name_of(kind, edition)] == digest(kind, edition)


def test_the_places_that_codes_count_are_as_they_were():
    """Places may be added at the end, none moved: a code holds nothing but the number of its place."""
    first = repr([tuple(place) for place in PLACES[:24]])
    assert (
        hashlib.sha256(first.encode()).hexdigest() == "ba313945e644babc85b6cd021fe2ac8b8ff06ead3923da0894b41173d775c2f9"
    )
