"""What is made of good, odd and unusable input, in full: a part of what approved.py writes."""

import json

from exercises.classroom.class_list import class_file, roster
from exercises.classroom.class_list.list_words import doubts
from exercises.classroom.class_list.list_words import told as told_of
from exercises.classroom.class_list.proposal import propose
from exercises.classroom.desk import classes as desk
from exercises.classroom.desk import returned as desk_returned
from exercises.classroom.desk import scheme_form as desk_scheme
from exercises.classroom.marking.typed_in import typed_in
from exercises.judging.answer import Unreadable, read
from exercises.record import page
from exercises.return_slip.text import ReturnSlip, return_slip_text, return_slips_in
from exercises.student import desk as student
from exercises.student.revision import question_keys
from exercises.working.numbers import centimetres, figures, mean_angle, places, reading
from exercises.working.quantities import QUANTITIES
from tests.exercises.classwork import a_class
from tests.exercises.golden import codes_of
from tests.exercises.in_words import lines_of

ANSWERS = (
    "1.62",
    " 1,62 ",
    "1.62 A·m²",
    "1.62 A m^2",
    "1620 mA·m²",
    "1.62e-3",
    "1.62 × 10^-3",
    "1.62x10-3 m⁴",
    "1.62 10^-3",
    "45",
    "45.2°",
    "45°12'",
    "45 deg",
    "0.789 rad",
    "2.3 cm",
    "0.023 m",
    "23 mm",
    "3.6e-5 T",
    "36 µT",
    "36 uT",
    "5 %",
    "0.05",
    "1 234.5",
    "1,234.5",
    "1.234,5",
    "½",
    "1/2",
    "-3",
    "−3.0",
    "+3",
    ".5",
    "5.",
    "0",
    "0.000",
    "1e400",
    "1e-400",
    "nan",
    "x",
    "",
    "A·m²",
    "1..2",
    "1.2.3",
    "12 apples",
    "7 kg",
    "3.0 s",
    "2 A",
    "45,2 °",
    "１２.５",
    "1.62 × 10⁻³ A·m²",
    "(1.62)",
    "=1.62",
    "1.62 ± 0.02",
    "about 3",
    "tan 45",
    "1 to 2",
    "1'234",
    "10^5",
    "×10^3",
)
CODES = (
    "A3Y-MAK-X9M",
    "a3y mak x9m",
    "A3YMAKX9M",
    "A3Y-MAK-X92",
    "A3Y-MAK-9XM",
    "A3Y-MAK-X9",
    "A3Y-MAK-X9M5",
    "B3Y-MAK-X9M",
    "Z3Y-MAK-X9M",
    "",
    "   ",
    "A",
    "A3Y-MAK-XOM",
    "A3Y-MAK-X 9M",
    "http://saltmarsh.example/?code=A3Y-MAK-X9M",
    "A9Y-MAK-X9M",
    "A3Y–MAK–X9M",
    "<b>",
    "A3Y-MAK-X9M extra",
    "E3W-24P-X8C",
)
LISTS = (
    "1-5",
    "1 - 3, 7",
    "5-1",
    "1-99999",
    "1,Ringed Plover\n2,Knot",
    "roll,name\n1,Ringed Plover\n2,Knot",
    "name;roll\nKnot;7\nRuff;8",
    "roll\tname\n1\tKnot",
    "Ringed Plover\nSanderling",
    "1,Knot\n1,Ruff",
    "1,Knot\n01,Ruff",
    "name,first name,roll\nPlover,Ringed,7",
    "roll,name\n,Knot\n2,",
    "",
    "roll,name",
    "\n\n",
    '1,"Plover, Ringed"\n2,Knot',
    '1,"Plover',
    "=1+1,Knot",
    "1,Knot\n2,Ruff,extra\n",
    "# a comment\n1,Knot",
    "1. Knot\n2. Ruff",
    "a" * 300,
    "1,<b>Knot</b>",
    "No,Student\n12,Knot\n13,Ruff",
    "7",
    "7,8,9",
    "A1\nA2\nA3",
    "1,Knot\n\n3,Ruff",
    "x;y;z\n1;2;3",
)
SETTINGS = (
    {"2l": "given"},
    {"2l": "half"},
    {"place": "Pune", "month": "2026-05"},
    {"place": "pune", "month": "May 2026"},
    {"place": "Pune"},
    {"place": "Atlantis", "month": "2026-05"},
    {"place": "Pune", "month": "2031-01"},
    {"month": "2026-05"},
    {"field": "38.2"},
    {"field": "38,2 µT"},
    {"field": "0.382"},
    {"field": "0.382 G"},
    {"field": "3.82e-5"},
    {"field": "70"},
    {"field": "38.2", "place": "Pune", "month": "2026-05"},
    {"step": "0.5"},
    {"step": "1"},
    {"step": "0.3"},
    {"step": "x"},
    {"grid": "half centimetres"},
    {"grid": "0.5"},
    {"distances": "4"},
    {"distances": "40"},
    {"distances": "4.5"},
    {"length": "60"},
    {"length": "7"},
    {"length": "6.0 cm"},
    {"length": "40", "field": "65", "grid": "10 mm", "distances": "8"},
    {"colour": "red"},
    {"place": ""},
)
SCHEMES = (
    {"step_mark": "2"},
    {"step_mark": "-1"},
    {"step_mark": "x"},
    {"step_mark": "1,5"},
    {"out_of": "20"},
    {"out_of": "0"},
    {"out_of": "1e9"},
    {"follows": "50"},
    {"follows": "150"},
    {"figures": "10"},
    {"units": "100"},
    {"units": "-5"},
    {"attempt": "first"},
    {"attempt": "second"},
    {"tan-a/pole": "3"},
    {"tan-a/nothing": "3"},
    {"figures": "60", "units": "60"},
    {"step_mark": "0"},
    {"tan-a/pole": "1000000"},
    {},
)
TABLES = (
    "roll,kind,step,answer\nS01,tan-a,mean-1,45.2\nS01,tan-a,tan-1,1.0\n",
    "code,step,answer\nCODE,mean-1,45.2\n",
    "step,answer\nmean-1,4\n",
    "roll;kind;step;answer\ns01;tan-a;mean-1;45,2\n",
    "roll,kind,step,answer\nS99,tan-a,mean-1,45.2\n",
    "roll,kind,step,answer\nS01,law,mean-1,45.2\n",
    "roll,kind,step,answer\nS01,tan-a,nothing,45.2\n",
    "roll,kind,step,answer\nS01,tan-a,mean-1,1\nS01,tan-a,mean-1,2\n",
    "roll,kind,step,answer\nS01,tan-a\n",
    "",
    'roll,kind,step,answer\nS01,tan-a,mean-1,"45',
    "roll,kind,step,answer\n,,mean-1,4\n",
    "roll,kind,step,answer\n'S01,tan-a,mean-1,'-4\n",
)
RECORDS = (
    "",
    "measured length (cm),8.0\n",
    "length;8,0 cm\nd;1;2;3;4;5;6;7;8\n17,5;60;60;59,5;59,5;59,5;59,5;59,5;59,5\n",
    "B_H (µT),36\nd (cm),1,2,3,4,5,6,7,8,mean\n17.5,60,60,59,59,59,59,59,59,59.5\n",
    "d,mean,tan\n17.5,59.6,1.7\n",
    "place,Pune\ndate,2026-10-05\nlength,8\nd,1,2,3,4,5,6,7,8\n17.5,60,60,59,59,59,59,59\n",
    "17.5 60 60 59 59 59 59 59 59\n",
    "length,8\nlength,9\n",
    "nonsense line\n",
    "d (m),1,2,3,4,5,6,7,8\n0.175,60,60,59,59,59,59,59,59\n",
    "d,1,2,3,4,5,6,7,8,9\n1,2\n",
    "latitude,18.5\nlongitude,73.9\n",
    "pole (A·m),23\nmean moment,1.5 A·m²\n",
    "step,0.5\nd,1,2,3,4,5,6,7,8\n" + "17.5,60,60,59,59,59,59,59,59\n" * 20,
)


