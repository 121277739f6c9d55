"""Random strings, and everywhere that a person, a file or the browser's memory can put one.

The strings are drawn from a seed: near what is expected, of any letters and
marks of Unicode, long repeats that a regular expression could choke on, and
what looks like JSON.
"""

import json
import random
import sys
import unicodedata
from collections.abc import Callable
from dataclasses import replace
from functools import cache

from exercises.classroom.class_list import class_file
from exercises.classroom.desk import by_hand as desk_by_hand
from exercises.classroom.desk import classes as desk
from exercises.classroom.desk import list_preview as desk_list
from exercises.classroom.desk import marks as desk_marks
from exercises.classroom.desk import marks_file as desk_marks_file
from exercises.classroom.desk import returned as desk_returned
from exercises.classroom.desk import scheme_form as desk_scheme
from exercises.classroom.marking import by_hand, marks_file
from exercises.codes.conventions import BY_KEY
from exercises.judging.answer import Unreadable, read
from exercises.judging.verdict import judge_all
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written as as_written
from exercises.record import file, page
from exercises.record.beside import page as beside
from exercises.return_slip.text import ReturnSlip, return_slip_text, return_slips_in
from exercises.student import desk as student
from exercises.working.quantities import QUANTITIES
from tests.exercises.classwork import a_class
from tests.exercises.golden import codes_of

LONGEST = 400  # characters of most strings; a few are longer, and one in a hundred far longer
PIECES = (
    *"0123456789",
    "12",
    "45.2",
    "1.62",
    "0,5",
    "1 234",
    "1,234",
    ".",
    ",",
    "..",
    ". ",
    " .",
    "-",
    "+",
    "−",
    "–",
    "e",
    "e-3",
    "E+",
    "×",
    "x",
    "*",
    "·",
    "10",
    "^",
    "**",
    "10^-3",
    " × 10⁻³",
    "x10",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "((",
    "^(-3)",
    "⁻³",
    "⁴",
    "²",
    "½",
    "°",
    "º",
    "'",
    "″",
    "±",
    "%",
    "/",
    "//",
    " ",
    "  ",
    "\t",
    "\n",
    "\r\n",
    "\xa0",
    "\u2009",
    "\u200b",
    "\ufeff",
    "\u202e",
    "\0",
    "A",
    "m",
    "T",
    "µ",
    "μ",
    "u",
    "A·m²",
    "A m^2",
    "J/T",
    "cm",
    "kg",
    "rad",
    "sin",
    "tan",
    "sqrt",
    "√",
    "π",
    "=",
    "<",
    ">",
    "&",
    "nan",
    "inf",
    "0x",
    "1e400",
    "١٢٣",
    "４５．２",
    "१२",
    "\u0301",
    "e\u0301",
    "ﬁ",
    "ẞ",
    "İ",
    "\ud800",
    "\U0001f9ed",
    "東",
    "שלום",
    "'",
    '"',
    ";",
    ":",
    "|",
    "\\",
    "`",
    "_",
    "~",
    "#",
    "?code=",
    "$",
    "@",
)
REPEATED = (
    "1 ",
    "1",
    ".",
    ",",
    "1,",
    "1.",
    " . ",
    " ×10^",
    "x10^1",
    "*10**",
    "(",
    ")",
    "[",
    "[]",
    "{",
    "{^1}",
    "{a",
    "^",
    "**",
    "e",
    "e1",
    "-",
    " ",
    "\t",
    "\n",
    "\u0301",
    "m",
    "m ",
    "m x ",
    "m^2",
    "\xa0",
    "\u200b",
    "²",
    "⁻",
    "10⁻³",
    "°",
    "½",
    "\\",
    '"',
    '",',
    "'",
    "=",
    ";",
    "a:",
    "01 a: 1 [aa] ",
    "> ",
    "1 - ",
    "1-9,",
    "ﬃ",
    "ﷺ",
    "A2",
    "eight readings return slip 1 ",
    "end of slip 1 lines ",
    "eight . ",
    "0",
    "٠",
    "\ud800",
    '{"a":',
    "sep=",
    "é",
    "[22]",
    "1[",
    "d (",
    "d(",
    "code=",
    "A",
    "/",
    "m/",
    "\r",
)
JSON_LIKE = (
    "null",
    "true",
    "[]",
    "{}",
    '""',
    "[[[[",
    '{"turn":',
    "-0",
    "1e999",
    "NaN",
    '{"rows":[',
    '"\\ud800"',
    "[1,",
    '{"a":{}}',
)


