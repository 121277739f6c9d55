"""The instrument: perfect, it obeys the textbook; each fault goes with the pair of readings said to remove it."""

import math
from dataclasses import replace
from statistics import fmean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.bench.field import broadside_on, deflection, end_on, field_from_deflection
from exercises.bench.instrument import (
    ALONE,
    EIGHT,
    PERFECT,
    Box,
    Faults,
    Magnet,
    eight_readings,
    equilibrium,
    pointer_ends,
    poles,
    to_scale,
)

B_H = 36e-6
POINT = Box(radius=0.040, needle=0.0)


def magnet_for(theta: float, d: float, l: float, tan_b: bool = False) -> Magnet:
    """The magnet that turns a point needle by θ at d."""
    of_one = (broadside_on if tan_b else end_on)(1.0, d, l)
    return Magnet(field_from_deflection(theta, B_H) / of_one, l)


def split(readings, place: int, value) -> float:
    """Mean of those of the eight whose label at `place` (0 arm, 1 north, 2 end) is `value`."""
    return fmean(r for r, label in zip(readings, EIGHT, strict=True) if label[place] == value)


# -- the perfect instrument ---------------------------------------------------


def test_the_eight_are_two_arms_two_ways_two_ends():
    assert len(set(EIGHT)) == 8
    assert EIGHT[0] == ("east", "east", 1) and EIGHT[-1] == ("west", "west", 2)


@settings(deadline=None)
@given(st.floats(5, 80), st.floats(0.1, 0.5), st.floats(0.05, 0.4), st.booleans())
def test_a_perfect_instrument_shows_the_textbook_s_angle_eight_times(theta, d, share, tan_b):
    readings = eight_readings(magnet_for(theta, d, share * d, tan_b), B_H, d, POINT, tan_b=tan_b)
    assert readings == pytest.approx((theta,) * 8, abs=1e-7)


def test_the_needle_turns_to_the_side_the_north_pole_points():
    bar = magnet_for(40, 0.2, 0.04)
    east = equilibrium(poles(bar, 0.2, "east", "east", PERFECT), B_H, 0.0)
    west = equilibrium(poles(bar, 0.2, "east", "west", PERFECT), B_H, 0.0)
    assert (east, west) == pytest.approx((40, -40))
    # end-on the field is along the moment on both arms; broadside-on against it
    assert equilibrium(poles(bar, 0.2, "west", "east", PERFECT), B_H, 0.0) == pytest.approx(40)
    assert equilibrium(poles(bar, 0.2, "east", "east", PERFECT, tan_b=True), B_H, 0.0) < 0


@settings(deadline=None)
@given(st.floats(0.1, 0.4), st.floats(0.05, 0.3), st.sampled_from(["east", "west"]), st.sampled_from(["east", "west"]))
def test_the_poles_lie_where_the_bar_is_put(d, share, arm, north):
    bar = Magnet(1.2, share * d)
    (p, nx, ny), (q, sx, sy) = poles(bar, d, arm, north, PERFECT)
    assert p == -q == bar.p and p * 2 * bar.l == pytest.approx(1.2)
    assert ((nx + sx) / 2, (ny + sy) / 2) == pytest.approx((d if arm == "east" else -d, 0), abs=1e-12)
    assert (nx - sx, ny - sy) == pytest.approx((2 * bar.l if north == "east" else -2 * bar.l, 0), abs=1e-12)


def test_the_faults_of_the_bar_move_the_poles_as_they_say():
    bar = Magnet(1.0, 0.04)

    def ends(tan_b=False, **faults):
        (_, nx, ny), (_, sx, sy) = poles(bar, 0.2, "east", "west", Faults(**faults), tan_b)
        return (nx, ny), (sx, sy)

    def centre(tan_b=False, **faults):
        (nx, ny), (sx, sy) = ends(tan_b, **faults)
        return (nx + sx) / 2, (ny + sy) / 2

    def axis(tan_b=False, **faults):
        """Where the north pole points, degrees north of east."""
        (nx, ny), (sx, sy) = ends(tan_b, **faults)
        return math.degrees(math.atan2(ny - sy, nx - sx)) % 360

    assert centre(box_shift=0.001) == pytest.approx((0.199, 0))  # pivot nearer the east arm
    assert centre(centre_shift=0.001) == pytest.approx((0.199, 0), abs=1e-12)  # towards its north pole, here west
    assert centre(arm_off=90) == pytest.approx((0, 0.2), abs=1e-12)
    assert centre(magnet_turned=3) == pytest.approx((0.2, 0))
    assert centre(centre_shift=0.001, magnet_turned=-90) == pytest.approx((0.2, 0.001))
    assert axis() == pytest.approx(180)
    assert (axis(magnet_turned=3), axis(arm_off=3)) == pytest.approx((183, 183))
    assert axis(magnet_turned=3, arm_off=-1) == pytest.approx(182)
    # broadside-on the "east" arm is the north one, and the bar still points west
    assert centre(tan_b=True) == pytest.approx((0, 0.2), abs=1e-12)
    assert centre(tan_b=True, box_shift=0.001) == pytest.approx((0, 0.199), abs=1e-12)
    assert axis(tan_b=True) == pytest.approx(180)


