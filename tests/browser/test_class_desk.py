"""The class desk in a real browser: from a list to files that are the command line's byte for byte, and marks."""

import json

import pytest

from exercises.classroom.class_list.class_file import read_class
from exercises.classroom.class_list.packs import EXAMINATION
from exercises.kinds.kind import open_code
from exercises.kinds.sheet import written as as_written
from exercises.return_slip.text import ReturnSlip, return_slip_text
from generator.commands.class_command import FILES
from generator.commands.command import main
from tests.browser.steps import breaking_down

PHRASE = "sand and salt water"
#: Lets a file of that name and text fall on a place.
DROP = """([place, name, text]) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([text], name));
    for (const type of ["dragover", "drop"])
        document.querySelector(`[data-drop=${place}]`)
            .dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }));
}"""
ROSTER = "\ufeffRoll;Name\r\n1;Ringed Plover\r\n2;=SUM(A1)\r\n\r\n3;علي\r\n"


@pytest.fixture(scope="module")
def context(browser):
    """One visitor on a telephone, whose cache is kept: what fits there fits a desk (test_pages.py looks at both)."""
    visitor = browser.new_context(viewport={"width": 360, "height": 800})
    yield visitor
    visitor.close()


@pytest.fixture
def desk(page):
    """The class desk, its Python ready."""
    page.on("dialog", lambda dialog: dialog.accept())
    page.goto(f"{page.base}class/desk/")
    return ready(page)


def ready(page):
    page.wait_for_function("document.querySelector('.cd .er-status').dataset.state === 'ready'")
    return page


def file(name: str, text: str | bytes) -> dict:
    return {"name": name, "mimeType": "text/plain", "buffer": text if isinstance(text, bytes) else text.encode()}


def make_class(page, text: str = "1-3", kinds=("tan-a",)):
    page.fill("#cd-list", text)
    page.fill("#cd-phrase", PHRASE)
    for box in page.locator('input[name="kind"]').all():
        box.set_checked(box.get_attribute("value") in kinds)
    page.click("text=Make the class")
    page.locator("#cd-class-said", has_text="The class is made").wait_for()


def saved(page, name: str) -> bytes:
    with page.expect_download() as waiting:
        page.click(f'[data-save="{name}"]')
    with open(waiting.value.path(), "rb") as found:
        return found.read()


def wrong(page, about: str) -> str:
    place = page.locator(f'[data-about="{about}"]')
    place.wait_for()
    return place.inner_text()