def _short(answer: str, most: int = 700) -> str:
    return answer.replace("\n", "⏎")[:most]


def _class_told(answer: str) -> str:
    """A class that was made, by what can differ; or the refusal as it stands."""
    said = json.loads(answer)
    if not said["ok"]:
        return answer
    made = class_file.read_class(said["text"])
    tasks = [(t.kind.slug, t.edition, tuple(vars(t.setting).values())) for t in made.tasks]
    return f"{made.phrase!r} {made.site!r} {tasks} {made.scheme} {lines_of(said.get('html', ''))}"


def answers() -> list[str]:
    """How a number is read, for each quantity."""
    out = []
    for quantity in QUANTITIES:
        for text in ANSWERS:
            try:
                typed = read(text, quantity)
                told = (
                    "nothing"
                    if typed is None
                    else f"{typed.value:.6g}, to {typed.last_place:.3g}, {'with' if typed.named else 'without'} a unit"
                )
            except Unreadable as error:
                told = str(error)
            out.append(f"{quantity} | {text} | {told}")
    return out


def written_numbers() -> list[str]:
    """How numbers are written."""
    numbers = (
        0.0,
        1.0,
        -1.0,
        44.6875,
        0.98765,
        9.995,
        99.95,
        999.5,
        1234.5,
        12345.6,
        1.5e-7,
        3.2e-5,
        0.00123,
        6.02e23,
        -2.5e-4,
        0.5,
        0.05,
    )
    return [
        " | ".join(
            [
                repr(x),
                figures(x),
                figures(x, 4),
                figures(x, 2),
                places(x, 2),
                places(x, 4),
                mean_angle(x),
                reading(x),
                centimetres(x),
                centimetres(x, 2),
            ]
        )
        for x in numbers
    ]


