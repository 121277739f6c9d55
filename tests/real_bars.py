"""Bars that the two-pole model did not make, and records of them.

A bar is cut into slices, each magnetised alike all through; magpylib gives the exact field of each.  Where the ends are
weakened, the magnetisation falls from the middle to the ends as 1 − a·(2z/L)².  The needle has two poles and settles
where the torque on both is zero, found here by going round; none of this is the instrument of exercises/bench.
"""

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass

import magpylib
import numpy as np

from exercises.bench.instrument import Box, Faults, pointer_ends, to_scale
from exercises.record.entries import Record, Row
from exercises.record.position import TAN_A, Position

SLICES = 12
SHAPES = ("cuboid", "cylinder")
#: 2l as a share of the length, by the far field; None for bars that are magnetised alike all along.
SHARES = (5 / 6, 0.88, None)
#: l/d at 45°: of bars as the sheets have them, and of weak or long ones.
FAR, NEAR = (0.170, 0.205), (0.25, 0.33)
STEP = 0.5  # degrees
#: The same in tan B, as on sheets.
SHARES_45_TAN_B = (0.19, 0.26)
HALF_MILLIMETRE = 0.5e-3  # m: half width of where the magnet truly lay, on each arm anew
FRICTION = 0.1  # degrees, standard deviation of where the needle comes to rest


@dataclass(frozen=True)
class RealBar:
    """A bar along its own first axis: slices from edge to edge (m), their magnetisation (A/m), and its section (m)."""

    shape: str
    edges: np.ndarray
    magnetisation: np.ndarray
    width: float
    thickness: float

    @property
    def moment(self) -> float:
        """A·m²."""
        return float(self._area * np.sum(self.magnetisation * np.diff(self.edges)))

    @property
    def _area(self) -> float:
        return math.pi * self.width**2 / 4 if self.shape == "cylinder" else self.width * self.thickness

    @property
    def magnetic_length(self) -> float:
        """2l in m by the far field on the axis: l² is the mean of 3z² over the moment, less 3ρ²/2 over the faces."""
        rho2 = self.width**2 / 8 if self.shape == "cylinder" else (self.width**2 + self.thickness**2) / 12
        cubes = np.sum(self.magnetisation * np.diff(self.edges**3)) / np.sum(self.magnetisation * np.diff(self.edges))
        return 2 * math.sqrt(cubes - 1.5 * rho2)

    def of_moment(self, moment: float) -> "RealBar":
        """The same bar, made stronger or weaker."""
        return RealBar(self.shape, self.edges, self.magnetisation * moment / self.moment, self.width, self.thickness)

    def sources(self) -> list[object]:
        """The slices as magpylib has them, along the first axis."""
        made: list[object] = []
        for start, end, strength in zip(self.edges, self.edges[1:], self.magnetisation):
            if self.shape == "cylinder":
                slice_ = magpylib.magnet.Cylinder(magnetization=(0, 0, strength), dimension=(self.width, end - start))
                slice_.rotate_from_angax(90, "y")
            else:
                sides = (end - start, self.width, self.thickness)
                slice_ = magpylib.magnet.Cuboid(magnetization=(strength, 0, 0), dimension=sides)
            slice_.move(((start + end) / 2, 0, 0))
            made.append(slice_)
        return made


def real_bar(shape: str, share: float | None, length: float, width: float, thickness: float) -> RealBar:
    """A bar whose poles lie, by the far field, at this share of its length, or that is magnetised alike all along."""
    if share is None:
        return RealBar(shape, np.array([-length / 2, length / 2]), np.array([1e5]), width, thickness)
    edges = np.linspace(-length / 2, length / 2, SLICES + 1)
    middles = (edges[:-1] + edges[1:]) / length

    def weakened(a: float) -> RealBar:
        return RealBar(shape, edges, 1e5 * (1 - a * middles**2), width, thickness)

    low, high = 0.0, 1.1
    for _ in range(50):
        a = (low + high) / 2
        low, high = (a, high) if weakened(a).magnetic_length > share * length else (low, a)
    return weakened(low)


@dataclass(frozen=True)
class Bench:
    """Where and with what a bar is used: B_H (T), half the distance of the needle's poles (m), the faults."""

    B_H: float
    needle: float
    faults: Faults