def test_its_files_are_those_of_the_command_line(desk, tmp_path):
    desk.set_input_files("#cd-list-file", file("roster.csv", ROSTER))
    desk.wait_for_function("document.querySelector('#cd-list').value.includes('Plover')")
    desk.select_option("#cd-place", "Bergen")
    desk.select_option("#cd-month", "2026-05")
    desk.fill("#cd-length", "80")
    desk.check("#cd-kind-dial")
    desk.locator(".cd-kind:has(#cd-kind-dial) summary").click()
    desk.select_option("#cd-place-dial", "open")
    desk.select_option("#cd-2l-dial", "given")
    desk.fill("#cd-length-dial", "open")
    desk.emulate_media(media="print")  # beside one another on paper too
    assert desk.locator(".cd-own[open] .cd-settings").evaluate("e => getComputedStyle(e).display") == "grid"
    desk.emulate_media(media="screen")
    desk.fill("#cd-phrase", PHRASE)
    desk.fill("#cd-site", "https://saltmarsh.example/")
    desk.fill("#cd-heading-course", "Physics II & III")
    desk.click("summary:has-text('Who may go to the bench')")
    desk.uncheck("#cd-ready-law")
    desk.fill("#cd-weight-viva", "12")
    desk.click("text=Make the class")
    desk.locator("#cd-class-said", has_text="The class is made").wait_for()
    assert "column A “Roll”" in desk.inner_text("#cd-columns")
    assert desk.locator("#cd-preview tbody tr").count() == 3

    roster, out = tmp_path / "roster.csv", tmp_path / "out"
    roster.write_text(ROSTER, encoding="utf-8", newline="")
    options = [
        "--kinds",
        "tan-a,dial",
        "--place",
        "Bergen",
        "--month",
        "2026-05",
        "--length",
        "80",
        "--for",
        "dial",
        "place=open",
        "2l=given",
        "length=open",
        "--site",
        "https://saltmarsh.example/",
        "--course",
        "Physics II & III",
        "--ready",
        "setting,dial,distances",
        "--weights",
        "viva=12",
        "--examination",
    ]
    assert main(["class", str(roster), "--phrase", PHRASE, *options, "--out", str(out)]) == 0
    for name in (*FILES, *EXAMINATION):
        assert saved(desk, name) == (out / name).read_bytes(), name
    desk.click('[data-print="slips.html"]')
    desk.locator(".cd .er-status", has_text="slips.html was handed to the browser to print").wait_for()
    assert desk.frame_locator("#cd-printed").locator(".cl-strip").count() == 3

    # the class file alone brings it back on a page that has nothing
    desk.evaluate("sessionStorage.clear()")
    again = desk.context.new_page()
    again.goto(desk.url)
    ready(again).evaluate(DROP, ["class-file", "class.json", (out / "class.json").read_text()])
    again.locator("#cd-class-said", has_text="3 students, 6 sheets").wait_for()
    assert saved(again, "key.csv") == (out / "key.csv").read_bytes()
    assert again.input_value("#cd-phrase") == PHRASE and "=SUM(A1)" in again.input_value("#cd-list")
    assert again.input_value("#cd-heading-course") == "Physics II & III"
    assert again.input_value("#cd-weight-viva") == "12" and not again.is_checked("#cd-ready-law")


def test_a_list_is_looked_at_before_a_class_is_made_of_it(desk):
    desk.fill("#cd-list", "Class Roll,Univ. Roll,Name\n1,901,Knot\n2,902,Ruff")
    desk.fill("#cd-phrase", PHRASE)
    desk.locator("#cd-sure").wait_for()
    desk.click("text=Make the class")
    assert "The roll could be column A “Class Roll” or column B “Univ. Roll”." in wrong(desk, "list")
    desk.focus("#cd-col-1")
    desk.select_option("#cd-col-1", "roll")
    desk.locator("#cd-columns dd", has_text="line 2: 901, Knot").wait_for()
    assert desk.locator("#cd-sure").count() == 0
    desk.wait_for_function("document.activeElement.id === 'cd-col-1'")
    desk.click("text=Make the class")
    desk.locator("#cd-preview th", has_text="902").wait_for()


def test_what_is_wrong_is_said_where_it_is_and_all_that_was_typed_stays(desk, tmp_path):
    desk.fill("#cd-phrase", "short")
    desk.fill("#cd-list", "7,a\n8,b\n7,c")
    desk.click("text=Make the class")
    assert "lines 1 and 3" in wrong(desk, "list")
    assert desk.get_attribute("#cd-list", "aria-invalid") == "true"
    desk.fill("#cd-list", "1–60")
    desk.click("text=Make the class")
    assert "at least 8" in wrong(desk, "phrase")
    assert desk.locator('[data-about="list"]').is_hidden()
    desk.fill("#cd-phrase", PHRASE)
    desk.uncheck("#cd-kind-tan-a")
    desk.click("text=Make the class")
    assert "Choose at least one" in wrong(desk, "kinds")
    with open(tmp_path / "large.csv", "wb") as large:
        large.truncate(50_000_000)
    for name, content, said in (
        ("large.csv", tmp_path / "large.csv", "50,000,000 bytes; at most 20,000,000"),
        ("picture.csv", file("picture.csv", bytes(range(256))), "CSV UTF-8"),
    ):
        desk.set_input_files("#cd-list-file", content)
        desk.locator('[data-about="list-file"]', has_text=said).wait_for()
        assert name in wrong(desk, "list-file")
    desk.set_input_files("#cd-class-file", file("class.json", "{}"))
    assert "not a class file" in wrong(desk, "class-file")
    assert desk.input_value("#cd-list") == "1–60" and desk.input_value("#cd-phrase") == PHRASE
    desk.check("#cd-kind-law")
    desk.click("text=Make the class")
    desk.locator("#cd-class-said", has_text="60 students").wait_for()
    # a list in UTF-16, as a spreadsheet may save it
    desk.set_input_files("#cd-list-file", file("list.txt", "1\tDunlin\n2\tRuff".encode("utf-16")))
    desk.wait_for_function("document.querySelector('#cd-list').value === '1\\tDunlin\\n2\\tRuff'")


