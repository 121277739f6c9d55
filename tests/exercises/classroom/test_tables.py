"""The tables open cleanly in a spreadsheet, run no formula, and the key holds the right answers."""

import csv
import io
import random

import pytest

from exercises.classroom.class_list.class_file import task
from exercises.classroom.class_list.codes import codes_for
from exercises.classroom.class_list.roster import Student
from exercises.classroom.class_list.tables import (
    ADDRESS_HEAD,
    KEY_HEAD,
    address_row,
    key_rows,
    number,
    settings_addresses,
)
from exercises.codes.sheet_code import Setting, write_setting
from exercises.files.tables import lines
from exercises.judging.answer import Typed
from exercises.judging.entries import accepts
from exercises.kinds.kind import all_kinds, open_code
from exercises.working.evaluate import all_spans
from exercises.working.quantities import quantity
from exercises.working.rounded import last_place
from tests.exercises.classwork import read
from tests.exercises.settings import FIXED
from tests.rounding import Rounding

PHRASE = "sand and salt water"


def cells(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


def test_the_table_of_addresses():
    student, kind = Student("=7", "@Plover, ringed"), all_kinds()["tan-a"]
    code = codes_for([student], PHRASE, kind)[student]
    for site, at in (("https://saltmarsh.example/lab/", "https://saltmarsh.example/lab/"), ("", "")):
        row = cells(lines([ADDRESS_HEAD, address_row(site, student, kind, code)]))
        assert row[1] == [
            "'=7",
            "'@Plover, ringed",
            "tan-a",
            str(code),
            f"{at}exercises/tan-a/?code={code}",
            f"{at}record/",
        ]
    fixed = codes_for([student], PHRASE, kind, FIXED)[student]
    assert address_row("", student, kind, fixed)[-1] == f"record/?lab={write_setting(FIXED)}"


def test_an_address_for_each_of_the_settings():
    tasks = [task("tan-a", FIXED), task("dial"), task("tan-b", FIXED), task("law", Setting(field=38.2))]
    assert settings_addresses("https://saltmarsh.example", tasks) == [
        ("Tan A, Tan B", f"https://saltmarsh.example/record/?lab={write_setting(FIXED)}"),
        ("Tangent law drills", f"https://saltmarsh.example/record/?lab={write_setting(Setting(field=38.2))}"),
    ]
    assert settings_addresses("", [task("tan-a")]) == []


@pytest.mark.parametrize("setting", [Setting(), FIXED], ids=["open", "fixed"])
@pytest.mark.parametrize("slug", list(all_kinds()))
def test_the_key_holds_the_right_answers(slug, setting):
    """The exact value, and what six paths of correct rounding lead to, lie in the interval as it is printed."""
    kind, chance = all_kinds()[slug], random.Random(f"key {slug}")
    for student, code in codes_for(read("1-6"), PHRASE, kind, setting).items():
        sheet = open_code(str(code))
        working = sheet.working
        exact = working.all_values()
        paths = [working.all_values(Rounding(chance.randrange)) for _ in range(6)]
        table = cells(lines([KEY_HEAD, *key_rows(student, sheet)]))
        assert [row[4] for row in table[1:]] == [s.id for s in working.steps]
        for step, row in zip(working.steps, table[1:], strict=True):
            line = dict(zip(KEY_HEAD, row, strict=True))
            assert (line["roll"], line["kind"], line["code"]) == (student.roll, slug, str(code))
            if step.choices:
                assert line["value"] == next(label for key, label, _ in step.choices if key == exact[step.id])
                assert line["lo"] == line["hi"] == line["unit"] == ""
                continue
            size = quantity(step.quantity).bare
            lo, hi = float(line["lo"]), float(line["hi"])
            assert line["unit"] == quantity(step.quantity).shown
            slack = 0.001 * max(abs(lo), abs(hi))  # the ends are rounded to four figures
            for value in (exact, *paths):
                assert lo - slack <= value[step.id] / size <= hi + slack, (step.id, line)
            assert float(line["value"]) == pytest.approx(exact[step.id] / size, rel=1e-4, abs=1e-12)


def test_the_interval_is_narrow():
    """It would be no key if anything passed: a mean angle may miss by 0.1° and a moment by a tenth at most."""
    kind = all_kinds()["tan-a"]
    for student, code in codes_for(read("1-6"), PHRASE, kind).items():
        for *_, step, _, value, lo, hi, _ in key_rows(student, open_code(str(code))):
            width = 0.21 if step.startswith("mean-") and step[-1].isdigit() else float(value) / 5
            assert float(hi) - float(lo) < width


def test_numbers_of_the_key_have_five_figures_and_no_noughts_at_their_end():
    shown = {1.5: "1.5", 100.0: "100", 12345.6: "12346", 0.0: "0", 40.0: "40", 2 / 3: "0.66667", 0.1 + 0.2: "0.3"}
    for value, text in shown.items():
        assert number(value) == text
    assert number(float("inf")) == "" == number(float("nan"))


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_the_ends_of_the_key_are_accepted_and_one_unit_farther_is_not(slug):
    """Whoever marks on paper decides as the checker does."""
    for student, code in codes_for(read("1-12"), PHRASE, all_kinds()[slug]).items():
        sheet = open_code(str(code))
        spans = all_spans(sheet.working)
        for row, step in zip(key_rows(student, sheet), sheet.working.steps, strict=True):
            if step.choices:
                continue
            size = quantity(step.quantity).bare
            for end, farther in ((float(row.lo), -1), (float(row.hi), 1)):
                place = last_place(end, 4) or 1.0
                if step.rule == "tangent":
                    place = min(place, 1e-4)
                typed = [Typed(x * size, 4, place * size, False) for x in (end, end + farther * place)]
                assert [accepts(spans[step.id], t, step) for t in typed] == [True, False], (row, step.id)
