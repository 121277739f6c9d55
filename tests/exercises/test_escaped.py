"""Whatever a person typed stays text: every function that makes HTML is given what would be markup."""

import json
from dataclasses import replace

import pytest

from exercises.classroom.class_list import paper, prints
from exercises.classroom.class_list.class_file import Class, ClassError, make, read_class, task
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk import by_hand as desk_by_hand
from exercises.classroom.desk import classes as desk
from exercises.classroom.desk import list_preview
from exercises.classroom.desk import marks as desk_marks
from exercises.classroom.desk import returned as desk_returned
from exercises.classroom.desk import scheme_form as desk_scheme
from exercises.classroom.examination import papers
from exercises.classroom.examination.mark_sheet import USUAL
from exercises.classroom.examination.readiness import Readiness
from exercises.classroom.examination.ready_page import ready_html
from exercises.classroom.marking.intake import Handed
from exercises.classroom.report import page as report_page
from exercises.classroom.report import student_pages as mark_pages
from exercises.classroom.report.counts import count
from exercises.kinds.kind import all_kinds, open_code
from exercises.record import page
from exercises.record.entries import FIELDS
from exercises.return_slip.text import Problem, ReturnSlip, return_slip_text
from exercises.student import desk as student
from exercises.student import revision
from generator.commands.record_command import document
from tests.exercises.classwork import marked, right, slipped
from tests.hostile import CANARY, TEXTS, Looked, whole

CSS = "p { margin: 0 }"
SITE = "https://saltmarsh.example/"
KIND = "law"


@pytest.fixture(scope="module")
def everybody() -> Class:
    """A class in which each text is a roll and another one's name; no class list was asked whether it may be."""
    students = tuple(Student(f"{n}{text}", text) for n, text in enumerate(TEXTS))
    return Class(students, "sand and salt water", (task(KIND),), SITE)


@pytest.fixture(scope="module")
def handed(everybody) -> list[Handed]:
    """Work of each, in which every answer and every first try is such a text, or right and first such a text."""
    found = []
    for n, (someone, [(given, code)]) in enumerate(everybody.codes()):
        steps = right(code)
        hostile = {id: TEXTS[(n + k) % len(TEXTS)] for k, id in enumerate(steps)}
        slip = ReturnSlip(TEXTS[n], str(code), steps if n % 2 else hostile, hostile, TEXTS[n])
        found.append(Handed(someone, given, code, slip, (TEXTS[n], TEXTS[-n])))
    return found


def test_the_look_finds_what_is_not_escaped():
    clean = "<p>B<sub>H</sub></p>"
    assert not Looked(clean).amiss
    for text in TEXTS:
        if "<" in text and "</option>" not in text and "\x00" not in text:
            assert Looked(f"<p>{text}</p>").amiss or Looked(f"<p>{text}</p>").open, text
        elif '"' in text:
            assert Looked(f'<p title="{text}"></p>').amiss, text


def test_what_is_printed_for_a_class(everybody):
    pages, heading = [], Heading(course="<b onclick='x'>&amp;", date=CANARY)
    for someone, [(given, code)] in everybody.codes():
        drawn = open_code(str(code))
        pages += [of(someone, drawn, heading) for of in (prints.sheet_page, prints.key, prints.worked)]
        pages.append(prints.code_strip(someone, [(given, code)], SITE, heading))
        pages += [papers.examination_sheet(someone, drawn, heading)]
        pages += [papers.examiner_page(someone, drawn, heading, USUAL)]
        for made in pages[-6:]:
            text = whole(made)
            assert someone.name in text and heading.course in text and heading.date in text
    shares = {someone.roll: {given.kind.slug: 1.0} for someone, [(given, _)] in everybody.codes()}
    ready = whole(ready_html(replace(everybody, heading=heading, ready=Readiness(tuple(all_kinds()))), shares, CSS))
    assert all(ready.count(someone.name) > 1 for someone in everybody.students)
    for text in TEXTS:
        assert text in whole(paper.head(text, CSS) + paper.FOOT)
    # addresses in which the site is such a text, which a class file cannot have
    for text in TEXTS:
        assert text.rstrip("/") in whole(prints.code_strip(Student("1", ""), everybody.codes()[0][1], text))


