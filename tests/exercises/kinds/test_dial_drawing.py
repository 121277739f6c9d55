"""The drawing of the dial measured part by part: divisions, numbers, needle, pointer, and the two glasses below it."""

import math
import re

import pytest

from exercises.bench.instrument import Box, Faults, pointer_ends
from exercises.kinds.dial.drawing import DIAL, RADIUS, dial
from exercises.kinds.dial.strokes import (
    ACCENT,
    GLASS,
    HALF_WINDOW,
    INK,
    NORTH,
    PER_DEGREE,
    SOUTH,
    WIDTH,
    shown,
)

BOX = Box()
CASES = [
    (37.3, Faults(pivot_x=4e-4, pivot_y=-3e-4, box_turned=-0.6), 0.5),
    (-52.4, Faults(pivot_x=-5e-4, pivot_y=2e-4, box_turned=1.3), 1.0),
    (45.0, Faults(), 1.0),
]
CX, CY = WIDTH / 2, DIAL / 2
NUMBER = r"(-?[\d.]+)"


def texts(svg: str) -> list[tuple[float, float, str, str]]:
    """x, y, colour (ink where none is named) and text of every text."""
    found = re.findall(rf'<text x="{NUMBER}" y="{NUMBER}" font-size="\d+"(?: fill="([^"]*)")?[^>]*>([^<]*)</text>', svg)
    return [(float(x), float(y), colour or INK, text) for x, y, colour, text in found]


def near(x, y, other, room=0.11) -> bool:
    return abs(x - other[0]) <= room and abs(y - other[1]) <= room


@pytest.mark.parametrize(("phi", "faults", "step"), CASES)
def test_the_numbers_stand_round_the_scale(phi, faults, step):
    """0 at the east and the west, 90 at the north and the south, all turned clockwise by the zero error."""
    svg = dial(phi, BOX, faults, step, "Dial")
    found = [t for t in texts(svg) if t[1] < DIAL and t[2] == INK]
    assert len(found) == 36
    for n, (x, y, _, text) in enumerate(found):
        a = math.radians(10 * n - faults.at_rest)
        assert near(x, y, (CX + 99 * math.cos(a), CY + 99 * math.sin(a))) and text == str(shown(10 * n))
    assert {text for _, _, _, text in found} == {str(n) for n in range(0, 91, 10)}


@pytest.mark.parametrize(("phi", "faults", "step"), CASES)
def test_the_rings_of_divisions(phi, faults, step):
    svg = dial(phi, BOX, faults, step, "Dial")
    rings = re.findall(
        rf'<circle cx="{NUMBER}" cy="{NUMBER}" r="{NUMBER}" fill="none" stroke="[^"]*" stroke-width="{NUMBER}" '
        rf'pathLength="360" stroke-dasharray="{NUMBER} {NUMBER}" stroke-dashoffset="{NUMBER}" '
        rf'transform="rotate\({NUMBER} {NUMBER} {NUMBER}\)"/>',
        svg,
    )
    assert len(rings) == 3
    for ring, every, long, width in zip(rings, (1, 5, 10), (5, 8, 11), (0.5, 0.8, 1.1)):
        cx, cy, r, length, dash, gap, offset, turned, tx, ty = map(float, ring)
        assert (cx, cy) == (tx, ty) == (CX, CY) and length == long and turned == pytest.approx(-faults.at_rest)
        assert r - length / 2 == pytest.approx(RADIUS, abs=0.06)  # they begin on the circle and go outwards
        assert dash + gap == pytest.approx(every, abs=0.002) and offset == pytest.approx(dash / 2, abs=0.001)
        assert math.radians(dash) * r == pytest.approx(width, rel=0.02)
    assert f'<circle cx="{CX:.0f}" cy="{CY:.0f}" r="{RADIUS}" fill="none"' in svg