def codes() -> list[str]:
    return [f"{text} | {_short(student.open_sheet('tan-a', text), 400)}" for text in CODES]


def lists() -> list[str]:
    """What is made of class lists, settings and classes."""
    out = []
    for text in LISTS:
        try:
            found = propose(text)
            students = roster.students_of(found)
            first = "; ".join(f"{s.roll}={s.name}" for s in students[:6])
            told = (
                f"{len(students)}: {first} {' / '.join(': '.join(t) for t in told_of(found, students))} {doubts(found)}"
            )
        except ValueError as error:
            told = f"no: {error}"
        out.append(f"{text!r:.120} | {told}")
    parts = {
        "list": "1,Knot\n2,Ruff",
        "phrase": "sand and salt water",
        "kinds": ["tan-a", "law"],
        "common": {},
        "own": {},
        "site": "",
    }
    changes = [
        *({"common": s} for s in SETTINGS),
        *({"own": {"tan-a": s}} for s in SETTINGS[:6]),
        {"phrase": ""},
        {"phrase": "short"},
        {"phrase": " Sand  and SALT water "},
        {"kinds": []},
        {"kinds": ["nothing"]},
        {"kinds": ["tan-a", "tan-a"]},
        {"site": "saltmarsh.example"},
        {"site": "https://saltmarsh.example/lab"},
        {"list": "1,Knot\n1,Ruff"},
    ]
    out += [f"{change} | {_class_told(desk.make(json.dumps(parts | change)))}" for change in changes]
    return out


def schemes() -> list[str]:
    session = json.loads(desk.open_file(class_file.class_text(a_class(3, ("tan-a", "dial")))))["session"]
    return [f"{s} | {_class_told(desk_scheme.with_scheme(session, json.dumps(s)))}" for s in SCHEMES]


def class_files() -> list[str]:
    """What is made of class files that were changed by hand."""
    text = class_file.class_text(a_class(3, ("tan-a",)))
    whole = json.loads(text)
    out = [
        text,
        *(
            f"without {key} | {_short(desk.open_file(json.dumps({k: v for k, v in whole.items() if k != key})), 300)}"
            for key in whole
        ),
    ]
    for key in whole:
        for value in (None, 7, "x", [], {}, [1], True):
            out.append(f"{key} = {value!r} | {_short(desk.open_file(json.dumps(whole | {key: value})), 300)}")
    return [
        *out,
        *(
            f"{bad} | {_short(desk.open_file(bad), 300)}"
            for bad in ("", "[]", "{", '{"a": 1}', "roll,name\n1,Knot", "[" * 80)
        ),
    ]


