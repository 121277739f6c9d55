"""What a laboratory's settings say of a record: how 2l is known, B_H, and the scale step, where cells are blank."""

from collections.abc import Mapping

from exercises.bench.local_field import PLACES
from exercises.codes.sheet_code import Setting, Station
from exercises.record.entries import Record
from exercises.record.magnetic_length import CELL, FIVE_SIXTHS, WORDS, rule_named

OF_THE_FIELD = ("B_H", "place", "latitude", "longitude")  # any of these says what B_H is, or where


def taken(setting: Setting, head: Mapping[str, str]) -> dict[str, str]:
    """The cells of the head that the settings fill, by key; none that is filled already."""

    def blank(*keys: str) -> bool:
        return not any(head.get(key, "").strip() for key in keys)

    cells = {}
    # a 2l that was typed says itself how it is known
    if blank(CELL) and (blank("two_l") or setting.two_l == Setting().two_l):
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


def said(cells: Mapping[str, str]) -> str:
    """What was taken from a laboratory's settings, as a note; "" for nothing."""
    if not cells:
        return ""
    words = {
        CELL: lambda x: f"2l is {WORDS[x]}",
        "B_H": lambda x: f"the horizontal field is {x} µT",
        "place": lambda x: f"the place is {x}",
        "date": lambda x: f"the date is {x}",
        "step": lambda x: f"the scale step is {x}°",
    }
    listed = ", ".join(words[key](text) for key, text in cells.items())
    return f"Taken from your laboratory’s settings: {listed}. Change what does not hold for this record."


def with_settings(record: Record, setting: Setting | None) -> tuple[Record, tuple[str, ...]]:
    """A record from a file with its blank cells filled by the settings, and a note of what was taken.

    setting  None where no laboratory is known: a record with a measured length alone is then read with 5/6 of it, as
             records were before they had a line for how 2l is known
    """
    named = rule_named(record.head.get(CELL, ""))
    if named is not None:
        record = Record({**record.head, CELL: named.key}, record.rows)
    if setting is not None:
        cells = taken(setting, record.head)
        return Record({**record.head, **cells}, record.rows), tuple(filter(None, (said(cells),)))
    head = {key: record.head.get(key, "").strip() for key in (CELL, "two_l", "length")}
    if head[CELL] or head["two_l"] or not head["length"]:
        return record, ()
    note = (
        f"This record does not say how 2l is known, so 2l is taken as {WORDS[FIVE_SIXTHS]}. If your laboratory takes "
        "the length given, or states 2l, say so."
    )
    return Record({**record.head, CELL: FIVE_SIXTHS}, record.rows), (note,)