@pytest.mark.parametrize(("phi", "faults", "step"), CASES)
def test_needle_and_pointer_turn_about_the_pivot(phi, faults, step):
    svg = dial(phi, BOX, faults, step, "Dial")
    px, py = CX + RADIUS * faults.pivot_x / BOX.radius, CY - RADIUS * faults.pivot_y / BOX.radius
    north = (math.sin(math.radians(phi)), -math.cos(math.radians(phi)))  # east of north, y downwards
    east = (-north[1], north[0])  # the pointer's end 1, a right angle clockwise from the needle's N
    ((x, y),) = re.findall(rf'<circle cx="{NUMBER}" cy="{NUMBER}" r="2"', svg)
    assert near(float(x), float(y), (px, py))
    for colour, sign, letter in ((NORTH, 1, "N"), (SOUTH, -1, "S")):
        points = re.search(
            rf'<path d="M{NUMBER} {NUMBER}L{NUMBER} {NUMBER}L{NUMBER} {NUMBER}Z" fill="{re.escape(colour)}"', svg
        ).groups()
        point, one, two = [(float(a), float(b)) for a, b in zip(points[::2], points[1::2])]
        assert near(*point, (px + 26 * sign * north[0], py + 26 * sign * north[1]))
        assert near(*one, (px + 4.5 * east[0], py + 4.5 * east[1])) and near(
            *two, (px - 4.5 * east[0], py - 4.5 * east[1])
        )
        (label,) = [t for t in texts(svg) if t[3] == letter]
        assert near(label[0], label[1], (px + 35 * sign * north[0], py + 35 * sign * north[1])) and label[2] == colour
    x1, y1, x2, y2 = map(
        float, re.search(rf'<path d="M{NUMBER} {NUMBER}L{NUMBER} {NUMBER}" stroke="{re.escape(ACCENT)}"', svg).groups()
    )
    assert near(x1, y1, (px + RADIUS * east[0], py + RADIUS * east[1])) and near(
        x2, y2, (px - RADIUS * east[0], py - RADIUS * east[1])
    )
    for sign, mark, tip in ((1, "①", (x1, y1)), (-1, "②", (x2, y2))):
        x, y, colour, _ = next(t for t in texts(svg) if t[3] == mark and t[1] < DIAL)
        assert (
            near(x, y, (tip[0] - 20 * sign * east[0] + 11 * north[0], tip[1] - 20 * sign * east[1] + 11 * north[1]))
            and colour == ACCENT
        )


@pytest.mark.parametrize("end", [1, 2])
@pytest.mark.parametrize(("phi", "faults", "step"), CASES)
def test_a_glass_shows_the_scale_enlarged(phi, faults, step, end):
    """Twelve units of the drawing to a degree, the rim upwards, clockwise to the right."""
    svg = dial(phi, BOX, faults, step, "Dial")
    top = DIAL + (end - 1) * GLASS
    radius, base = math.degrees(PER_DEGREE), top + 50
    reading = pointer_ends(phi, BOX, faults)[end - 1]
    middle = round(math.copysign(reading, phi) / 5) * 5

    def polar(x: float, y: float) -> tuple[float, float]:
        """The mark of the scale, degrees, and how far outside the rim."""
        down = base + radius - y
        return middle + math.degrees(math.atan2(x - CX, down)), math.hypot(x - CX, down) - radius

    paths = [
        p
        for p in re.findall(r'<path d="([^"]*)" stroke="[^"]*" stroke-width="1" fill="none"/>', svg)
        if p.count("M") > 9
    ]
    marks = []
    for line in re.findall(rf"M{NUMBER} {NUMBER}L{NUMBER} {NUMBER}", paths[end - 1]):
        x1, y1, x2, y2 = map(float, line)
        (mark, inner), (same, outer) = polar(x1, y1), polar(x2, y2)
        assert mark == pytest.approx(same, abs=0.02) and inner == pytest.approx(0, abs=0.11)
        mark = round(mark / step) * step
        marks.append(mark)
        long = 24 if mark % 10 == 0 else 18 if mark % 5 == 0 else 12 if mark == round(mark) else 7
        assert outer == pytest.approx(long, abs=0.15), mark
    count = math.floor(HALF_WINDOW / step)
    assert marks == pytest.approx([middle + step * n for n in range(-count, count + 1)])
    numbers = [t for t in texts(svg) if top < t[1] < top + GLASS and t[2] == INK]
    assert [t[3] for t in numbers] == [str(shown(int(m))) for m in marks if m % 10 == 0] and len(numbers) >= 2
    for (x, y, _, _), mark in zip(numbers, [m for m in marks if m % 10 == 0]):
        assert polar(x, y) == (pytest.approx(mark, abs=0.02), pytest.approx(35, abs=0.11))
    arc = re.findall(rf'<path d="M{NUMBER} {NUMBER}A{NUMBER} {NUMBER} 0 0 1 {NUMBER} {NUMBER}"', svg)[end - 1]
    x1, y1, rx, ry, x2, y2 = map(float, arc)
    assert rx == ry == round(radius)
    assert polar(x1, y1) == (pytest.approx(middle - HALF_WINDOW, abs=0.02), pytest.approx(0, abs=0.11))
    assert polar(x2, y2) == (pytest.approx(middle + HALF_WINDOW, abs=0.02), pytest.approx(0, abs=0.11))
    assert any(near(x, y, (16, top + 82)) and text == "①②"[end - 1] for x, y, _, text in texts(svg))
    assert f'<path d="M0 {top}L{WIDTH} {top}"' in svg


