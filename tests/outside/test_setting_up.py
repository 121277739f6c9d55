"""Setting up against NumPy's rotations, and what a turn left out does against SciPy's root finder on Coulomb poles.

Sources: numpy (complex numbers), scipy.optimize.brentq (Brent's method); μ0 from scipy.constants (CODATA).  Nothing
of exercises/ is used for the boards or for the needle.  The order of the two turns is common practice, no source.
"""

import math
import random

import numpy as np
import pytest
from scipy.constants import mu_0
from scipy.optimize import brentq

from exercises.codes.sheet_code import SCALE_STEPS, SEEDS, Setting, SheetCode
from exercises.kinds.setting.choices import BOARD_CLOCKWISE, BOX_CLOCKWISE
from exercises.kinds.setting.kind import KIND

CHANCE = random.Random("setting up by rotations")
CODES = [
    SheetCode("P", 1, CHANCE.randrange(SEEDS), Setting(scale_step=step)) for step in SCALE_STEPS for _ in range(15)
]
SCENARIOS = [KIND.draw(code) for code in CODES]
M, L, EARTH = 1.5, 0.04, 3e-5  # A·m², m, T
ALL_FOUR = tuple((arm, north) for arm in (1, -1) for north in (1, -1))


def clockwise(degrees):
    """The rotation by so many degrees clockwise, east being 1 and north 1j."""
    return np.exp(-1j * math.radians(degrees))


def from_to(one, other):
    """Degrees clockwise from one direction to another."""
    return -math.degrees(np.angle(other / one))


def signed(size, choice, way):
    return size if choice == way else -size


@pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda s: str(s.code))
def test_the_two_turns_as_answered_bring_the_arms_to_magnetic_east_west(scenario):
    """Three lines, turned by what the sheet calls right, to a division: the box, then all but the pointer."""
    values, step = KIND.working(scenario).all_values(), scenario.scale_step
    for n, board in enumerate(scenario.boards, 1):
        pointer = 1 + 0j  # the needle holds it
        zero = clockwise(-board.pointer)
        arms = zero * clockwise(board.line)
        zero = zero * clockwise(signed(values[f"turn-first-{n}"], values[f"first-{n}"], BOX_CLOCKWISE))
        assert from_to(zero, arms) == pytest.approx(0, abs=0.2 * step)
        assert abs(from_to(zero, pointer)) == pytest.approx(values[f"shows-{n}"], abs=0.5 * step)
        turn = clockwise(signed(values[f"turn-next-{n}"], values[f"next-{n}"], BOARD_CLOCKWISE))
        zero, arms = zero * turn, arms * turn
        assert from_to(zero, pointer) == pytest.approx(0, abs=0.5 * step)
        assert from_to(arms, pointer) == pytest.approx(0, abs=0.5 * step)


@pytest.mark.parametrize("scenario", SCENARIOS[::3], ids=lambda s: str(s.code))
def test_any_other_order_or_way_leaves_the_arms_askew(scenario):
    for board in scenario.boards:
        zero = clockwise(-board.pointer)
        arms = zero * clockwise(board.line)
        # the board first, to 0–0: the arms stay off by what the box is off the arms
        assert abs(from_to(arms * clockwise(board.pointer), 1)) == pytest.approx(abs(board.line))
        # the box alone, to 0–0: the arms have not moved
        assert abs(from_to(arms, 1)) == pytest.approx(abs(board.arms))
        # the box the wrong way round: the line is twice as far off
        assert abs(from_to(zero * clockwise(-board.line), arms)) == pytest.approx(2 * abs(board.line))


def needle(d, arms, arm, north):
    """Degrees east of north where a short needle settles.

    arms  the arms, degrees north of east;  arm, north  1 for east, −1 for west
    """
    axis = np.exp(1j * math.radians(arms))
    poles = [(sign * M / (2 * L), arm * d * axis + sign * north * L * axis) for sign in (1, -1)]
    field = 1j * EARTH + sum(mu_0 / (4 * math.pi) * p * -place / abs(place) ** 3 for p, place in poles)

    def torque(turn):
        along = 1j * np.exp(-1j * math.radians(turn))
        return (along.conjugate() * field).imag

    return brentq(torque, -89.9, 89.9, xtol=1e-13)


def readings(d, arms, left_out):
    """What is read with N east and with N west, each the mean of both arms, degrees."""
    scale = arms if left_out == "second" else 0.0  # clockwise from its 0 the pointer shows so much more
    found = {1: [], -1: []}
    for arm, north in ALL_FOUR:
        found[north].append(abs(needle(d, arms, arm, north) + scale))
    return np.mean(found[1]), np.mean(found[-1])


def distance(theta):
    def off(d):
        return mu_0 / (4 * math.pi) * 2 * M * d / (d * d - L * L) ** 2 - EARTH * math.tan(math.radians(theta))

    return brentq(off, 0.06, 1.0, xtol=1e-14)


@pytest.mark.parametrize("arms", [-9, -5, -1, 2, 6, 9])
@pytest.mark.parametrize("theta", [33, 40, 52, 57])
@pytest.mark.parametrize("left_out", ["first", "second"])
def test_what_a_turn_left_out_shows(left_out, theta, arms):
    east, west = readings(distance(theta), arms, left_out)
    share = math.sin(math.radians(theta)) ** 2 if left_out == "first" else -(math.cos(math.radians(theta)) ** 2)
    assert (west - east) / 2 == pytest.approx(arms * share, rel=0.02)  # to the first order
    # what the mean hides: exactly, and to the second order
    mean = (east + west) / 2
    double, alpha = math.radians(2 * theta), math.radians(arms)
    assert math.tan(math.radians(2 * mean)) == pytest.approx(math.cos(alpha) * math.tan(double), rel=1e-8)
    off = math.tan(math.radians(mean)) / math.tan(math.radians(theta)) - 1
    assert off == pytest.approx(-(alpha**2) / 2 * math.cos(double), rel=0.05)
    assert (off > 0) == (theta > 45)


def test_a_zero_error_alone_is_the_same_at_every_deflection_and_a_turn_left_out_is_not():
    near, far = distance(55), distance(35)
    differences = {left: [abs(np.subtract(*readings(d, 7, left))) for d in (near, far)] for left in ("first", "second")}
    assert differences["first"][0] > 1.8 * differences["first"][1]
    assert differences["second"][1] > 1.8 * differences["second"][0]


@pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda s: str(s.code))
def test_the_readings_of_the_third_board_are_those_of_the_turn_that_is_named(scenario):
    """The pattern of sixteen readings decides between the two turns, and gives the angle."""
    values = KIND.working(scenario).all_values()
    halves = []
    for row in scenario.readings:
        east = np.mean([row[0], row[1], row[4], row[5]])
        west = np.mean([row[2], row[3], row[6], row[7]])
        halves.append(((west - east) / 2, math.radians(np.mean(row))))
    first = [half / math.sin(theta) ** 2 for half, theta in halves]
    second = [-half / math.cos(theta) ** 2 for half, theta in halves]
    steady = "first" if abs(first[0] - first[1]) < abs(second[0] - second[1]) else "second"
    assert values["left-out"] == steady == scenario.left_out
    found = (first if steady == "first" else second)[scenario.asked]
    assert values["askew"] == pytest.approx(abs(found))
    assert found == pytest.approx(scenario.askew, abs=1.6)  # readings to a division, and half of it counts thrice
