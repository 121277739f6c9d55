"""Setting up, and what the readings show when a turn of it is left out."""

from exercises.bench.field import field_from_deflection, moment_end_on
from exercises.bench.instrument import ALONE, Box, Magnet, eight_readings, pointer_ends
from generator.figures.plates import NBSP, table
from generator.figures.theory import B_H

OFF = 5.0  # degrees
SHOULD = (57.7, 44.1, 29.3)  # degrees, what a perfect instrument shows at three distances
D, HALF = 0.20, 0.036  # m; the deflections alone count here
POINT = Box(needle=0.0)
LEFT_OUT = {
    "first-turn": f"first turn left out: box {OFF:.0f}° askew to the arms, pointer at 0–0",
    "pointer": f"pointer {OFF:.0f}° off square to the needle, both turns made",
    "second-turn": f"second turn left out: box parallel, board {OFF:.0f}° off",
    "zero": f"zero error: box moved by {OFF:.0f}° after setting up",
}


def east_and_west(fault: str, theta: float) -> tuple[float, float]:
    """What is read with N east and with N west, in degrees, where a perfect instrument shows theta."""
    magnet = Magnet(moment_end_on(field_from_deflection(theta, B_H), D, HALF), HALF)
    readings = eight_readings(magnet, B_H, D, POINT, ALONE[fault](OFF))
    return readings[0], readings[2]


@table(
    "turns-left-out",
    caption=f"What is read with N east / N west, in degrees, where it should be {SHOULD[0]}°, {SHOULD[1]}° and "
    f"{SHOULD[2]}° both ways. The east arm points north of east, or the pointer rests to the same side; all else is "
    "perfect. If it is off the other way, N east and N west change places.",
)
def turns_left_out() -> str:
    body = ""
    for fault, said in LEFT_OUT.items():
        rest, _ = pointer_ends(0.0, POINT, ALONE[fault](OFF))
        cells = [f"{rest:.0f}°"]
        for theta in SHOULD:
            east, west = east_and_west(fault, theta)
            cells.append(f"{east:.1f}{NBSP}/ {west:.1f}")
        body += f'<tr><th scope="row">{said}</th>' + "".join(f"<td>{c}</td>" for c in cells) + "</tr>"
    heads = ("what is wrong", "pointer at rest", *(f"{theta}°" for theta in SHOULD))
    head = "".join(f'<th scope="col">{h}</th>' for h in heads)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
