"""What the headings of a class list mean: the words of the trade (common practice, no source)."""

import re
import unicodedata
from typing import Literal, NamedTuple

Use = Literal["roll", "serial", "name", "part", "section"]


class Meaning(NamedTuple):
    """What a column is by its heading.

    use   "name" is a whole name, "part" a part of one, "serial" the number of a line in the list
    rank  the higher is taken where several columns of a list have the same use
    """

    use: Use
    rank: int


ROLL, ENROLLED, NUMBER, LOGIN = 4, 3, 2, 1  # ranks of rolls
FULL, NAME, PERSON = 3, 2, 1  # ranks of whole names


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


_NUMBER = _set("no nos number num nr id identity identification code numero numer nummer n")
_SERIAL = _set("s sr sl ser serial sno srno slno sn si row lfd")
_ROLL = _set("roll rolls")
_ENROLLED = _set(
    "enrolment enrollment enrol enroll enrl enr register registration reg regn regd admission admn adm seat hallticket "
    "ticket matriculation matric matricula matricule matrikel matrikelnummer "
    "prn usn urn uin uid gr grn sid srn scholar index symbol"
)
_LOGIN = _set("username login userid user")
_APPLIED = _set("application applicant form")
_PERSON = _set("student students candidate candidates learner learners trainee pupil")
_ROUND_A_ROLL = _PERSON | _set(
    "the of s class exam examination university univ uni college board permanent general hall "
    "temporary current your card etudiant"
)
_ROUND_A_NAME = _PERSON | _set(
    "the of s full complete in capital capitals block letters as per record records certificate"
)
_NAME = _set("name names nombre nome nom")
_GIVEN = _set("first given fore forename forenames firstname vorname prenom prenoms christian")
_LAST = _set("last family surname surnames lastname nachname familienname apellido apellidos cognome sobrenome")
_MIDDLE = _set("middle initial initials")
_JOINED = _set("and y e und et")
_SECTIONS = (_set("section sec sektion"), _set("division div"), _set("group grp groupe grupo gruppe"), _set("batch"))
_ROUND_A_SECTION = _NUMBER | _set("class lab laboratory practical practicals tutorial tut name of the")
_STEMS = sorted(_ROLL | _ENROLLED | _PERSON | _SERIAL, key=len, reverse=True)


def words(heading: str) -> tuple[str, ...]:
    """The words of a heading as they are compared: "RollNo." and "roll_no" are both roll, no.

    >>> words("S. No."), words("EnrolmentNo"), words("Prénom")
    (('s', 'no'), ('enrolment', 'no'), ('prenom',))
    """
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", unicodedata.normalize("NFKC", heading))
    plain = "".join(c for c in unicodedata.normalize("NFKD", apart.casefold()) if not unicodedata.combining(c))
    found: list[str] = []
    for word in re.sub(r"[\W_]+", " ", plain).split():
        stem = next((s for s in _STEMS if word.startswith(s) and word[len(s) :] in _NUMBER), None)
        found += [stem, word[len(stem) :]] if stem and word not in _ENROLLED else [word]
    return tuple(found)


def meaning(heading: str) -> Meaning | None:
    """What a heading says of its column; None where it is neither roll, name nor section.

    >>> meaning("Name of the Student"), meaning("Father's name"), meaning("Sl. No.")
    (Meaning(use='name', rank=3), None, Meaning(use='serial', rank=0))
    """
    said = frozenset(words(heading))
    if heading.strip() in ("#", "№", "Nº", "N°"):
        return Meaning("serial", 0)
    if not said:
        return None
    if said & _SERIAL and said <= _SERIAL | _NUMBER:
        return Meaning("serial", 0)
    return _roll(said) or _name(said) or _section(said)


def _roll(said: frozenset[str]) -> Meaning | None:
    if said & _LOGIN:
        return Meaning("roll", LOGIN) if said <= _LOGIN | _NUMBER | _PERSON | {"name"} else None
    if not said <= _ROLL | _ENROLLED | _APPLIED | _NUMBER | _ROUND_A_ROLL:
        return None
    if said & _APPLIED:
        return Meaning("roll", LOGIN) if said & _NUMBER else None
    if said & _ROLL:
        return Meaning("roll", ROLL)
    if said & _ENROLLED:
        return Meaning("roll", NUMBER if said == {"index"} else ENROLLED)
    if said & _NUMBER and said & (_ROUND_A_ROLL - {"the", "of", "s"}):
        return Meaning("roll", ENROLLED)
    return Meaning("roll", NUMBER) if said <= _NUMBER else None


def _name(said: frozenset[str]) -> Meaning | None:
    core = said - _ROUND_A_NAME
    parts = [part for part in (_GIVEN, _LAST, _MIDDLE) if core & part]
    if core and not core <= _NAME | _GIVEN | _LAST | _MIDDLE | _JOINED:
        return None
    if len(parts) == 1:
        return Meaning("part", 0)
    if parts:
        return Meaning("name", FULL)
    if core & _NAME:
        return Meaning("name", FULL if said & _ROUND_A_NAME else NAME)
    return Meaning("name", PERSON) if said & _PERSON and said <= _PERSON | {"the", "of", "s"} else None


def _section(said: frozenset[str]) -> Meaning | None:
    ranks = [rank for rank, of in zip((4, 3, 2, 1), _SECTIONS) if said & of]
    return Meaning("section", ranks[0]) if ranks and said <= frozenset().union(*_SECTIONS) | _ROUND_A_SECTION else None