def test_what_is_kept(desk):
    listed = "1,Knot\n2,Ruff\n3,Stint"
    desk.fill("#cd-list", listed)
    desk.select_option("#cd-col-1", "section")
    make_class(desk, listed, ["law", "dial"])
    text = saved(desk, "class.json").decode()
    assert read_class(text).students[1] == ("2", "", "Ruff")
    desk.reload()
    ready(desk)
    desk.wait_for_function("document.querySelector('#cd-col-1')?.value === 'section'")  # as it was chosen
    # the phrase is not kept unless it is asked for
    assert PHRASE not in desk.evaluate("JSON.stringify([{...localStorage}, {...sessionStorage}])")
    assert desk.input_value("#cd-list") == listed and desk.input_value("#cd-phrase") == ""
    assert desk.is_checked("#cd-kind-law") and not desk.is_checked("#cd-kind-tan-a")
    desk.fill("#cd-phrase", PHRASE)
    desk.check("#cd-keep")
    desk.click("text=Make the class")
    desk.locator("#cd-class-said", has_text="The class is made").wait_for()
    desk.reload()
    ready(desk).locator("#cd-class-said", has_text="The class kept on this device is open").wait_for()
    assert saved(desk, "class.json").decode() == text
    desk.uncheck("#cd-keep")
    assert PHRASE not in desk.evaluate("JSON.stringify([{...localStorage}, {...sessionStorage}])")


def slips_of(text: str) -> list[ReturnSlip]:
    """Right answers of everybody."""
    slips = []
    for student, codes in read_class(text).codes():
        for _, code in codes:
            working = open_code(str(code)).working
            values = working.all_values()
            answers = {s.id: values[s.id] if s.choices else as_written(values[s.id], s) for s in working.steps}
            slips.append(ReturnSlip(student.roll, str(code), answers, {}))
    return slips


