"""What a laboratory's settings say of a record: how 2l is known, B_H, and the scale step, where cells are blank."""

from collections.abc import Callable, Mapping

from exercises.bench.local_field import PLACES
from exercises.codes.sheet_code import Setting, Station
from exercises.record.entries import Record
from exercises.record.magnetic_length import CELL, FIVE_SIXTHS, STATED, WORDS, rule_named

OF_THE_FIELD = ("B_H", "place", "latitude", "longitude")  # any of these says what B_H is, or where


def taken(setting: Setting, head: Mapping[str, str]) -> dict[str, str]:
    """The cells of the head that the settings fill, by key; none that is filled already."""

    def blank(*keys: str) -> bool:
        return not any(head.get(key, "").strip() for key in keys)

    cells = {}
    # a 2l that was typed says itself how it is known
    if blank(CELL) and (blank("two_l") or setting.two_l == STATED):
        cells[CELL] = setting.two_l
    if blank(*OF_THE_FIELD):
        if isinstance(setting.field, Station):
            cells["place"] = PLACES[setting.field.place].name
            if blank("date"):
                cells["date"] = f"{setting.field.year}-{setting.field.month:02d}"
        elif setting.field is not None:
            cells["B_H"] = f"{setting.field:.1f}"
    if blank("step") and setting.scale_step:
        cells["step"] = f"{setting.scale_step:g}"
    return cells


def otherwise(setting: Setting, head: Mapping[str, str]) -> dict[str, str]:
    """What the settings have for cells of the head that say something else, by key; none where that is not certain."""
    text = {key: head.get(key, "").strip() for key in (CELL, "two_l", "step", *OF_THE_FIELD)}
    cells = {}
    rule = rule_named(text[CELL])
    if (rule is not None and rule.key != setting.two_l) or (
        not text[CELL] and text["two_l"] and setting.two_l != STATED
    ):
        cells[CELL] = setting.two_l
    if isinstance(setting.field, Station):
        place = PLACES[setting.field.place].name
        if text["place"] and text["place"].casefold() != place.casefold():
            cells["place"] = place
    elif setting.field is not None:
        elsewhere = not text["B_H"] and (text["place"] or text["latitude"])
        if elsewhere or _is_another(text["B_H"], setting.field):
            cells["B_H"] = f"{setting.field:.1f}"
    if setting.scale_step and _is_another(text["step"], setting.scale_step):
        cells["step"] = f"{setting.scale_step:g}"
    return cells


def _is_another(text: str, number: float) -> bool:
    """Whether a text is a bare number, and not this one."""
    try:
        return abs(float(text.replace(",", ".")) - number) > 1e-6
    except ValueError:
        return False


_SAID: dict[str, Callable[[str], str]] = {
    CELL: lambda x: f"2l is {WORDS[x]}",
    "B_H": lambda x: f"the horizontal field is {x} µT",
    "place": lambda x: f"the place is {x}",
    "date": lambda x: f"the date is {x}",
    "step": lambda x: f"the scale step is {x}°",
}


def notes_of(setting: Setting, head: Mapping[str, str]) -> tuple[str, ...]:
    """What is taken from a laboratory's settings, and what they have that the record says otherwise, as notes."""

    def listed(cells: Mapping[str, str]) -> str:
        return ", ".join(_SAID[key](text) for key, text in cells.items())

    notes = []
    if cells := taken(setting, head):
        notes.append(
            f"Taken from your laboratory’s settings: {listed(cells)}. Change what does not hold for this record."
        )
    if cells := otherwise(setting, head):
        notes.append(
            f"Your laboratory’s settings say otherwise than this record: {listed(cells)}. What stands in the record "
            "was kept. Change it if it is not meant."
        )
    return tuple(notes)


def with_settings(record: Record, setting: Setting | None) -> tuple[Record, tuple[str, ...]]:
    """A record from a file with its blank cells filled by the settings, and notes of what was taken and what differs.

    setting  None where no laboratory is known: a record with a measured length alone is then read with 5/6 of it, as
             records were before they had a line for how 2l is known
    """
    named = rule_named(record.head.get(CELL, ""))
    if named is not None:
        record = Record({**record.head, CELL: named.key}, record.rows)
    if setting is not None:
        return Record({**record.head, **taken(setting, record.head)}, record.rows), notes_of(setting, record.head)
    head = {key: record.head.get(key, "").strip() for key in (CELL, "two_l", "length")}
    if head[CELL] or head["two_l"] or not head["length"]:
        return record, ()
    note = (
        f"This record does not say how 2l is known, so 2l is taken as {WORDS[FIVE_SIXTHS]}. If your laboratory takes "
        "the length given, or states 2l, say so."
    )
    return Record({**record.head, CELL: FIVE_SIXTHS}, record.rows), (note,)
