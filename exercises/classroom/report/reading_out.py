"""The report in sentences that can be read aloud to the class: plain, exact, and about nobody in particular."""

import math

from exercises.classroom.report.counts import FEW, KindReport, Report, Spread, StepCount
from exercises.working.words import listed, many

WELL = 0.9  # share of right entries from which a step is said to have gone well
UNEVEN = 3.0  # standard errors by which a distance must differ from another to be told
ENOUGH = 100  # entries from which shares are told, and not numbers


def paragraphs(report: Report) -> list[str]:
    """A paragraph for each kind, in their order."""
    return [_paragraph(kind, report.attempt) for kind in report.kinds]


def passage(read: str) -> str:
    """The name of a passage from its address.

    >>> passage("before/field-end-on/#the-bracket-is-squared")
    'The bracket is squared'
    """
    page, _, anchor = read.partition("#")
    words = (anchor or page.strip("/").rpartition("/")[2]).replace("-", " ")
    return words[:1].upper() + words[1:]


def caution(sheets: int) -> str:
    """What to think of before a report on few sheets is shown, or ""."""
    if not 0 < sheets < FEW:
        return ""
    return f"With {many(sheets, 'sheet')} a count can point at a person. Think of that before showing it."


def _paragraph(kind: KindReport, attempt: str) -> str:
    said = [f"{kind.kind.title}.", _handed(kind)]
    if kind.sheets >= FEW:
        said += [_entries(kind, attempt), _well(kind), _missed(kind), _slip(kind), _uneven(kind), _blank(kind)]
        said += [_spread(spread) for spread in kind.spreads[:1]] + [_tries(kind)]
    elif kind.sheets:
        said.append("That is too few to speak of in counts, for a count could point at a person.")
        said.append(_reading(kind))
    return " ".join(sentence for sentence in said if sentence)


def _handed(kind: KindReport) -> str:
    if not kind.sheets:
        return "Nothing has been handed in yet."
    if kind.sheets == kind.students:
        return "Everyone in the class handed in." if kind.students > 1 else "The one student of the class handed in."
    return f"Of {many(kind.students, 'student')} {kind.sheets:,} handed in."


def _entries(kind: KindReport, attempt: str) -> str:
    counts = kind.counts
    first = ", as they were first typed," if attempt == "first" else ""
    if counts.all < ENOUGH:
        base, scale = f"Of {many(counts.all, 'entry', 'entries')}{first}", 1.0
    else:
        base, scale = f"Of every 100 entries{first}", 100 / counts.all
    right, follows = round(counts.right * scale), round(counts.follows * scale)
    more = (
        f", and {follows} more {'follows' if follows == 1 else 'follow'} rightly from a wrong start" if follows else ""
    )
    return f"{base} {right} {'is' if right == 1 else 'are'} right{more}."


def _well(kind: KindReport) -> str:
    shares = {c.label: c.counts.right / c.counts.all for c in kind.columns}
    good = [label for label, share in shares.items() if share >= WELL]
    if len(good) == len(shares):
        return "Every step went well."
    best = sorted(sorted(good, key=lambda label: -shares[label])[:3], key=good.index)
    return f"What went well: {_quoted(best)}." if best else ""


def _quoted(labels: list[str]) -> str:
    return listed([f"“{label}”" for label in labels])


def _missed(kind: KindReport) -> str:
    worst = max(kind.columns, key=lambda c: (c.sheets, c.counts.missed))
    if not worst.sheets:
        return "No entry was missed."
    often = f"on {worst.sheets:,} of {many(kind.sheets, 'sheet')}"
    where = " in at least one place" if worst.counts.all > kind.sheets else ""
    alike = [c.label for c in kind.columns if c is not worst and c.sheets == worst.sheets]
    also = f" (and as often {_quoted(alike[:2])})" if alike else ""
    return f"The step most often missed is “{worst.label}”{also}: {often} it is not right{where}."


