"""How each step of looking for a fault looks with its numbers put in."""

from collections.abc import Sequence

from exercises.bench.instrument import PATTERNS
from exercises.kinds.fault.choices import Choice
from exercises.kinds.fault.formulas import halves, misread
from exercises.working.arithmetic import total
from exercises.working.numbers import centimetres, figures, places, reading
from exercises.working.steps import Givens, Known, WorkedLine

NAMES = {
    "ends": "① less ②",
    "north": "N east less N west",
    "arms": "east arm less west arm",
    "outward": "N outward less N inward",
}


def difference(pattern: str, row: int) -> WorkedLine:
    """How far the two means of four differ."""

    def line(known: Known, givens: Givens) -> str:
        one, two = halves(pattern, givens["readings"][row])
        return (
            f"{NAMES[pattern]}: {reading(one)}/4 − {reading(two)}/4 = {reading(one / 4)} − {reading(two / 4)}; "
            f"they differ by {reading(abs(one - two) / 4)}°"
        )

    return line


def choice(id: str, title: str, choices: Sequence[Choice]) -> WorkedLine:
    """The title of a step, and the label of what is chosen there."""
    labels = {key: label for key, label, _ in choices}
    return lambda known, givens: f"{title} – {labels[known[id]]}"


def best_mean(row: int) -> WorkedLine:
    """The mean of a row's readings without the one that is misread."""

    def line(known: Known, givens: Givens) -> str:
        readings, wrong = givens["readings"][row], misread(known, givens, row)
        kept = [r for i, r in enumerate(readings) if i != wrong]
        without = "" if wrong is None else f" (without the {reading(readings[wrong])}°)"
        return (
            f"θ at {centimetres(givens['d'][row])} cm = ({' + '.join(map(reading, kept))}) / {len(kept)} = "
            f"{places(total(kept) / len(kept), 2)}°{without}"
        )

    return line


def half(known: Known, givens: Givens) -> str:
    """Half the largest of the four differences."""
    largest = max(known[f"{pattern}-near"] for pattern in PATTERNS)
    return f"half the largest: {reading(largest)}° / 2 = {places(known['half'], 2)}°"


def shift(known: Known, givens: Givens) -> str:
    """The shift that would do that."""
    d, l = givens["d"][0], givens["two_l"] / 2
    theta = places(known["mean-1"], 1)
    return (
        f"shift = {places(known['half'], 2)} × π/180 × {figures(d)} × ({figures(d)}² − {figures(l)}²) / "
        f"((3 × {figures(d)}² + {figures(l)}²) × sin {theta}° × cos {theta}°) = {centimetres(known['shift'], 2)} cm"
    )