# -- as the faults go to zero -------------------------------------------------

FAULTS = st.builds(
    Faults,
    pivot_x=st.floats(-1e-3, 1e-3),
    pivot_y=st.floats(-1e-3, 1e-3),
    arm_off=st.floats(-2, 2),
    box_turned=st.floats(-2, 2),
    pointer_turned=st.floats(-1, 1),
    box_shift=st.floats(-2e-3, 2e-3),
    centre_shift=st.floats(-2e-3, 2e-3),
    magnet_turned=st.floats(-3, 3),
)


def scaled(faults: Faults, by: float) -> Faults:
    return Faults(**{name: value * by for name, value in vars(faults).items()})


@settings(deadline=None)
@given(FAULTS, st.floats(0, 0.008), st.floats(30, 60), st.booleans())
def test_the_mean_of_eight_goes_to_the_textbook_s_angle_as_the_square_of_the_faults(faults, needle, theta, tan_b):
    """A hundredth of every fault and of the needle's length leaves a ten-thousandth of the error.

    At full size it is under 3°, so 0.0003° and a little is the most that may be left.
    """
    d = 0.2
    bar = magnet_for(theta, d, 0.038, tan_b)

    def error(by: float) -> float:
        box = Box(radius=0.040, needle=needle * by)
        return fmean(eight_readings(bar, B_H, d, box, scaled(faults, by), tan_b=tan_b)) - theta

    assert abs(error(1.0)) < 3
    assert abs(error(0.01)) < 4e-4
    assert abs(error(0.001)) < 4e-6 + 1e-7


ANY = {**ALONE, "pivot north": lambda size: Faults(pivot_y=size), "bar": lambda size: Faults(magnet_turned=size)}
#: Each fault alone: its size, and the label (0 arm, 1 north pole, 2 end) whose pair removes it.
REMOVED_BY = [
    ("pivot", 0.5e-3, 2),
    ("pivot north", 0.5e-3, 2),
    ("zero", 0.8, 1),
    ("centre", 1e-3, 1),
    ("box", 1e-3, 0),
    ("first-turn", 1.5, 1),
    ("second-turn", 1.5, 1),
    ("pointer", 1.5, 1),
    ("bar", 2.0, 1),
]
OTHER = {0: ("east", "west"), 1: ("east", "west"), 2: (1, 2)}


@pytest.mark.parametrize("theta", [33, 47, 58])
@pytest.mark.parametrize(("name", "size", "pair"), REMOVED_BY, ids=lambda x: str(x))
def test_each_fault_alone_is_removed_by_its_pair(name, size, pair, theta):
    """One of the pair is wrong by an amount that halves with the fault; their mean, by one that quarters.

    The pair is taken with the other two labels fixed: two readings, not eight.
    """
    d = 0.2
    bar = magnet_for(theta, d, 0.038)

    def errors(amount):
        readings = eight_readings(bar, B_H, d, POINT, ANY[name](amount))
        seen = dict(zip(EIGHT, readings, strict=True))
        label = list(EIGHT[0])
        two = []
        for value in OTHER[pair]:
            label[pair] = value
            two.append(seen[tuple(label)] - theta)
        return abs(two[0]), abs(fmean(two))

    one, both = errors(size)
    one_half, both_half = errors(size / 2)
    assert one > 0.05  # degrees: the fault is there to be seen
    assert one / one_half == pytest.approx(2, rel=0.06)
    assert both < one / 10
    assert both < 1e-8 or both / both_half == pytest.approx(4, rel=0.02)