def slips() -> list[str]:
    """A slip, each line of it damaged in turn, and tables of answers."""
    made = a_class(3, ("tan-a",))
    code = str(made.codes()[0][1][0][1])
    good = return_slip_text(
        ReturnSlip("S01", code, {"mean-1": "45.2°", "tan-1": "1.0070", "pole": "1.62 × 10⁻³ A·m"}, {"tan-1": "0.7"})
    )
    lines, out = good.splitlines(), good.splitlines()

    def told(what: str, text: str) -> None:
        found, problems = return_slips_in(text, "mail.txt")
        out.append(
            f"{what} | {[(s.who, s.code, s.answers, s.firsts) for s in found]} | {' / '.join(p.text for p in problems)}"
        )

    for n, line in enumerate(lines):
        told(f"line {n + 1} gone", "\n".join(lines[:n] + lines[n + 1 :]))
        told(f"line {n + 1} twice", "\n".join(lines[: n + 1] + lines[n:]))
        told(
            f"line {n + 1} changed", "\n".join(lines[:n] + [line.replace("1", "7").replace("S", "5")] + lines[n + 1 :])
        )
        told(f"cut after line {n + 1}", "\n".join(lines[: n + 1]))
    told("quoted", "\n".join(f"> {line}" for line in lines))
    told("in one line", " ".join(lines))
    told("in small letters", good.lower())
    told("two of them", good + "\n" + good)
    for table in TABLES:
        found, problems = typed_in(table.replace("CODE", code), made, "table.csv")
        out.append(
            f"{table!r} | {[(s.who, s.code, s.answers) for s in found]} | "
            + " / ".join(f"{p.source}: {p.text}" for p in problems)
        )
    session = json.loads(desk.open_file(class_file.class_text(made)))["session"]
    raw = json.loads(desk_returned.return_slips_of_file(session, good.encode(), "slip.txt"))
    out.append(f"as a file | {_short(json.dumps(raw, ensure_ascii=False))}")
    for who, entries in (
        ("S01", {"mean-1": "45.2°"}),
        ("", {"mean-1": "45"}),
        ("S01", {}),
        ("S01", {"mean-1": "x" * 500}),
        ("x" * 300, {"mean-1": "4"}),
    ):
        made_here = student.return_slip(code, who, json.dumps(entries), '{"mean-1": "44"}')
        out.append(f"made for {who[:20]!r} with {str(entries)[:40]} | {_short(made_here, 900)}")
    for text in ("no class", class_file.class_text(made).replace("sand and salt water", "short")):
        refused = json.loads(desk.open_file(text)) | {"control": ""}  # what is said, wherever it was asked
        out.append(f"marked for {text[:8]} | {_short(json.dumps(refused, ensure_ascii=False), 300)}")
    return out


def record_files() -> list[str]:
    return [f"{text!r:.200} | {_short(page.open_file(text), 900)}" for text in RECORDS] + [_short(page.blank(), 4000)]


def drill() -> list[str]:
    """Every card of the drill, its model answer, and where the drill goes on from there."""
    out, state = [], ""
    for n in range(30):
        drawn = json.loads(student.drill(state, f"{(n * 7919 + 13) % 65521:04x}beef"))
        done = json.loads(student.drill_done(json.dumps(drawn["state"]), json.dumps(drawn["question"]), n % 3 != 0))
        state = json.dumps(done.pop("state"))
        out.append(_short(json.dumps(drawn["question"], ensure_ascii=False), 500))
        out.append(_short(json.dumps(done, ensure_ascii=False), 500))
    checks = [student.drill_check(codes_of("A")[0], "tan-1", text) for text in ("1.0", "0.9", "x", "")]
    return [*question_keys(), *out, state, *checks]


def read_in() -> dict[str, list[str]]:
    """File name -> lines."""
    parts = (answers, written_numbers, codes, lists, schemes, class_files, slips, record_files, drill)
    return {f"input-{part.__name__.replace('_', '-')}": part() for part in parts}
