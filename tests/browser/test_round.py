"""The whole round in a browser: a class, three students' sheets, right, wrong and mangled; then returned and marked."""

import csv
import io

import pytest

from exercises.kinds.kind import open_code
from tests.browser.steps import open_sheet, right_answers, type_in
from tests.browser.test_class_desk import make_class, ready, saved

NAMES = ("Ringed Plover", "Sanderling", "Knot")


@pytest.fixture(scope="module")
def context(browser):
    """One telephone for all; its cache is kept."""
    visitor = browser.new_context(viewport={"width": 360, "height": 800})
    visitor.grant_permissions(["clipboard-read", "clipboard-write"])
    yield visitor
    visitor.close()


def table(raw: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(raw.decode("utf-8-sig"), newline="")))


def fill(page, entries: dict[str, str]) -> None:
    for step, text in entries.items():
        page.fill(f"#er-{step}", text)
    page.click(".er-check")


def slip_of(page, who: str) -> str:
    """Make the return slip and take it from the clipboard."""
    page.fill("#er-who", who)
    page.click(".er-handin-form button")
    page.wait_for_selector(".er-slip-holder:not([hidden])")
    page.get_by_role("button", name="Copy it").click()
    page.wait_for_function("document.querySelector('.er-slip-says').textContent.includes('opied')")
    return page.evaluate("navigator.clipboard.readText()")


def test_a_class_from_its_list_to_its_report(page):
    page.on("dialog", lambda dialog: dialog.accept())
    page.goto(f"{page.base}class/desk/")
    make_class(ready(page), "roll,name\n" + "\n".join(f"{n},{name}" for n, name in enumerate(NAMES, 1)))
    class_file = saved(page, "class.json")
    rows = table(saved(page, "codes.csv"))
    assert [r["name"] for r in rows] == list(NAMES)
    assert all(r["address"] == f"{page.base}exercises/tan-a/?code={r['code']}" for r in rows)

    student, slips = page.context.new_page(), []
    student.base = page.base
    for row in rows:
        open_sheet(student, row["code"])
        answers = right_answers(row["code"])
        if row["roll"] == "2":
            # a first try that is put right, and a bracket that is not squared
            state, _ = type_in(student, "mean-1", "12.3")
            assert state in ("wrong", "slip")
            squared = open_code(row["code"]).working.value("bracket-1")
            answers["bracket-1"] = f"{squared**0.5:.4f}"
        fill(student, answers)
        if row["roll"] == "1":
            student.wait_for_function("document.querySelector('.er-score').textContent.startsWith('All')")
        slips.append(slip_of(student, row["roll"]))
    right, wrong, mangled = slips
    mangled = mangled.replace("mean-1: ", "mean-1: 1")

    # the desk a week later: the page was closed, the class file is there
    page.evaluate("sessionStorage.clear()")
    page.goto(f"{page.base}class/desk/")
    ready(page).set_input_files(
        "#cd-class-file", {"name": "class.json", "mimeType": "application/json", "buffer": class_file}
    )
    page.locator("#cd-class-said", has_text="3 students").wait_for()
    page.fill(
        "#cd-pasted",
        f"Dear teacher,\nhere it is.\n> {right.replace(chr(10), chr(10) + '> ')}\n\nand mine\n{wrong}\n{mangled}",
    )
    page.click("#cd-add-pasted")
    said = page.locator("#cd-returned", has_text="was changed on the way")
    said.wait_for()
    assert "mean-1" in said.inner_text() and "Missing (1)" in said.inner_text()

    page.locator("#cd-marks button", has_text="Mark").first.click()
    page.locator("#cd-marks", has_text="2 sheets of 2 students marked").wait_for()
    marks = {row["roll"]: row for row in table(saved(page, "marks.csv"))}
    assert marks["1"]["total"] == marks["1"]["total out of"]
    assert len({row["total out of"] for row in marks.values()}) == 1  # everybody is out of the same
    assert float(marks["2"]["total"]) < float(marks["2"]["total out of"])
    assert marks["3"]["total"] == "0"
    not_marked = saved(page, "not-marked.csv").decode("utf-8-sig")
    assert "line" in not_marked.lower() and "mean-1" in not_marked
    report = saved(page, "report.html").decode()
    assert "<svg" in report and "Of 3 students 2 handed in" in report
    assert not any(name in report for name in NAMES)
    assert "Sanderling" in saved(page, "students.html").decode()