def test_no_style_ends_its_element():
    for css in ("</style><script>window.__hit=1</script>", "@import 'x'", "a { background: URL (x) }"):
        with pytest.raises(ValueError):
            paper.head("", css)


def test_marked_work_and_the_report(everybody, handed):
    sheets = [marked(work, everybody.scheme) for work in handed]
    for sheet in sheets:
        text = whole(mark_pages.page(sheet, everybody))
        assert sheet.handed.student.name in text and CANARY in text
        assert all(note in text for note in sheet.handed.notes)
    whole(mark_pages.head(CSS) + mark_pages.FOOT)
    report = whole(report_page.report_html(count(everybody, sheets), everybody, CSS))
    assert CANARY not in report  # it names nobody
    # addresses of passages on a site which no class file can have
    there = Class(everybody.students, everybody.phrase, everybody.tasks, f"https://{TEXTS[1]}")
    student, [(given, code)] = there.codes()[0]
    named = open_code(str(code)).slips[0].key
    sheet = marked(
        Handed(student, given, code, ReturnSlip("0", str(code), slipped(code, named), {}, ""), ()), there.scheme
    )
    for made in (mark_pages.page(sheet, there), report_page.report_html(count(there, [sheet]), there, CSS)):
        whole(made)
        assert 'href="https://&quot;&gt;&lt;img src=x' in made


def test_a_class_list_before_a_class_is_made_of_it():
    for text in TEXTS:
        for part in (text[:60], text[-60:]):
            cell = part.replace('"', '""')
            said = json.loads(list_preview.preview(f'"{cell}","{cell}"\n1,"{cell}"\n2,"{cell}"\n', "{}"))
            assert said["ok"] and any(word in whole(said["html"]) for word in part.split()), said


def a_class_file(text: str) -> str:
    """A class in whose file one student has such a name; None where the class file refuses it, with a sentence."""
    made = json.loads(
        desk.make(
            json.dumps(
                {
                    "list": "roll,name\n1,Knot",
                    "phrase": "sand and salt water",
                    "kinds": [KIND],
                    "common": {},
                    "own": {},
                    "site": SITE,
                }
            )
        )
    )
    found = json.loads(made["text"])
    found["students"] = [{"roll": f"7 {text[:30]}", "name": text[:100]}, {"roll": "8", "name": text[-60:]}]
    return json.dumps(found)


def test_the_class_desk():
    opened_once = 0
    for text in TEXTS:
        given = a_class_file(text)
        opened = json.loads(desk.open_file(given))
        if not opened["ok"]:
            continue  # such a name is refused: the reason is text
        opened_once += 1
        rolls = [s.roll for s in read_class(given).students]
        codes = [str(code) for _, [(_, code)] in read_class(given).codes()]
        steps = list(right(codes[0]))
        slips = [
            ReturnSlip(r, c, dict.fromkeys(steps, text[:200]), dict.fromkeys(steps, text[:90]), text)
            for r, c in zip(rolls, codes)
        ]
        slips.append(ReturnSlip(text, codes[0], {"no-such-step": text}, {}, text))
        problems = [Problem(text, text, text, text, None)]
        returned = json.dumps({"slips": [vars(s) for s in slips], "problems": [vars(p) for p in problems]})
        session = opened["session"]
        taken = json.loads(desk_returned.take_in(session, returned))
        assert CANARY[:3] in whole(taken["html"])
        result = json.loads(desk_marks.result(taken["work"]))
        whole(f"<table>{result['table']}</table>{result['notes']}")
        whole(result["report"])
        for name in ("students.html", "report.html"):
            whole(json.loads(desk_marks.part(taken["work"], name, 0, 9, CSS))["text"])
        whole(json.loads(desk_returned.paper(session, rolls[0], KIND))["html"])
        whole(json.loads(desk_scheme.form(session))["html"])
        hand = {"mark pole": "1", "why": text[:200], "excused": "on", "excuse": text[:200]}
        if (got := json.loads(desk_by_hand.put(taken["work"], rolls[0], KIND, json.dumps(hand))))["ok"]:
            whole(json.loads(desk_by_hand.form(got["work"], rolls[0], KIND))["html"])
    assert opened_once >= len(TEXTS) // 2