def test_returned_work_becomes_marks(desk, tmp_path):
    make_class(desk, "Roll,Name\n" + "\n".join(f"{n},Bird {n}" for n in range(1, 6)), ["law"])
    text = saved(desk, "class.json").decode()
    slips = slips_of(text)
    files = [file(f"{n}.txt", return_slip_text(slip)) for n, slip in enumerate(slips[:2])]
    desk.set_input_files("#cd-slips", [*files, file("photo.txt", b"\x89PNG\r\n")])
    desk.locator("#cd-returned-said", has_text="2 slips came in").wait_for()
    assert "photo.txt: It is a picture" in wrong(desk, "slips")
    desk.locator("#cd-intake summary", has_text="What is not marked, and why (1)").wait_for()

    desk.fill("#cd-pasted", "not a slip")
    desk.click("text=Add what is pasted")
    assert "no return slip here" in wrong(desk, "pasted") and desk.input_value("#cd-pasted") == "not a slip"
    desk.fill("#cd-pasted", "Dear all,\n> " + return_slip_text(slips[2]).replace("\n", "\n> "))
    desk.click("text=Add what is pasted")
    desk.locator("#cd-returned-said", has_text="1 slip came in").wait_for()

    # one that came on paper, typed in; what is typed stays when another form is looked at in between
    desk.locator("#cd-paper > summary").click()
    step, answer = next(iter(slips[3].answers.items()))
    for who in ("4", "1", "4"):
        desk.fill("#cd-who", who)
        desk.click("text=Open the form of this sheet")
        desk.locator(".cd-paper-head", has_text=f"Bird {who}").wait_for()
        if who == "1":  # the form shows what came in
            assert desk.input_value(f'[name="{step}"]') == slips[0].answers[step]
        if who == "4" and not desk.input_value(f'[name="{step}"]'):
            desk.fill(f'[name="{step}"]', answer)
    assert desk.input_value(f'[name="{step}"]') == answer
    desk.click("text=Add these answers")
    desk.locator("#cd-returned-said", has_text="was added").wait_for()
    desk.locator("#cd-intake summary", has_text="Missing (1)").wait_for()

    many = len(open_code(slips[0].code).working.steps)
    desk.fill("#cd-step_mark", "two")
    desk.click("#cd-mark")
    assert "“two” is not a number" in wrong(desk, "marks")
    desk.fill("#cd-step_mark", "2")
    desk.click("#cd-mark")
    desk.locator("#cd-marks-said", has_text="4 sheets of 4 students marked").wait_for()
    cells = [row.inner_text().split("\t")[2] for row in desk.locator("#cd-marks-table tbody tr").all()]
    assert cells == [*[f"{2 * many} / {2 * many}"] * 3, f"2 / {2 * many}", f"not handed in: 0 / {2 * many}"]
    assert json.loads(saved(desk, "class.json"))["marks"]["step_mark"] == 2.0
    assert desk.locator("#cd-report figure").count()

    # the command line makes the same of the same marks file
    (tmp_path / "class.json").write_bytes(saved(desk, "class.json"))
    out = tmp_path / "marks"
    out.mkdir()
    (out / "marks.json").write_bytes(saved(desk, "marks.json"))
    assert main(["mark", "--class", str(tmp_path / "class.json"), "--out", str(out)]) == 0
    for name in ("marks.csv", "students.html", "report.html", "ready.html"):
        assert saved(desk, name) == (out / name).read_bytes(), name
    assert saved(desk, "marks.csv").count(b"\r\n") == 6

    # another slip of one sheet, of which nothing says whether it is the later: the instructor chooses
    other = return_slip_text(ReturnSlip("2", slips[1].code, {step: "1"}, {}))
    desk.fill("#cd-pasted", other)
    desk.click("text=Add what is pasted")
    desk.locator("#cd-intake summary", has_text="of 1 it is not known, choose").wait_for()
    desk.locator("#cd-intake label", has_text=other.split()[-1]).click()
    desk.locator("#cd-returned-said", has_text=f"Slip {other.split()[-1]} counts.").wait_for()
    assert desk.evaluate("document.activeElement.checked && document.activeElement.value") == other.split()[-1]

    # taken out again, the marks are no longer shown as if they held
    desk.locator("#cd-intake summary", has_text="What came in").click()
    desk.click('[aria-label="Take out 0.txt"]')
    desk.locator("#cd-intake summary", has_text="Missing (2)").wait_for()
    assert desk.locator("#cd-marked").is_hidden()


def test_marks_are_set_by_hand_and_the_marks_file_is_opened_again(desk):
    make_class(desk, "1-3", ["law"])
    text = saved(desk, "class.json").decode()
    slips = slips_of(text)
    desk.set_input_files("#cd-slips", [file("1.txt", return_slip_text(slips[0]))])
    desk.locator("#cd-returned-said", has_text="1 slip came in").wait_for()
    desk.click("#cd-mark")
    desk.locator("#cd-marks-said", has_text="1 sheet of 1 student marked").wait_for()

    desk.click("summary:has-text('Set a mark by hand')")
    desk.fill("#cd-by-hand-who", "1")
    desk.click("text=Open the marks of this sheet")
    desk.locator("#cd-hand-form table").wait_for()
    desk.fill('[name="mark tan-1"]', "0,5")
    desk.click("text=Set by hand")
    assert "Say why" in wrong(desk, "by-hand") and desk.input_value('[name="mark tan-1"]') == "0,5"
    desk.fill('[name="why"]', "The dial was <b>bent</b>.")
    desk.click("text=Set by hand")
    desk.locator("#cd-hand-form", has_text="Set by hand for roll 1.").wait_for()
    assert "The dial was <b>bent</b>." in desk.text_content("#cd-notes")
    kept, marks = saved(desk, "marks.json"), saved(desk, "marks.csv")

    ready(desk.goto(desk.url) and desk)
    desk.set_input_files("#cd-class-file", file("class.json", text))
    desk.locator("#cd-class-said", has_text="The class file is open").wait_for()
    desk.locator("#cd-hand-sheet option").first.wait_for(state="attached")
    desk.set_input_files("#cd-marks-file", file("marks.json", kept))
    desk.locator("#cd-intake table").wait_for()
    desk.click("#cd-mark")
    desk.locator("#cd-marks-said", has_text="1 sheet of 1 student marked").wait_for()
    assert saved(desk, "marks.json") == kept and saved(desk, "marks.csv") == marks

    make_class(desk, "2-3", ["law"])
    assert "1 student of before is not in it: 1." in wrong(desk, "marks-file")


