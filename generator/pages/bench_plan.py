"""The plan of the page at the bench: the instrument from above, drawn once; the style sheet shows what holds now.

The picture's card says in its data which arm, which way N points and which end is read.  Everything of which there is
one for each of these carries a class, and bench.css shows one of them.
"""

import math

WIDTH, HEIGHT = 320, 112  # of the drawing
X, Y = 160, 54  # the pivot
BOX, TIP, MARK = 36, 33, 47  # from the pivot to the rim of the box, the tip of the pointer, an end's mark
MAGNET, BREADTH, AT = 58, 20, 106  # length and breadth of the magnet, and how far its middle is from the pivot
TURN = 42.0  # degrees: how far the pointer is drawn turned
SIDES = {"east": 1, "west": -1}


def plan() -> str:
    """The drawing; whoever cannot see it has the same in the sentence beside it."""
    parts = (
        f'<svg class="bn-plan" viewBox="0 0 {WIDTH} {HEIGHT}" aria-hidden="true" focusable="false">',
        f'<rect class="bn-plank" x="4" y="{Y - 9}" width="{WIDTH - 8}" height="18" rx="2"/>',
        f'<circle class="bn-box" cx="{X}" cy="{Y}" r="{BOX}"/>',
        f'<line class="bn-rest" x1="{X - BOX}" y1="{Y}" x2="{X + BOX}" y2="{Y}"/>',
        _letter(12, Y - 16, "W"),
        _letter(WIDTH - 12, Y - 16, "E"),
        *(_magnet(arm, north) for arm in SIDES for north in SIDES),
        *(_distance(arm) for arm in SIDES),
        *(_pointer(north) for north in SIDES),
        "</svg>",
    )
    return "".join(parts)


def _letter(x: float, y: float, letter: str, kind: str = "bn-letter") -> str:
    return f'<text class="{kind}" x="{x:g}" y="{y:g}">{letter}</text>'


def _magnet(arm: str, north: str) -> str:
    """The bar on an arm, its halves coloured and lettered."""
    x = X + SIDES[arm] * AT
    poles = ""
    for letter, kind, side in (("N", "bn-north", SIDES[north]), ("S", "bn-south", -SIDES[north])):
        left = x if side > 0 else x - MAGNET / 2
        poles += (
            f'<rect class="{kind}" x="{left:g}" y="{Y - BREADTH / 2:g}" width="{MAGNET / 2:g}" height="{BREADTH}"/>'
        )
        poles += _letter(x + side * MAGNET / 4, Y + 5.5, letter, "bn-pole")
    return f'<g class="bn-magnet bn-{arm}-{north}">{poles}</g>'


def _distance(arm: str) -> str:
    """The distance d, from the pivot to the middle of the bar."""
    x, y = X + SIDES[arm] * AT, HEIGHT - 8
    line = f'<path class="bn-span" d="M{X} {Y + BOX + 6}V{y + 4}M{X} {y}H{x}M{x} {Y + BREADTH}V{y + 4}"/>'
    return f'<g class="bn-distance bn-arm-{arm}">{line}{_letter((X + x) / 2 + SIDES[arm] * 16, y - 5, "d")}</g>'


def _pointer(north: str) -> str:
    """The pointer as it stands with N pointing that way, its two ends marked; end ① points east at rest."""
    turn = math.radians(TURN * SIDES[north])
    x, y = math.cos(turn), math.sin(turn)
    line = (
        f'<line class="bn-pointer" x1="{X - TIP * x:.1f}" y1="{Y - TIP * y:.1f}" '
        f'x2="{X + TIP * x:.1f}" y2="{Y + TIP * y:.1f}"/>'
    )
    ends = ""
    for end, side in ((1, 1), (2, -1)):
        cx, cy = X + side * MARK * x, Y + side * MARK * y
        ends += (
            f'<g class="bn-end bn-end-{end}"><circle cx="{cx:.1f}" cy="{cy:.1f}" r="9.5"/>'
            f"{_letter(cx, cy + 4.5, str(end), 'bn-number')}</g>"
        )
    return f'<g class="bn-turned bn-n-{north}">{line}{ends}</g>'