@cache
def _letters() -> tuple[str, ...]:
    """Some characters of every category of Unicode."""
    found: dict[str, list[str]] = {}
    for at in range(0, sys.maxunicode, 7):
        found.setdefault(unicodedata.category(chr(at)), []).append(chr(at))
    return tuple(c for many in found.values() for c in many[:: max(1, len(many) // 40)])


def text(chance: random.Random) -> str:
    """One random string."""
    way = chance.random()
    if way < 0.45:
        return "".join(chance.choices(PIECES, k=chance.randint(0, 12)))
    if way < 0.6:  # a good answer, with something put in or taken out
        made = list(
            f"{chance.choice((1, 1, -1)) * 10 ** chance.uniform(-6, 6):.{chance.randint(1, 6)}g} "
            + chance.choice([q.shown for q in QUANTITIES.values()])
        )
        for _ in range(chance.randint(0, 3)):
            made.insert(chance.randint(0, len(made)), chance.choice(PIECES))
            made.pop(chance.randrange(len(made)))
        return "".join(made)
    if way < 0.75:
        return "".join(chance.choices(_letters(), k=chance.randint(1, chance.choice((3, 60, 61)))))
    if way < 0.95:
        one = chance.choice(REPEATED)
        many = (
            chance.choice((5, 20, 59, 60, 61, LONGEST, LONGEST, 20_000 if chance.random() < 0.2 else 60)) // len(one)
            + 1
        )
        return (
            chance.choice(("", "1", "1.", "A ", "-")) + one * many + chance.choice(("", "", "x", "1", "!", "\n", " m"))
        )
    return "".join(chance.choices((*JSON_LIKE, *PIECES), k=chance.randint(1, 8)))


def value(chance: random.Random, deep: int = 3):
    """Any value that JSON can hold, as it could stand in the browser's memory."""
    way = chance.randrange(8 if deep else 6)
    if way < 2:
        return text(chance)[:LONGEST]
    if way < 6:
        return chance.choice((None, True, False, 0, -1, 3, 0.5, -2.5, 1e308, 10**30, -(10**400), [], {}, ""))
    if way == 6:
        return [value(chance, deep - 1) for _ in range(chance.randint(0, 4))]
    words = (
        "turn",
        "cards",
        "box",
        "due",
        "tan-a/mean",
        "head",
        "rows",
        "readings",
        "d",
        "B_H",
        "zero_error",
        "pivot_x",
        "x",
    )
    return {chance.choice(words): value(chance, deep - 1) for _ in range(chance.randint(0, 4))}


# ---- where a string goes ----------------------------------------------------


def said(answer: str) -> dict:
    """An answer of Python's, held to what JavaScript reads: JSON proper, and an object."""
    found = json.loads(answer, parse_constant=_refuse)
    assert isinstance(found, dict)
    return found


def _refuse(word: str):
    raise AssertionError(f"{word} is no JSON")


def _whole(given: str) -> str:
    """A text as a slip carries it: half a character becomes the mark for one that is not known."""
    return given.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


@cache
def _class_text() -> str:
    return class_file.class_text(a_class(3, ("tan-a", "dial")))


def _class() -> str:
    """The handle of a class that is open on the class desk, opened again each time: only the last few are kept."""
    return json.loads(desk.open_file(_class_text()))["session"]


@cache
def _slip() -> str:
    code = codes_of("A")[0]
    return return_slip_text(
        ReturnSlip("7", code, {"mean-1": "45.2°", "mean-moment": "1.62 × 10⁻³ A·m²"}, {"mean-1": "44"})
    )


def _read(quantity: str) -> Callable:
    def one(chance, given):
        try:
            read(given, quantity)
        except Unreadable as error:
            assert str(error).endswith((".", "?"))

    return one


def _sheet(slug: str) -> Callable:
    """A whole sheet with strings in every step, half of which are numbers, some of these near the right ones."""

    def one(chance, given):
        code = chance.choice(codes_of(all_kinds()[slug].letter)[:8])
        sheet = open_code(code)
        working = sheet.working
        values, strange = working.all_values(), chance.random()
        entries = {}
        for step in working.steps:
            if chance.random() < strange:
                entries[step.id] = text(chance)
            elif step.choices:
                entries[step.id] = chance.choice(step.choices)[0]
            else:
                far = chance.choice((chance.uniform(0.5, 2), 10 ** chance.uniform(-5, 5), 1, -1, 0))
                entries[step.id] = as_written(values[step.id] * far, step)
        entries[chance.choice(list(entries))] = given
        assert judge_all(working, sheet.slips, entries).keys() == entries.keys()

    return one


def _mixed(whole: Callable[[], str]) -> Callable:
    """A good text with a string put into it, in the place of some of it."""

    def one(chance, given):
        made = whole()
        at = chance.randrange(len(made))
        return made[:at] + given + made[at + chance.choice((0, 0, 1, 5, 50)) :]

    return one


def _either(chance, given: str, whole: Callable[[], str]) -> str:
    return given if chance.random() < 0.3 else _mixed(whole)(chance, given)


def _record_cells(chance, given):
    row = {
        c: text(chance)[:LONGEST] if chance.random() < 0.3 else f"{chance.uniform(0, 60):.3g}"
        for c in ("d", "mean", "tan", "bracket", "moment")
    }
    row["d"] = chance.choice((row["d"], "17.5", given))
    rows = [
        {**row, "readings": [chance.choice((f"{chance.uniform(20, 70):.1f}", given)) for _ in range(8)]}
        for _ in range(chance.randint(0, 4))
    ]
    head = {
        key: chance.choice((text(chance)[:LONGEST], "8.0", "36"))
        for key in ("length", "B_H", "step", "place", "pole", "mean-moment", "position")
    }
    said(page.blank(given))
    for ask in (page.check, page.save):
        said(ask(json.dumps({"head": {**head, "name": given}, "rows": rows})))


def _bench(chance, given):
    def strange(good: str) -> str:
        return chance.choice((good, good, text(chance)[:LONGEST], given))

    rows = [
        {
            "d": strange(f"{chance.uniform(15, 30):.1f}"),
            "readings": [strange(f"{chance.uniform(20, 70):.1f}") for _ in range(8)],
        }
        for _ in range(chance.randint(0, 4))
    ]
    head = {key: strange(good) for key, good in {"length": "8", "two_l_is": "given", "B_H": "36", "step": "1"}.items()}
    state = {"head": head, "zero": [strange("0"), strange("1")], "rows": rows}
    state |= {key: strange("7") for key in ("who", "code", "lab")}
    asked = json.dumps(state)
    at = chance.choice(("", "d-1", "reading3-1", "reading1-2", "zero-2", given))
    for found in (beside.begin(asked), beside.now(asked, at), beside.now(json.dumps(value(chance)), given)):
        said(found)
    end = said(beside.finish(asked))
    if end["slip"]["ok"]:
        assert said(beside.open_slip(end["slip"]["text"]))["ok"]
    said(beside.open_slip(_either(chance, given, _slip)))


def _words(chance, given):
    """Some of a laboratory's conventions; a place has its month."""
    return {"place": "Lima", "month": "2026-05"} | dict.fromkeys(chance.sample(list(BY_KEY), 2), given)


def _fresh(chance, given):
    said(student.fresh(chance.choice(list(all_kinds())), "12ab", json.dumps(_words(chance, given))))


def _made(chance, given):
    parts = {"list": "1-3", "phrase": "sand and salt water", "kinds": ["tan-a"], "common": {}, "own": {}, "site": ""}
    settings = _words(chance, given)
    parts |= chance.choice(
        (
            {"list": given},
            {"phrase": given},
            {"site": given},
            {"heading": {"course": given}},
            {"common": settings},
            {"own": {"tan-a": settings}},
        )
    )
    said(desk.make(json.dumps(parts)))


def _columns(chance, given):
    """A list looked at before a class is made of it, with strange choices."""
    rows = "S. No,Roll,Code,Name\n1,7,x7,Knot\n2,8,x8,Ruff\n"
    listed = _either(chance, given, lambda: rows)
    said(desk_list.preview(listed, "{}"))
    choice = desk_list.preview(rows, "{}")
    picked = {"list": json.loads(choice)["columns"]["list"]}
    names = ("above", "below", "sure", "col-0", "col-1", "col-3", "col-9", given[:80])
    for name in chance.sample(names, 4):
        picked[name] = chance.choice(("roll", "name", "name-2", "section", "", "3", given))
    said(desk_list.preview(chance.choice((rows, listed)), json.dumps(picked)))


def _scheme(chance, given):
    names = ("step_mark", "out_of", "follows", "figures", "units", "attempt", "tan-a/mean", "dial/read", given[:80])
    names += ("weight:tan-a", "deadline", "deadline:tan-a:2", "zone", "late", "missing", f"weight:{given[:40]}")
    said(
        desk_scheme.with_scheme(
            _class(), json.dumps({n: chance.choice((given, "1", "")) for n in chance.sample(names, 3)})
        )
    )


def _return(chance, given):
    code = chance.choice(codes_of("A")[:4])
    found = said(
        student.return_slip(
            code,
            chance.choice((given, "7")),
            json.dumps({"mean-1": given, "tan-1": "1.1"}),
            json.dumps({"mean-1": value(chance)}),
            chance.choice((0, 3, -1, 10**9)),
            chance.choice((given, "2026-11-26 14:05")),
        )
    )
    if found["ok"]:
        (slip,), problems = return_slips_in(found["text"], "")
        assert not problems and slip.answers.get("mean-1", given) == _whole(given)


def _remembered(chance, given):
    state = json.dumps(value(chance))
    made = said(student.drill(state, "ab12"))
    said(student.drill_done(state, json.dumps(made["question"]), chance.random() < 0.5))
    said(student.why(json.dumps({"zero_error": value(chance, 1), "pivot_x": value(chance, 0), given: given})))
    said(page.check(json.dumps(value(chance))))
    said(page.save(given))


def _drill(chance, given):
    kind = chance.choice(list(all_kinds().values()))
    code = codes_of(kind.letter)[0]
    said(student.drill_check(code, chance.choice(open_code(code).working.steps).id, given))


def _found(chance, given):
    assert any(return_slips_in(_either(chance, given, _slip), "mail.txt"))


def _handed(chance, given):
    got = _either(chance, given, chance.choice((_slip, lambda: "roll,kind,step,answer\n1,tan-a,mean-1,45.2\n")))
    found = said(desk_returned.return_slips_of_text(_class(), "mail.txt", got))
    key = found["slips"][0]["code"] if found["slips"] else given
    choices = {chance.choice((key, given, f"RECORD {given}")): chance.choice((given, "1", "last", "8CKNW"))}
    came = {"slips": found["slips"] * 2, "problems": found["problems"], "choices": choices}
    work = said(desk_returned.take_in(_class(), json.dumps(came)))["work"]
    said(desk_returned.paper(_class(), chance.choice((given, "S01")), "tan-a", work))
    said(desk_returned.from_paper(_class(), "S01", "tan-a", json.dumps({chance.choice((given, "pole")): given})))


def _file(chance, given):
    head = f"From: Knot\nMime-Version: 1.0\nContent-Type: text/{chance.choice(('plain', 'html'))}; charset=utf-8\n\n"
    raw = _either(chance, given, lambda: head + _slip()).encode("utf-8", "surrogatepass")
    said(desk_returned.return_slips_of_file(_class(), raw, chance.choice(("a.txt", "a.eml", given))))


def _paper(chance, given):
    said(desk_returned.paper(_class(), given, "tan-a"))
    said(desk_returned.from_paper(_class(), "S01", "tan-a", json.dumps({"mean-1": given})))


@cache
def _marks_text():
    """A marks file with a slip and something set by hand."""
    slips, problems = return_slips_in(_slip(), "mail.txt")
    entries = by_hand.ByHand((by_hand.Correction("S01", "tan-a", "pole", 1, "seen"), by_hand.Excused("S01", "", "ill")))
    file, _ = marks_file.joined(marks_file.begun(a_class(1)), slips, problems)
    return marks_file.marks_text(replace(file, by_hand=entries))


def _marks_file(chance, given):
    said(desk_marks_file.open_file(_class(), _either(chance, given, _marks_text)))


def _by_hand(chance, given):
    found = return_slips_in(_slip(), "mail.txt")[0]
    work = said(desk_returned.take_in(_class(), json.dumps({"slips": [vars(s) for s in found], "problems": []})))[
        "work"
    ]
    said(desk_by_hand.form(work, chance.choice((given, "S01")), chance.choice((given, "tan-a", "tan-a:2"))))
    names = ("mark pole", "mark mean-1", "why", "days", "excused", "excuse", f"mark {given[:40]}", given[:80])
    controls = {n: chance.choice((given, "1", "")) for n in chance.sample(names, 4)}
    got = said(desk_by_hand.put(work, "S01", chance.choice(("tan-a", given)), json.dumps(controls)))
    if got["ok"]:
        assert said(desk_marks.result(got["work"]))["ok"]


def _again(chance, given):
    said(desk.set_again(_class(), chance.choice((given, "2")), chance.choice((given, "S01", ""))))


#: Every input by name: what is called with a source of chance and a string.
INPUTS: dict[str, Callable] = {
    **{f"answer of {quantity}": _read(quantity) for quantity in QUANTITIES},
    **{f"sheet of {slug}": _sheet(slug) for slug in all_kinds()},
    "sheet code": lambda chance, given: said(
        student.open_sheet("tan-a", _either(chance, given, lambda: codes_of("A")[0]))
    ),
    "conventions for new numbers": _fresh,
    "return slip's maker": _return,
    "drill": _drill,
    "browser's memory": _remembered,
    "record file": lambda chance, given: said(page.open_file(_either(chance, given, file.blank))),
    "record": _record_cells,
    "record at the bench": _bench,
    "class": _made,
    "class list": lambda chance, given: said(
        desk.make(
            json.dumps(
                {
                    "list": _either(chance, given, lambda: "roll,name\n1,Knot\n2,Ruff\n"),
                    "phrase": "sand and salt water",
                    "kinds": ["tan-a"],
                    "common": {},
                    "own": {},
                    "site": "",
                }
            )
        )
    ),
    "columns of a class list": _columns,
    "class file": lambda chance, given: said(desk.open_file(_either(chance, given, _class_text))),
    "scheme of marks": _scheme,
    "return slips": _found,
    "file handed in": _file,
    "returned work": _handed,
    "work on paper": _paper,
    "marks file": _marks_file,
    "set by hand": _by_hand,
    "further attempt": _again,
}

#: How the names of those begin that take a string into a whole sheet, record or class among many others.
WHOLE = ("sheet of", "record", "class", "scheme", "returned", "marks", "set by", "further")
