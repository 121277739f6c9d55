"""What the instructor's page says of the room: how far benches stand apart, and how a bench's own field is found."""

import math
from dataclasses import replace

import pytest

from exercises.bench.field import deflection, end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import PERFECT, Box, pointer_ends
from exercises.bench.vibration import inertia, period

B_H = 36e-6


@pytest.mark.parametrize(("moment", "metres", "degrees"), [(1.5, 1.0, 0.5), (1.5, 2.0, 0.06), (10.0, 2.0, 0.4)])
def test_what_the_next_bench_does(moment, metres, degrees):
    assert deflection(end_on(moment, metres, 0.04), B_H) == pytest.approx(degrees, abs=0.05 if degrees > 0.1 else 0.01)


@pytest.mark.parametrize("share", [0.9, 0.97, 1.05])
def test_a_bench_s_own_field_by_swinging_and_by_deflecting(share):
    """One magnet at both places: the squares of the periods, and the tangents, the other way round."""
    I = inertia(0.08, 0.096, 0.016)
    out, bench = (period(I, 1.5, field) for field in (B_H, share * B_H))
    assert (out / bench) ** 2 == pytest.approx(share, rel=1e-12)
    d, l = 0.2, 0.04
    theta_out, theta_bench = (deflection(end_on(1.5, d, l), field) for field in (B_H, share * B_H))
    found = field_from_deflection(theta_out, 1.0) / field_from_deflection(theta_bench, 1.0)
    assert found == pytest.approx(share, rel=1e-12)
    # and the moment that a student works with the card's value is right
    assert moment_end_on(field_from_deflection(theta_bench, found * B_H), d, l) == pytest.approx(1.5, rel=1e-9)


@pytest.mark.parametrize("turn", [*range(-80, 0, 10), *range(10, 90, 10)])
def test_half_the_difference_of_the_ends_is_what_one_end_is_wrong_by(turn):
    """A pivot half a millimetre off the centre, and the needle anywhere on the circle."""
    faults = replace(PERFECT, pivot_x=0.0003, pivot_y=0.0004)
    one, two = pointer_ends(turn, Box(), faults)
    assert (one + two) / 2 == pytest.approx(abs(turn), abs=0.01)
    assert abs(one - two) / 2 == pytest.approx(abs(one - abs(turn)), abs=0.01)


def test_the_largest_difference_on_the_way_round_is_that_of_the_whole_shift():
    ends = (pointer_ends(turn, Box(), replace(PERFECT, pivot_x=0.0003, pivot_y=0.0004)) for turn in range(10, 180, 10))
    most = max(abs(one - two) / 2 for one, two in ends)
    assert most == pytest.approx(math.degrees(0.0005 / Box().radius), rel=0.03)