@pytest.mark.parametrize(
    ("name", "size", "pair"),
    [
        ("pivot", 0.5e-3, 0),
        ("pivot north", 0.5e-3, 0),
        ("zero", 0.8, 2),
        ("zero", 0.8, 0),
        ("centre", 1e-3, 2),
        ("box", 1e-3, 1),
        ("box", 1e-3, 2),
        ("first-turn", 1.5, 0),
        ("first-turn", 1.5, 2),
        ("second-turn", 1.5, 0),
        ("second-turn", 1.5, 2),
    ],
)
def test_no_fewer_than_all_three_pairs_will_do(name, size, pair):
    """The pair that is not its own leaves a fault standing: so eight readings, not two or four."""
    d, theta = 0.2, 47
    readings = eight_readings(magnet_for(theta, d, 0.038), B_H, d, POINT, ANY[name](size))
    seen = dict(zip(EIGHT, readings, strict=True))
    label = list(EIGHT[0])
    two = []
    for value in OTHER[pair]:
        label[pair] = value
        two.append(seen[tuple(label)] - theta)
    assert abs(fmean(two)) > 0.05


def test_reversal_takes_the_zero_error_away_entirely():
    readings = eight_readings(magnet_for(40, 0.2, 0.04), B_H, 0.2, POINT, ALONE["zero"](1.3))
    assert readings[:4] == pytest.approx((41.3, 41.3, 38.7, 38.7), abs=1e-9)
    assert fmean(readings) == pytest.approx(40, abs=1e-9)


# -- setting up, and what leaving out a turn does ---------------------------------
# Common practice, no source: first the box alone is turned until its 0–0 line is parallel to the arms, then the whole
# board until the pointer reads 0–0.  A right deflection θ is then read as θ ± (α cos²θ − ε), N east or N west.


def east_and_west(faults: Faults, theta: float, d: float = 0.2) -> tuple[float, float]:
    """What is read with N east and with N west where a perfect instrument shows theta."""
    readings = eight_readings(magnet_for(theta, d, 0.038), B_H, d, POINT, faults)
    return split(readings, 1, "east"), split(readings, 1, "west")


@settings(deadline=None)
@given(st.floats(-2, 2), st.floats(-2, 2), st.floats(-2, 2), st.floats(30, 60))
def test_a_deflection_is_read_with_the_arms_the_box_and_the_pointer_askew(arms, box, pointer, theta):
    faults = Faults(arm_off=arms, box_turned=box, pointer_turned=pointer)
    more = arms * math.cos(math.radians(theta)) ** 2 - box - pointer
    east, west = east_and_west(faults, theta)
    assert (east - west) / 2 == pytest.approx(more, abs=0.002)
    assert (east + west) / 2 == pytest.approx(theta, abs=0.03)
    rest = pointer_ends(0.0, POINT, faults)
    assert rest == pytest.approx([abs(faults.at_rest)] * 2) and faults.at_rest == pytest.approx(arms - box - pointer)


@pytest.mark.parametrize(
    ("left", "rest", "east", "west"),
    [
        ("first-turn", 0.0, (54.2, 41.7, 28.1), (61.3, 46.5, 30.4)),  # θ ∓ ε sin²θ: nothing at the zero check
        ("second-turn", 5.0, (59.2, 46.7, 33.1), (56.3, 41.5, 25.5)),  # θ ± α cos²θ: falls as the deflection grows
        ("zero", 5.0, (62.7, 49.1, 34.3), (52.7, 39.1, 24.3)),  # θ ± ε: the same at every distance
        ("pointer", 0.0, (54.2, 41.7, 28.1), (61.3, 46.5, 30.4)),  # like the first turn left out
    ],
)
def test_what_is_read_when_a_turn_is_left_out(left, rest, east, west):
    """By hand for 5° at 57.7°, 44.1° and 29.3°: sin²θ is 0.714, 0.484, 0.240; and the needle itself within 0.06°."""
    faults = ALONE[left](5.0)
    assert pointer_ends(0.0, POINT, faults) == pytest.approx((rest, rest), abs=1e-9)
    for theta, *right in zip((57.7, 44.1, 29.3), east, west):
        assert east_and_west(faults, theta) == pytest.approx(right, abs=0.06)


def test_the_first_turn_left_out_and_a_pointer_not_square_read_alike():
    for size in (-5.0, 0.8, 5.0):
        readings = [
            eight_readings(magnet_for(50, 0.2, 0.038), B_H, 0.2, POINT, ALONE[left](size))
            for left in ("first-turn", "pointer")
        ]
        assert readings[0] == pytest.approx(readings[1], abs=1e-9)


def test_both_turns_made_leave_nothing():
    """The box askew by 3° on a board 7° off: the first turn undoes the one, the second the other."""
    found = Faults(arm_off=7.0, box_turned=3.0)
    first = replace(found, box_turned=0.0)
    assert (found.at_rest, first.at_rest) == (4.0, 7.0)
    assert replace(first, arm_off=first.arm_off - first.at_rest) == PERFECT