def deflections(bar: RealBar, bench: Bench, lay: Sequence[tuple[float, float]], tan_b: bool = False) -> np.ndarray:
    """The needle's deflections, degrees: four for each pair of distances (east arm, west arm; m), in reading order.

    With tan_b the arms lie north and south, and the bar across the arm.
    """
    faults = bench.faults
    along, axis = math.radians(faults.arm_off), math.radians(faults.arm_off + faults.magnet_turned)
    if tan_b:
        along += math.pi / 2
    centres, norths = [], []
    for pair in lay:
        for arm, d in zip((1, -1), pair, strict=True):
            for north in (1, -1):
                n = north * np.array([math.cos(axis), math.sin(axis)])
                reach = arm * d - faults.box_shift
                centres.append(reach * np.array([math.cos(along), math.sin(along)]) + faults.centre_shift * n)
                norths.append(n)
    c, n = np.array(centres), np.array(norths)
    across, sources = np.column_stack([-n[:, 1], n[:, 0]]), bar.sources()
    phi = np.zeros(len(c))
    for _ in range(30):
        total = np.zeros((len(c), 2))
        for pole in (1, -1):
            off = pole * bench.needle * np.column_stack([np.sin(phi), np.cos(phi)]) - c
            own = np.column_stack([np.sum(off * n, axis=1), np.sum(off * across, axis=1), np.zeros(len(c))])
            B = magpylib.getB(sources, own, sumup=True)
            total += B[:, :1] * n + B[:, 1:2] * across
        before, phi = phi, np.arctan2(total[:, 0], total[:, 1] + 2 * bench.B_H)
        if np.max(np.abs(phi - before)) < 1e-6:
            break
    return np.degrees(phi)


def slight_faults(chance: random.Random) -> Faults:
    """Those of an honest instrument."""
    arm_off = chance.uniform(-1.5, 1.5)
    return Faults(
        pivot_x=chance.uniform(-0.5e-3, 0.5e-3),
        pivot_y=chance.uniform(-0.5e-3, 0.5e-3),
        arm_off=arm_off,
        box_turned=arm_off - chance.uniform(-0.8, 0.8),
        box_shift=chance.uniform(-1e-3, 1e-3),
        centre_shift=chance.uniform(-1e-3, 1e-3),
        magnet_turned=chance.uniform(-2.0, 2.0),
    )


def real_record(
    chance: random.Random,
    shape: str,
    share: float | None,
    told: bool,
    position: Position = TAN_A,
    reach: tuple[float, float] = FAR,
) -> tuple[RealBar, Record]:
    """A bar and an honest record of it, four to six distances from about 57° to 33°, a scale of half degrees.

    told   whether the record gives the length of its needle, which is from 1 to 2.5 cm
    reach  between what l/d lies at 45°: a weak bar has to be nearer
    """
    length = chance.choice((0.06, 0.08, 0.10))
    width = round(length * chance.uniform(0.1, 0.2), 3)
    thickness = round(width * chance.uniform(0.5, 1.0), 3)
    B_H, needle = chance.uniform(15e-6, 40e-6), round(chance.uniform(0.010, 0.025), 3)
    bar = real_bar(shape, share, length, width, thickness)
    l = bar.magnetic_length / 2
    d45 = l / chance.uniform(*(SHARES_45_TAN_B if position.tan_b else reach))
    bar = bar.of_moment(position.moment(B_H, d45, l))
    near, far = 0.87 * d45, 1.14 * d45
    count = chance.choice((4, 5, 6))
    ds = [round(near + (far - near) * (i + chance.uniform(0.2, 0.8)) / count, 3) for i in range(count)]
    # the needle's poles lie a little inside its ends
    bench = Bench(B_H, needle * chance.uniform(0.9, 1.0) / 2, slight_faults(chance))
    lay = [tuple(d + chance.uniform(-HALF_MILLIMETRE, HALF_MILLIMETRE) for _ in range(2)) for d in ds]
    phis, box = deflections(bar, bench, lay, position.tan_b), Box(needle=bench.needle)
    rows = []
    for i, d in enumerate(ds):
        readings = []
        for phi in phis[4 * i : 4 * i + 4]:
            for end in pointer_ends(float(phi) + chance.gauss(0, FRICTION), box, bench.faults):
                readings.append(to_scale(end + chance.gauss(0, 0.2), STEP))
        rows.append(Row(f"{100 * d:.1f}", tuple(f"{x:g}" for x in readings)))
    head = {
        "position": position.key,
        "length": f"{100 * length:g}",
        "two_l_is": chance.choice(("five-sixths", "given")),
        "B_H": f"{1e6 * B_H:.5g}",
        "step": f"{STEP:g}",
        **({"needle": f"{100 * needle:g}"} if told else {}),
    }
    return bar, Record(head, tuple(rows))