def test_what_is_typed_in_a_mail_or_a_table(everybody):
    """Through the reader of slips, of whatever is around it and inside."""
    given = a_class_file("Sanderling")
    session = json.loads(desk.open_file(given))["session"]
    code = str(read_class(given).codes()[0][1][0][1])
    for text in TEXTS:
        slip = return_slip_text(ReturnSlip(text[:160], code, dict.fromkeys(right(code), text[:200]), {}))
        for sent in (
            slip,
            f"{text}\n{slip}{text}",
            slip.replace("who", text[:20], 1),
            f"roll,kind,step,answer\n{text},{text},{text},{text}",
        ):
            got = json.loads(desk_returned.return_slips_of_text(session, text, sent))
            if got["ok"]:
                returned = json.dumps({"slips": got["slips"], "problems": got["problems"]})
                taken = json.loads(desk_returned.take_in(session, returned))
                whole(taken["html"])
                result = json.loads(desk_marks.result(taken["work"]))
                whole(f"<table>{result['table']}</table>{result['notes']}{result['report']}")


def test_a_site_is_an_address_of_the_web_and_nothing_else():
    for text in TEXTS:
        for site in (text, f"https://saltmarsh.example/{text}"):
            try:
                made = make([Student("1", "")], "sand and salt water", [task(KIND)], site)
            except ClassError:
                continue
            assert made.site.startswith("https://") and not set(made.site) & set("<>\"' \\")
    with pytest.raises(ClassError):
        make(
            [Student("1", "")], "sand and salt water", [task(KIND)], "javascript://saltmarsh.example/%0awindow.__hit=1"
        )


def test_a_laboratory_record():
    readings = [f"{44 + k % 2}.5" for k in range(8)]
    rows = [{"d": d, "readings": readings, "mean": "45", "tan": "1"} for d in ("20", "22", "24")]
    head = {"length": "8", "B_H": "36", "name": "Dunlin"}
    good = json.dumps({"head": head, "rows": rows})
    assert "Dunlin" in whole(json.loads(page.check(good))["paper"])
    for n, text in enumerate(TEXTS):
        records = [{"head": {**head, key: text}, "rows": rows} for key in FIELDS]
        records += [
            {"head": head, "rows": [{**rows[0], cell: text}, *rows[1:]]}
            for cell in ("d", "mean", "tan", "bracket", "moment")
        ]
        records.append({"head": head, "rows": [{**rows[0], "readings": [text, *readings[1:]]}, *rows[1:]]})
        records.append(
            {
                "head": dict.fromkeys(FIELDS, text),
                "rows": [{"d": text, "readings": [text] * 8, "mean": text, "moment": text}] * 8,
            }
        )
        for record in records[n % 3 :: 3] + records[-1:]:
            found = json.loads(page.check(json.dumps(record)))
            shown = whole(found["paper"])
            assert record["head"].get("name", "").strip()[:60] in shown
            for finding in found["findings"]:
                whole(finding["html"])
            whole(document(found["paper"]))
        for sent in (f"observer;{text}\nd;east 1\n{text};{text}", f"{text}", f"d,mean\n20,{text}"):
            answer = json.loads(page.open_file(sent))
            if answer["ok"]:
                whole(json.loads(page.check(json.dumps(answer["record"])))["paper"])


def test_the_students_pages():
    code = "A3Y-MAK-X9M"
    for text in TEXTS:
        # a code that is none gives a sentence, and no sheet
        refused = json.loads(student.open_sheet("tan-a", text))
        assert not refused["ok"] and "html" not in refused
        judged = json.loads(student.check(code, json.dumps({"mean-1": text, text: text})))
        assert set(judged) == {"verdicts", "right", "steps"} and text not in judged["verdicts"]
        settings = json.dumps({"pivot_x": text, text: 1})
        assert CANARY not in whole(json.loads(student.why(settings))["html"])
        state = {"turn": text, "cards": {text: {"box": 1, "due": 0}, "viva/mirror": {"box": text, "due": text}}}
        card = json.loads(student.drill(json.dumps(state), "1f"))
        assert card["state"] == {"turn": 0, "questions": {}, "page": []} and CANARY not in whole(
            card["question"]["html"]
        )
    for key in revision.question_keys():
        whole(revision.question(key, 5)["html"])