def test_both_ends_leave_the_second_order_of_the_pivot():
    """Known size: a pivot 1 mm off on a 40 mm scale moves one end by up to 1.4°, both by less than 0.02°."""
    moved = []
    for turn in range(0, 360, 15):
        fault = Faults(pivot_x=1e-3 * math.cos(math.radians(turn)), pivot_y=1e-3 * math.sin(math.radians(turn)))
        one, two = pointer_ends(45.0, POINT, fault)
        moved.append(abs(one - 45))
        assert abs((one + two) / 2 - 45) < 0.02
    assert 1.3 < max(moved) < 1.5


def test_the_box_shift_is_what_one_millimetre_of_distance_does():
    d, l = 0.2, 0.038
    bar = magnet_for(45, d, l)
    readings = eight_readings(bar, B_H, d, POINT, Faults(box_shift=1e-3))
    assert split(readings, 0, "east") == pytest.approx(deflection(end_on(bar.m, d - 1e-3, l), B_H), abs=1e-7)
    assert split(readings, 0, "west") == pytest.approx(deflection(end_on(bar.m, d + 1e-3, l), B_H), abs=1e-7)


# -- reading the scale --------------------------------------------------------


@settings(deadline=None)
@given(st.floats(0, 90), st.sampled_from([1.0, 0.5]))
def test_a_reading_goes_to_the_nearest_mark(reading, step):
    marked = to_scale(reading, step)
    assert abs(marked - reading) <= step / 2 and marked % step == 0
    assert to_scale(marked, step) == marked


def test_a_reading_half_way_goes_up():
    assert [to_scale(x, 1.0) for x in (36.5, 37.5)] == [37, 38]  # not to the even one
    assert to_scale(36.25, 0.5) == 36.5


def test_the_eye_s_errors_fall_on_their_own_reading():
    bar = magnet_for(40, 0.2, 0.04)
    errors = tuple(i / 10 for i in range(8))
    plain = eight_readings(bar, B_H, 0.2, POINT)
    assert eight_readings(bar, B_H, 0.2, POINT, errors=errors) == pytest.approx(
        [p + e for p, e in zip(plain, errors, strict=True)]
    )
    with pytest.raises(ValueError):
        eight_readings(bar, B_H, 0.2, POINT, errors=(0.0,) * 7)


# -- too near, too far --------------------------------------------------------


@settings(deadline=None)
@given(st.floats(0.06, 2.0), st.floats(0.01, 5.0), st.floats(0, 0.02))
def test_the_needle_settles_or_says_that_it_cannot(d, m, needle):
    """Where it settles the torque pulls it back from both sides; otherwise ArithmeticError, with a reason."""
    pair = poles(Magnet(m, 0.02), d, "east", "east", PERFECT)
    try:
        settled = equilibrium(pair, B_H, needle)
    except ArithmeticError as error:
        assert "too near" in str(error)
        return
    assert -180 <= settled <= 180
    nudge = 1e-4

    def torque(degrees):
        s, c = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
        total = 0.0
        for sign in (1, -1):
            x, y = sign * needle * s, sign * needle * c
            bx = sum(1e-7 * p * (x - px) / math.hypot(x - px, y - py) ** 3 for p, px, py in pair)
            by = sum(1e-7 * p * (y - py) / math.hypot(x - px, y - py) ** 3 for p, px, py in pair)
            total += c * bx - s * (by + B_H)
        return total

    assert torque(settled - nudge) > 0 > torque(settled + nudge)


def test_far_away_the_magnet_is_not_felt():
    readings = eight_readings(Magnet(1.0, 0.04), B_H, 100.0, POINT)
    assert readings == pytest.approx((0.0,) * 8, abs=1e-3)


@pytest.mark.parametrize(
    ("m", "d", "needle", "tan_b"),
    [(0.01, 0.049, 0.022, False), (0.02, 0.063, 0.024, False), (0.07, 0.041, 0.027, True), (0.86, 0.07, 0.026, True)],
)
def test_a_needle_nearly_as_long_as_its_distance_has_no_place_to_rest(m, d, needle, tan_b):
    """Its end all but touches a pole, which holds it or throws it round: a sentence, and no number."""
    with pytest.raises(ArithmeticError, match="no steady position here: the magnet is too near the box"):
        equilibrium(poles(Magnet(m, 0.02), d, "east", "east", PERFECT, tan_b), 3e-5, needle)
