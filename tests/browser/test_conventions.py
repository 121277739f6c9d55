"""A laboratory's own conventions under New numbers: remembered, and left alone by codes that are opened."""

from exercises.codes.sheet_code import Setting, SheetCode, read, write
from tests.browser.steps import SHEET, open_sheet

CODE = write(SheetCode("A", 1, 0))
CLASS = write(SheetCode("A", 1, 0, Setting("five-sixths", 20.0)))  # of a class with settings of its own

#: Whether an element stands whole on the screen (it may have to be scrolled to).
SEEN = """name => {
    const { top, bottom } = document.querySelector(name).getBoundingClientRect();
    return top >= 0 && bottom <= innerHeight;
}"""


def take(page) -> Setting:
    """New numbers by what is chosen; the settings in their code."""
    before = page.input_value("#er-code")
    page.click("text=New numbers by these")
    page.wait_for_function("old => document.querySelector('#er-code').value !== old", arg=before)
    return read(page.input_value("#er-code")).setting


def test_they_are_remembered_and_a_code_that_is_opened_leaves_them(page):
    open_sheet(page, CODE)
    page.click(".er-conventions > summary")
    page.fill("#er-new-field", "38.2")
    page.select_option("#er-new-2l", "given")
    assert take(page) == Setting("given", 38.2)
    for code in (CLASS, CODE):
        open_sheet(page, code)
        assert (page.input_value("#er-new-field"), page.input_value("#er-new-2l")) == ("38.2", "given")
        assert page.locator(".er-conventions > summary", has_text="(2 set)").count() == 1
    open_sheet(page, None, "exercises/law/")  # another exercise, no code: new numbers come by themselves
    assert read(page.input_value("#er-code")).setting == Setting("given", 38.2)
    page.click(".er-conventions > summary")
    page.click("text=As usual")
    page.wait_for_function("!document.querySelector('.er-conventions-set').textContent")
    assert take(page) == Setting()


def test_what_has_no_numbers_is_asked_about_and_the_sheet_stays(page):
    open_sheet(page, CODE)
    page.click(".er-conventions > summary")
    page.fill("#er-new-field", "0.382")
    page.click("text=New numbers by these")
    page.locator(".er-trouble", has_text="Is “0.382” in gauss?").wait_for()
    assert page.input_value("#er-code") == CODE
    for word, choice in (("field", "65"), ("length", "40")):
        page.fill(f"#er-new-{word}", choice)
    for word, choice in (("grid", "10 mm"), ("distances", "8")):
        page.select_option(f"#er-new-{word}", choice)
    page.click("text=New numbers by these")
    page.locator(".er-trouble", has_text="leaves at most 7 distances of whole centimetres").wait_for()
    page.fill("#er-new-field", "")
    assert take(page) == Setting(length_mm=40, grid_mm=10, distances=8)
    assert page.locator(".er-trouble").is_hidden()


def test_what_is_kept_and_cannot_be_used_is_said_where_it_can_be_mended(page):
    page.evaluate("""localStorage.setItem("eight-readings:conventions", '{"field": "9.6", "2l": "other"}')""")
    page.goto(f"{page.base}{SHEET}")
    page.locator(".er-trouble", has_text="BH is a number from 10.0 to 65.0 µT").wait_for(timeout=60_000)
    assert page.locator("#er-new-field").is_visible() and page.input_value("#er-new-2l") == ""
    page.fill("#er-new-field", "")
    assert take(page) == Setting()


def test_a_code_of_the_former_layout_is_said_to_be_one(page):
    page.goto(f"{page.base}{SHEET}?code=A322-2557-87X5")
    told = "This is a code of the former layout, with 12 characters"
    page.locator(".er-trouble", has_text=told).wait_for(timeout=60_000)


def test_on_a_phone_what_came_of_the_form_is_seen(page):
    """The form alone is as high as the screen: what is said below it, and the sheet, must not stay out of sight."""
    open_sheet(page, CODE)
    page.click(".er-conventions > summary")
    page.fill("#er-new-field", "0.382")
    page.click("text=New numbers by these")
    page.locator(".er-trouble", has_text="in gauss?").wait_for()
    page.wait_for_function(SEEN, arg=".er-trouble")
    page.click(".er-conventions > summary")
    page.click(".er-fresh")  # the form is shown, and with it what is wrong
    page.wait_for_function("document.querySelector('.er-conventions').open")
    page.wait_for_function(SEEN, arg=".er-trouble")
    page.fill("#er-new-field", "38.2")
    assert take(page) == Setting(field=38.2)
    page.wait_for_function("!document.querySelector('.er-conventions').open")
    assert page.locator(".er-conventions > summary").evaluate("e => e === document.activeElement")
    page.wait_for_function(SEEN, arg=".er-sheet-head")


def test_the_open_form_fits(page):
    page.emulate_media(reduced_motion="reduce")  # so that nothing is still sliding when it is measured
    open_sheet(page, CODE)
    page.click(".er-conventions > summary")
    for width in (360, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
