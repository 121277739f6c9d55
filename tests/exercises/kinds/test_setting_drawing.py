"""The drawing of a board measured: arms, scale, pointer and needle at their angles, and the glass of the arms' line."""

import math
import re

import pytest

from exercises.bench.instrument import Box
from exercises.kinds.dial.strokes import ACCENT, GLASS, INK, NORTH, PER_DEGREE, SOUTH, WIDTH
from exercises.kinds.setting.drawing import ARM, HALF_BREADTH, NUMBERS, PLAN, drawn, plan, words
from exercises.kinds.setting.scenario import Board

BOX = Box()
CASES = [
    (Board(pointer=6.3, line=-4.0, pivot_x=3e-4, pivot_y=-4e-4), 0.5),
    (Board(pointer=-12.4, line=-5.1, pivot_x=-2e-4, pivot_y=1e-4), 1.0),
    (Board(pointer=4.1, line=8.0, pivot_x=0.0, pivot_y=0.0), 1.0),
]
CX, CY = WIDTH / 2, PLAN / 2
NUMBER = r"(-?[\d.]+)"


def texts(svg):
    """x, y and text of every text."""
    found = re.findall(rf'<text x="{NUMBER}" y="{NUMBER}"[^>]*>([^<]*)</text>', svg)
    return [(float(x), float(y), text) for x, y, text in found]


def direction(x, y):
    """Degrees clockwise of east, seen from the centre of the plan."""
    return math.degrees(math.atan2(y - CY, x - CX))


@pytest.mark.parametrize(("board", "step"), CASES)
def test_the_arms_lie_at_their_angle(board, step):
    svg = drawn(board, BOX, step, "Board")
    corners = re.search(rf'<path d="M{"L".join([f"{NUMBER} {NUMBER}"] * 4)}Z" fill="none"', svg).groups()
    points = [(float(x), float(y)) for x, y in zip(corners[::2], corners[1::2])]
    (west, east) = ([(a + b) / 2 for a, b in zip(*pair)] for pair in ((points[0], points[3]), (points[1], points[2])))
    assert direction(*east) == pytest.approx(board.line - board.pointer, abs=0.1)
    assert math.dist(east, west) == pytest.approx(2 * ARM, abs=0.2)
    assert math.dist(points[1], points[2]) == pytest.approx(2 * HALF_BREADTH, abs=0.2)
    by_name = {text: (x, y) for x, y, text in texts(svg)}
    assert by_name["east arm"][0] > CX + 100 and by_name["west arm"][0] < CX - 100
    for x, y in (by_name["east arm"], by_name["west arm"]):
        assert 20 <= x <= WIDTH - 20 and 8 <= y <= PLAN - 8


@pytest.mark.parametrize(("board", "step"), CASES)
def test_the_scale_lies_as_the_pointer_reads_it(board, step):
    """The pointer lies level; so the 0 at the east lies as far the other way as the pointer shows."""
    svg = drawn(board, BOX, step, "Board")
    numbers = [(x, y, t) for x, y, t in texts(svg) if y < PLAN and abs(math.hypot(x - CX, y - CY) - NUMBERS) < 0.5]
    assert [t for *_, t in numbers] == ["0", "30", "60", "90", "60", "30"] * 2
    for n, (x, y, _) in enumerate(numbers):
        off = direction(x, y) + board.pointer - 30 * n
        assert (off + 180) % 360 - 180 == pytest.approx(0, abs=0.2)
    rings = re.findall(rf'transform="rotate\({NUMBER} ', svg)
    assert [float(turn) for turn in rings] == pytest.approx([-board.pointer] * 3, abs=0.06)
    dashed = re.search(rf'd="M{NUMBER} {NUMBER}L{NUMBER} {NUMBER}"[^>]*stroke-dasharray="3 3"', svg).groups()
    assert direction(float(dashed[2]), float(dashed[3])) == pytest.approx(-board.pointer, abs=0.1)


@pytest.mark.parametrize(("board", "step"), CASES)
def test_the_needle_stands_north_and_the_pointer_is_square_to_it(board, step):
    svg = drawn(board, BOX, step, "Board")
    x1, y1, x2, y2 = map(
        float, re.search(rf'<path d="M{NUMBER} {NUMBER}L{NUMBER} {NUMBER}" stroke="{re.escape(ACCENT)}"', svg).groups()
    )
    assert y1 == y2 and x1 < CX < x2
    by_text = {t: (x, y) for x, y, t in texts(svg) if y < PLAN}
    assert by_text["①"][0] > CX > by_text["②"][0]
    for letter, colour, sign in (("N", NORTH, -1), ("S", SOUTH, 1)):
        assert sign * (by_text[letter][1] - CY) > 20 and abs(by_text[letter][0] - CX) < 2
        assert re.search(rf'fill="{re.escape(colour)}"[^>]*>{letter}</text>', svg)  # a letter, and not the colour alone


@pytest.mark.parametrize(("board", "step"), CASES)
def test_the_glass_of_the_line_shows_where_it_crosses_the_scale(board, step):
    svg = drawn(board, BOX, step, "Board")
    top, radius = PLAN + 2 * GLASS, math.degrees(PER_DEGREE)
    middle = round(board.line / 5) * 5
    lines = re.findall(
        rf'<path d="M{NUMBER} {NUMBER}L{NUMBER} {NUMBER}" stroke="{re.escape(INK)}" stroke-width="1.2"', svg
    )
    assert len(lines) == 2
    x, y = (sum(float(one[i]) + float(one[i + 2]) for one in lines) / 4 for i in (0, 1))
    found = middle + math.degrees(math.atan2(x - CX, top + 50 + radius - y))
    assert found == pytest.approx(board.line, abs=0.02)
    assert any(t == "arms" and y > top for _, y, t in texts(svg))


@pytest.mark.parametrize(("board", "step"), CASES)
def test_the_words_tell_sides_and_divisions(board, step):
    said = words(board, BOX, step)
    sides = re.findall(r"lies (clockwise|anticlockwise) of its 0", said)
    assert sides == ["clockwise" if x > 0 else "anticlockwise" for x in (board.pointer, board.pointer, board.line)]


def test_one_svg_without_ids_and_its_label_escaped():
    board, step = CASES[0]
    svg = drawn(board, BOX, step, "Board <1>")
    assert " id=" not in svg and "Board &lt;1&gt;" in svg and f'viewBox="0 0 {WIDTH} {PLAN + 3 * GLASS}"' in svg
    assert "One division is half a degree." in svg and "var(--er-ink,#22302f)" in svg
    assert "One division is one degree." in drawn(board, BOX, 1.0, "Board")
    alone = plan(board, 'It <lies> "so"')
    assert f'viewBox="0 0 {WIDTH} {PLAN}"' in alone and "It &lt;lies&gt; &quot;so&quot;" in alone
