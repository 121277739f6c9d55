"""The class file: read again it makes the same class, and a damaged one is refused with a sentence."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.classroom.class_list import class_file
from exercises.classroom.class_list.class_file import ClassError, class_text, make, read_class, task
from exercises.classroom.class_list.codes import PhraseError
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.scheme import Scheme
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import Setting
from exercises.files.nested import nested
from exercises.kinds.kind import all_kinds
from tests.exercises.classwork import read
from tests.exercises.settings import FIXED, SETTINGS

PLACES = places_of(1)
PHRASE = "sand and salt water"
CLASS = make(
    (Student("1", "Ringed Plover"), Student("=2", "@Dunlin, “small”"), Student("3", "علي")),
    PHRASE,
    [task("tan-b", FIXED), task("dial", Setting(field=38.2))],
    "https://saltmarsh.example/lab",
    Scheme(step_mark=2.0, columns=(("tan-b/pole", 5.0),), follows=0.5, figures=0.25, attempt="first", out_of=20.0),
)


@settings(max_examples=100, deadline=None)
@given(
    st.integers(1, 50),
    st.dictionaries(
        st.sampled_from(list(all_kinds())),
        SETTINGS,
        min_size=1,
    ),
    st.sampled_from(["", "http://127.0.0.1:8000/", "https://saltmarsh.example"]),
)
def test_written_and_opened_it_is_the_same(many, kinds, site):
    tasks = [task(slug, setting) for slug, setting in kinds.items() if not all_kinds()[slug].refuses(setting)]
    made = make(read(f"1-{many}"), PHRASE, tasks or [task("law")], site)
    assert read_class(class_text(made)) == made


def test_heading_separator_and_sections_come_back():
    students = (Student("1", "Ringed Plover", "A"), Student("2", "Dunlin"))
    heading = Heading("Saltmarsh College", "Physics I", "Laboratory 2", "week 12")
    made = make(students, PHRASE, [task("law")], heading=heading, separator=";")
    assert read_class(class_text(made)) == made
    for part in ('"heading": {"course": 3}', '"heading": {"room": "x"}', '"heading": []', '"separator": "|"'):
        with pytest.raises(ClassError, match="damaged|heading"):
            read_class(class_text(CLASS).replace('"marks":', f'{part}, "marks":'))


def test_names_and_rolls_that_begin_a_formula_come_back():
    again = read_class("\ufeff" + class_text(CLASS))
    assert again == CLASS and again.codes() == CLASS.codes()


def test_a_person_can_read_it():
    text = class_text(CLASS)
    for shown in (
        "Bergen",
        "علي",
        PHRASE,
        "tan-b",
        "https://saltmarsh.example/lab",
        "keep it where no student reads it",
    ):
        assert shown in text
    assert len(text.splitlines()) < 25


def test_the_editions_are_kept():
    kept = json.loads(class_text(CLASS))
    assert [(k["kind"], k["edition"]) for k in kept["kinds"]] == [(t.kind.slug, t.edition) for t in CLASS.tasks]
    kept["kinds"][0]["edition"] = 22
    with pytest.raises(ClassError, match="edition 22 of tan-b"):
        read_class(json.dumps(kept))


def test_each_kind_has_its_own_setting():
    for _, assigned in CLASS.codes():
        assert [code.setting for _, code in assigned] == [FIXED, Setting(field=38.2)]


@pytest.mark.parametrize("of_each_kind", [True, False])
def test_one_of_the_former_layout_is_said_to_be_one(of_each_kind):
    """As it was written before a laboratory had conventions: four settings, of each kind or of all."""
    kept = json.loads(class_text(CLASS))
    old = {"place": "Bergen", "scale_step_degrees": 0.5, "distances": 5, "length_mm": 80}
    kinds = [{"kind": k["kind"], "edition": k["edition"], **(old if of_each_kind else {})} for k in kept["kinds"]]
    with pytest.raises(ClassError) as told:
        read_class(json.dumps({**kept, "kinds": kinds, **({} if of_each_kind else old)}))
    assert "of the former layout" in str(told.value) and "Make the class again from its list" in str(told.value)


def altered(change: dict) -> dict:
    """The class file with something changed: of the class, or of its first kind."""
    kept = json.loads(class_text(CLASS))
    of_kind = {k: v for k, v in change.items() if k in kept["kinds"][0]}
    kept["kinds"][0].update(of_kind)
    return {**kept, **{k: v for k, v in change.items() if k not in of_kind}}


@pytest.mark.parametrize(
    "change",
    [
        {"phrase": None},
        {"phrase": 7},
        {"phrase": "short"},
        {"students": []},
        {"students": None},
        {"students": [{"roll": "1"}]},
        {"students": [{"roll": 1, "name": "a"}]},
        {"students": [{"roll": "1", "name": "a"}, {"roll": "1", "name": "b"}]},
        {"students": [{"roll": "", "name": "a"}]},
        {"students": "1-60"},
        {"kinds": []},
        {"kinds": [{"kind": "tan-a", "edition": 1}]},
        {"kind": "tan-z"},
        {"kind": None},
        {"kind": "dial"},
        {"edition": 1.0},
        {"edition": True},
        {"marks": 7},
        {"marks": {"step_mark": "two"}},
        {"marks": {"colour": 1}},
        {"place": "Nowhere"},
        {"place": ["Bergen"]},
        {"month": None},
        {"step": 0.5},
        {"step": "nan"},
        {"distances": 5},
        {"distances": "99"},
        {"field": "0.382"},
        {"2l": "half"},
        {"edition": 10**400},
        {"marks": {"step_mark": 10**400}},
        {"length": {}},
        {"site": "javascript:alert(1)"},
        {"site": None},
    ],
    ids=str,
)
def test_a_damaged_one_is_refused(change):
    with pytest.raises((ClassError, PhraseError)) as told:
        read_class(json.dumps(altered(change)))
    assert str(told.value)[0].isupper() and str(told.value).endswith(".") and len(str(told.value)) < 500


@settings(max_examples=200, deadline=None)
@given(st.integers(1, len(class_text(CLASS)) - 3))
def test_one_cut_short_is_refused(length):
    with pytest.raises(ClassError, match="not a class file"):
        read_class(class_text(CLASS)[:length])


def test_an_empty_one_is_said_to_be():
    for text in ("", "\ufeff", " \n"):
        with pytest.raises(ClassError, match="This class file is empty: there is nothing in it"):
            read_class(text)


@pytest.mark.parametrize(
    "change, said",
    [
        (("sites", ""), "This class file has “sites”, which is not known here. Is site meant? There can be: about, "),
        (
            ("kinds", 0, "lenght", 80),
            "A kind in this class file has “lenght”, which is not known here. Is length meant?",
        ),
        (
            ("students", 0, "nick", "Tern"),
            "A student in this class file has “nick”, which is not known here. There can",
        ),
    ],
)
def test_what_is_not_known_in_one_is_not_dropped_without_a_word(change, said):
    found = json.loads(class_text(CLASS))
    *way, key, value = change
    part = found
    for step in way:
        part = part[step]
    part[key] = value
    with pytest.raises(ClassError) as told:
        read_class(json.dumps(found))
    assert str(told.value).startswith(said) and str(told.value).endswith("Mend the word, or take it out.")


@pytest.mark.parametrize(
    "text",
    ["[]", "7", "null", "[" * 100_000, '{"a":' * 10_000 + "1" + "}" * 10_000, "[[]," * 50, '{"students": {}}'],
)
def test_what_is_no_class_file_is_refused(text):
    with pytest.raises(ClassError, match="not a class file"):
        read_class(text)


@pytest.mark.parametrize(
    "site",
    [
        "saltmarsh.example",
        "ftp://saltmarsh.example",
        "https://a b",
        'https://a"b',
        "https://a/?x",
        "https://a\udcff",
        "https://" + "a" * 300,
    ],
)
def test_a_site_that_is_no_address(site):
    with pytest.raises(ClassError, match="http"):
        make(read("1-2"), PHRASE, [task("tan-a")], site=site)


def test_how_deep_brackets_may_stand():
    """As many as _DEEPEST in one another, of either kind and both together; those in a string do not count."""
    deep = class_file._DEEPEST
    for one, other in (("[", "]"), ("{", "}")):
        assert not nested(one * deep, deep) and nested(one * (deep + 1), deep)
        assert not nested(one * deep + other * deep + one * deep, deep)
    assert not nested("[" * (deep // 2) + "{" * (deep - deep // 2), deep)
    assert nested("[" * (deep // 2) + "{" * (deep - deep // 2 + 1), deep)
    assert not nested('"' + "[" * 99 * deep + '"', deep) and not nested("[]{}" * 99 * deep, deep)
    whole = "[" * (2 * deep + 2) + "]" * (2 * deep + 2)
    assert nested("[" * (2 * deep + 1) + "]" * (2 * deep + 1), deep) and nested(whole, deep)


def test_a_class_with_more_sheets_than_a_table_has_rows_is_refused():
    tasks = [task(slug) for slug in list(all_kinds())[:11]]
    students = [Student(str(n)) for n in range(95_326)]
    with pytest.raises(ClassError, match="95,326 students with 11 kinds are more sheets than one table holds"):
        make(students, "sand and salt water", tasks)
