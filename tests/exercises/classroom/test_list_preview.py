"""The class list on the desk, before a class is made: what is shown, what can be chosen, and what is made of it."""

import json
import re

from exercises.classroom.class_list.class_file import read_class
from exercises.classroom.desk import classes, list_preview

LIST = (
    "Dept of Physics,,,\nS.No,Class Roll,Univ. Roll,Name\n1,11,901,Knot\n2,12,902,Ruff\n3,13,903,<b>Dunlin\n,,,Total\n"
)


def shown(text: str, picked: dict | None = None) -> dict:
    said = json.loads(list_preview.preview(text, json.dumps(picked or {})))
    assert said["ok"]
    return said


def menus(html: str) -> dict[str, str]:
    """What each menu shows."""
    found = re.findall(r'<select id="[^"]*" name="([^"]*)">(.*?)</select>', html)
    return {name: re.search(r'<option value="([^"]*)" selected', options)[1] for name, options in found}


def made(text: str, picked: dict) -> dict:
    given = {"list": text, "columns": picked, "phrase": "sand and salt water", "kinds": ["distances"]}
    return json.loads(classes.make(json.dumps({**given, "common": {}, "own": {}, "site": ""})))


def students(text: str, picked: dict) -> list[tuple[str, str]]:
    said = made(text, picked)
    assert said["ok"], said
    return [(s.roll, s.name) for s in read_class(said["text"]).students]


def test_the_preview_has_menus_and_says_what_is_not_certain():
    said = shown(LIST)
    wanted = {"above": "2", "below": "1", "col-0": "", "col-1": "roll", "col-2": "", "col-3": "name"}
    assert menus(said["html"]) == wanted
    assert "The roll could be column B “Class Roll” or column C “Univ. Roll”." in said["html"]
    assert 'name="sure">' in said["html"] and "<b>" not in said["html"]
    assert said["html"].count("left out</small>") == 2  # the title and the sum
    assert said["html"].count("headings</small>") == 1


def test_nothing_is_made_until_it_is_certain_or_the_person_agrees():
    refused = made(LIST, {})
    assert not refused["ok"] and refused["control"] == "list" and "The roll could be" in refused["text"]
    held = shown(LIST, shown(LIST)["columns"] | {"sure": True})
    assert 'name="sure" checked>' in held["html"] and held["columns"]["sure"] is True
    assert students(LIST, held["columns"])[0] == ("11", "Knot")


def test_what_is_chosen_in_the_menus_stands():
    columns = shown(LIST)["columns"]
    assert students(LIST, columns | {"col-2": "roll"})[0] == ("901", "Knot")
    assert menus(shown(LIST, columns | {"col-1": ""})["html"])["col-2"] == "roll"  # the next that could be it
    assert students(LIST, columns | {"col-2": "roll", "below": "2"}) == [("901", "Knot"), ("902", "Ruff")]
    assert students(LIST, columns | {"col-2": "roll", "above": "3"})[0] == ("902", "Ruff")
    both = columns | {"col-2": "roll", "col-1": "name-2"}
    assert students(LIST, both)[0] == ("901", "Knot 11")
    assert students(LIST, columns | {"col-2": "roll", "col-3": ""})[0] == ("901", "")
    section = read_class(made(LIST, columns | {"col-2": "roll", "col-0": "section"})["text"])
    assert section.students[1].section == "2"


def test_a_choice_is_not_held_against_another_list():
    columns = shown(LIST)["columns"] | {"col-2": "roll"}
    other = "Name,Roll,Mark,Group\nKnot,7,1,A\n"
    assert set(shown(other, columns)["columns"]) == {"list"}
    assert students(other, columns) == [("7", "Knot")]
    longer = LIST.replace(",,,Total", "4,14,904,Stint\n,,,Total")
    assert students(longer, columns)[-1] == ("904", "Stint")  # but a student more makes no other list


def test_a_list_whose_rows_cannot_be_used_still_has_its_menus():
    twice = "Roll,Wing,Name\n1,a1,Knot\n1,a2,Ruff\n"
    said = shown(twice)
    assert "Roll 1 is on lines 2 and 3" in said["html"] and menus(said["html"])["col-0"] == "roll"
    assert students(twice, said["columns"] | {"col-1": "roll"}) == [("a1", "Knot"), ("a2", "Ruff")]


def test_roll_numbers_alone_have_no_columns():
    said = shown("1-60")
    assert "<dt>students</dt><dd><bdi>60: rolls 1 to 60</bdi>" in said["html"] and "<select" not in said["html"]
    refused = json.loads(list_preview.preview("60", "{}"))
    assert not refused["ok"] and "Did you mean 1-60?" in refused["text"]