def _slip(kind: KindReport) -> str:
    named = [s for s in kind.slips if s.sheets > 1]
    if not named:
        return "No slip was made on more than one sheet." if kind.slips else ""
    first, second = named[0], named[1] if len(named) > 1 else None
    said = f"The slip seen most is “{first.name}”, on {many(first.sheets, 'sheet')}"
    if second is None or 2 * second.sheets < first.sheets:
        return f"{said}; read “{passage(first.read)}”."
    if first.read == second.read:
        return f"{said}, then “{second.name}”, on {second.sheets:,}; for both read “{passage(first.read)}”."
    return (
        f"{said}; read “{passage(first.read)}”. "
        f"Next is “{second.name}”, on {second.sheets:,}; read “{passage(second.read)}”."
    )


def _reading(kind: KindReport) -> str:
    places = list(dict.fromkeys(f"“{passage(s.read)}”" for s in kind.slips))[:3]
    return f"Worth reading again: {listed(places)}." if places else ""


def _uneven(kind: KindReport) -> str:
    """Where one of the like parts of the sheet, such as the distances, gave more trouble than another."""
    alike = _alike(kind)
    if len(alike) < 2:
        return ""
    share = {p.label: p.counts.missed / p.counts.all for p in alike}
    worst, best = max(alike, key=lambda p: share[p.label]), min(alike, key=lambda p: share[p.label])
    both = (worst.counts.missed + best.counts.missed) / (worst.counts.all + best.counts.all)
    error = math.sqrt(both * (1 - both) * (1 / worst.counts.all + 1 / best.counts.all))
    if worst.sheets < FEW or share[worst.label] - share[best.label] <= UNEVEN * error:
        return ""
    return (
        f"{worst.label} gave more trouble than {best.label}: {worst.counts.missed:,} of "
        f"{many(worst.counts.all, 'entry', 'entries')} missed, against {best.counts.missed:,} of {best.counts.all:,}."
    )


def _alike(kind: KindReport) -> list[StepCount]:
    """The parts of the first row of like parts: Distance 1, Distance 2."""
    series = next((part.series for part in kind.parts if part.series), None)
    return [part for part in kind.parts if part.series and part.series == series]


def _blank(kind: KindReport) -> str:
    worst = max(kind.columns, key=lambda c: c.counts.blank)
    share = worst.counts.blank / worst.counts.all
    if share < 0.1:
        return ""
    return (
        f"Most often left blank is “{worst.label}”: {worst.counts.blank:,} of "
        f"{many(worst.counts.all, 'entry', 'entries')}."
    )


def _spread(spread: Spread) -> str:
    if len(spread.near) < FEW:
        return ""
    low, _, high = spread.quartiles
    near, among = f"{len(spread.near):,} lie", "the middle half of these "
    if len(spread.near) == spread.all:
        near, among = "all lie", "the middle half "
    said = (
        f"Of the {spread.all:,} values found for “{spread.label}” {near} within a factor of two of the right one, "
        f"{among}{_between(low, high)}."
    )
    if spread.powers:
        said += f" {spread.powers:,} {'is' if spread.powers == 1 else 'are'} out by a power of ten: look at the units."
    if spread.far:
        said += f" {spread.far:,} {'is' if spread.far == 1 else 'are'} out by a factor of two or more in another way."
    return said


def _between(low: float, high: float) -> str:
    if max(abs(low), abs(high)) < 0.5:
        return "within half a per cent of it"
    return f"between {_away(low)} and {_away(high)}"


def _away(percent: float) -> str:
    size = f"{abs(percent):.1f}".removesuffix(".0")
    return f"{size} % {'below' if percent < 0 else 'above'}"


def _tries(kind: KindReport) -> str:
    tries = kind.tries
    if tries is None or not tries.stood + tries.corrected:
        return ""
    good = tries.stood + tries.corrected
    changed, of = tries.corrected, many(good, "entry", "entries")
    if good >= ENOUGH:
        changed, of = round(100 * changed / good), "every 100 entries"
    return f"Of {of} that came right {changed:,} had first been typed otherwise."
