"""At the edges of what a laboratory can set, where the draw turns down most, a code gives the same numbers for ever too."""

import hashlib
import json

import pytest

from exercises.bench.local_field import PLACES
from exercises.kinds.kind import all_kinds
from tests.exercises.edges import KEPT, digest


@pytest.mark.parametrize("slug", all_kinds())
def test_the_edges_are_as_they_were(slug):
    assert json.loads(KEPT.read_text())[slug] == digest(slug)


def test_the_places_that_codes_count_are_as_they_were():
    """Places may be added at the end, none moved: a code holds nothing but the number of its place."""
    first = repr([tuple(place) for place in PLACES[:24]])
    assert (
        hashlib.sha256(first.encode()).hexdigest() == "ba313945e644babc85b6cd021fe2ac8b8ff06ead3923da0894b41173d775c2f9"
    )