def test_what_python_lost_when_it_was_started_again_is_opened_again(page, site):
    """The class and its work are asked for by handles; Python that was started again knows none."""
    worker = (site / "eight/worker.js").read_text()
    broken = [breaking_down(worker, "classroom.desk.marks.mark")]
    page.route(
        "**/eight/worker.js",
        lambda route: route.fulfill(body=broken.pop() if broken else worker, content_type="text/javascript"),
    )
    page.goto(f"{page.base}class/desk/")
    desk = ready(page)
    make_class(desk, "1-3", ["law"])
    text = saved(desk, "class.json").decode()
    desk.fill("#cd-pasted", "\n".join(map(return_slip_text, slips_of(text)[:2])))
    desk.click("text=Add what is pasted")
    desk.locator("#cd-returned-said", has_text="2 slips came in").wait_for()
    desk.click("#cd-mark")
    assert "can no longer be used). What you typed is kept; try once more." in wrong(desk, "marks") and not broken
    for _ in range(300):  # until Python is there again; the page says so each time
        desk.click("#cd-mark")
        desk.wait_for_timeout(100)
        if "2 sheets of 2 students marked" in desk.inner_text("#cd-marks-said"):
            break
    assert saved(desk, "marks.csv").count(b"\r\n") == 4
    assert saved(desk, "codes.csv").count(b"\n") == 4


def test_a_file_that_cannot_be_made_is_told_in_the_part_with_its_button(page, site):
    worker = (site / "eight/worker.js").read_text()
    told = 'throw new Error("this was on purpose.");'
    broken = worker.replace("try{", f'try {{\n    if (call === "classroom.desk.classes.part") {told}', 1)
    assert broken != worker
    page.route("**/eight/worker.js", lambda route: route.fulfill(body=broken, content_type="text/javascript"))
    page.goto(f"{page.base}class/desk/")
    desk = ready(page)
    make_class(desk, "1-3", ["law"])
    for name, about in (("working.html", "key"), ("sheets.html", "students")):
        desk.click(f'[data-save="{name}"]')
        assert "this was on purpose). What you typed is kept" in wrong(desk, about)


def test_long_work_shows_how_far_it_is_and_can_be_stopped(desk):
    make_class(desk, "1-4000")
    desk.click('[data-save="key.csv"]')
    desk.locator("#cd-stop").wait_for()
    desk.click("#cd-stop")
    desk.locator(".cd .er-status", has_text="stopped after").wait_for()
    assert desk.locator(".cd-progress").is_hidden()
    assert saved(desk, "codes.csv").count(b"\n") == 4001


def test_before_python_and_without_it_the_page_can_be_read(page):
    page.route("**/worker.js", lambda route: route.abort())
    page.goto(f"{page.base}class/desk/")
    page.locator(".cd .er-status[data-state=failed]", has_text="could not start").wait_for()
    assert page.is_disabled("#cd-phrase") and page.is_disabled("#cd-mark")
    assert page.locator(".cd-part").count() == 5
    names = page.evaluate("""() => [...document.querySelectorAll('.cd :is(input, select, textarea, button)')]
        .filter(e => !(e.labels?.length || e.ariaLabel || e.textContent.trim())).map(e => e.outerHTML)""")
    assert names == []
