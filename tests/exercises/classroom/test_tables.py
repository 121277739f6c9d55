"""The tables open cleanly in a spreadsheet, run no formula, and the key holds the right answers."""

import csv
import io
import random
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context, Decimal

import pytest

from exercises.classroom.class_list.class_file import task
from exercises.classroom.class_list.codes import codes_for
from exercises.classroom.class_list.roster import Student, read
from exercises.classroom.class_list.tables import ADDRESS_HEAD, KEY_HEAD, address_row, key_rows, settings_addresses
from exercises.codes.sheet_code import Setting, write_setting
from exercises.files.tables import lines
from exercises.kinds.kind import all_kinds, open_code
from exercises.working.quantities import quantity
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
            slack = 1e-9 * max(abs(lo), abs(hi))
            for value in (exact, *paths):
                assert lo - slack <= value[step.id] / size <= hi + slack, (step.id, line)
            assert float(line["value"]) == pytest.approx(exact[step.id] / size, rel=1e-5, abs=1e-12)


def test_the_interval_is_narrow():
    """It would be no key if anything passed: a mean angle may miss by 0.1° and a moment by a tenth at most."""
    kind = all_kinds()["tan-a"]
    for student, code in codes_for(read("1-6"), PHRASE, kind).items():
        for *_, step, _, value, lo, hi, _ in key_rows(student, open_code(str(code))):
            width = 0.21 if step.startswith("mean-") and step[-1].isdigit() else float(value) / 5
            assert float(hi) - float(lo) < width


def test_numbers_of_the_key_have_no_noughts_at_their_end_and_no_power_of_ten_before_their_point():
    """Six figures; from ten million on a whole number may have its power of ten."""
    from exercises.classroom.class_list.tables import number

    shown = {
        1.5: "1.5",
        100.0: "100",
        1234567.0: "1234570",
        9_999_990.0: "9999990",
        1e7: "1e+7",
        1.25e9: "1.25e+9",
        0.0: "0",
        40.0: "40",
    }
    for value, text in shown.items():
        assert number(value) == text
    assert number(float("inf")) == "" == number(float("nan"))
    low, high = (Decimal(number(2 / 3, toward)) for toward in ("down", "up"))
    assert low < Decimal(2) / 3 < high and high - low == Decimal(1).scaleb(low.as_tuple().exponent)
    assert number(0.1 + 0.2, "up") == "0.3" == number(0.1 + 0.2, "down")


def test_numbers_of_the_key_are_rounded_as_decimal_rounds_them():
    # Python's decimal module is the reference: half to even, downward and upward from twelve figures
    from exercises.classroom.class_list.tables import number

    chance = random.Random("numbers of a key")
    ways = {"nearest": ROUND_HALF_EVEN, "down": ROUND_FLOOR, "up": ROUND_CEILING}
    for _ in range(3000):
        value = chance.choice([-1, 1]) * 10 ** chance.uniform(-12, 12)
        value = float(f"{value:.{chance.randint(1, 17)}g}")
        for toward, rounding in ways.items():
            expected = Context(6, rounding).create_decimal(f"{value:.12g}")
            assert Decimal(number(value, toward)) == expected, (value, toward)
