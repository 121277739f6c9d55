"""The settings of a class in words, as the command line and the class desk both take them."""

from collections.abc import Iterable, Mapping

from exercises.bench.local_field import PLACES
from exercises.classroom.class_list.class_file import ClassError, Task, place_number, task
from exercises.codes.sheet_code import Setting

#: What may be fixed for a kind, by the word for it, and what the word stands for.
WORDS = {"place": "place", "step": "scale step", "length": "length in mm", "distances": "number of distances"}
OPEN = "open"  # left to the draw, where all other kinds have it fixed


def setting_from(words: Mapping[str, str]) -> Setting:
    """The setting of {word of WORDS: text}; a blank text or OPEN leaves it to the draw.  ClassError if it cannot be.

    >>> setting_from({"place": "Bergen", "step": "0.5", "length": OPEN})
    Setting(place=3, scale_step=0.5, distances=None, length_mm=None)
    """
    if other := next((w for w in words if w not in WORDS), None):
        raise ClassError(f"There is no setting “{other[:40]}”. There are: {', '.join(WORDS)}.", "kinds")
    fixed = {w: t.strip() for w, t in words.items() if t.strip() and t.strip().lower() != OPEN}
    return Setting(
        place_number(fixed["place"]) if "place" in fixed else None,
        _number(fixed, "step", float),
        _number(fixed, "distances", int),
        _number(fixed, "length", int),
    )


def tasks_from(
    slugs: Iterable[str], common: Mapping[str, str], own: Mapping[str, Mapping[str, str]] | None = None
) -> tuple[Task, ...]:
    """A task for each kind named, in that order.  ClassError, with a sentence, if one cannot be set.

    common  words that hold for every kind; own  by kind, words that take their place for that one
    """
    own = own or {}
    return tuple(
        task(slug, setting_from({**common, **{w: t for w, t in own.get(slug, {}).items() if t.strip()}}))
        for slug in dict.fromkeys(slugs)
    )


def words_of(setting: Setting) -> dict[str, str]:
    """The words that a setting is given with, as setting_from takes them; OPEN for what is left to the draw."""
    step = None if setting.scale_step is None else f"{setting.scale_step:g}"
    place = None if setting.place is None else PLACES[setting.place].name
    chosen = (place, step, setting.length_mm, setting.distances)
    return {word: OPEN if c is None else str(c) for word, c in zip(WORDS, chosen, strict=True)}


def _number[N: (int, float)](fixed: Mapping[str, str], word: str, kind: type[N]) -> N | None:
    if word not in fixed:
        return None
    try:
        return kind(fixed[word])
    except ValueError:
        whole = "whole " if kind is int else ""
        told = f"The {WORDS[word]} must be a {whole}number; “{fixed[word][:40]}” is not."
        raise ClassError(told, "kinds") from None