@pytest.mark.parametrize("end", [1, 2])
@pytest.mark.parametrize(("phi", "faults", "step"), CASES)
def test_the_tip_in_a_glass(phi, faults, step, end):
    """At the reading; as far inside or outside the rim as the pivot puts it; and leaning as the pointer does."""
    svg = dial(phi, BOX, faults, step, "Dial")
    top, radius = DIAL + (end - 1) * GLASS, math.degrees(PER_DEGREE)
    found = re.findall(
        rf'<path d="M(\d+\.\d\d) (\d+\.\d\d)L{NUMBER} {NUMBER}L{NUMBER} {NUMBER}Z" fill="{re.escape(ACCENT)}"', svg
    )[end - 1]
    x, y, x1, y1, x2, y2 = map(float, found)
    reading = math.copysign(pointer_ends(phi, BOX, faults)[end - 1], phi)
    middle = round(reading / 5) * 5
    down = top + 50 + radius - y
    assert middle + math.degrees(math.atan2(x - CX, down)) == pytest.approx(reading, abs=0.01)
    sign, turn = (1 if end == 1 else -1), math.radians(phi)
    reach = math.hypot(
        faults.pivot_x / BOX.radius + sign * math.cos(turn), faults.pivot_y / BOX.radius - sign * math.sin(turn)
    )
    assert math.hypot(x - CX, down) / radius == pytest.approx(reach, abs=1e-4)
    bx, by = (x1 + x2) / 2, (y1 + y2) / 2  # the middle of its base: 34 behind the tip, and 6 wide
    lean = math.radians(phi + faults.at_rest - middle)
    assert near(x - bx, y - by, (34 * math.sin(lean), -34 * math.cos(lean)), 0.15)
    assert math.hypot(x1 - x2, y1 - y2) == pytest.approx(6, abs=0.15)
    assert (x1 - x2) * math.sin(lean) - (y1 - y2) * math.cos(lean) == pytest.approx(0, abs=0.2)


def test_the_drawing_is_as_high_as_what_is_in_it():
    svg = dial(40.0, BOX, Faults(), 1.0, "Dial")
    assert f'viewBox="0 0 {WIDTH} {DIAL + 2 * GLASS}"' in svg and "One division is one degree." in svg
    assert "One division is half a degree." in dial(40.0, BOX, Faults(), 0.5, "Dial")
    assert "between the marks numbered 40 and 50, at division 0 counted" in svg
