"""What a class is set: settings for all kinds or for one, and what is refused when it is set."""

import pytest

from exercises.classroom.class_list.class_file import ClassError, tasks_from
from exercises.codes.conventions import OPEN
from exercises.codes.sheet_code import Setting, Station


def test_what_a_kind_has_of_its_own_takes_the_place_of_what_all_have():
    common = {"place": "Bergen", "month": "2026-05", "step": "1", "length": "", "distances": " "}
    own = {"law": {"place": "lima", "step": "", "length": "Open"}, "dial": {"step": OPEN}, "tan-b": {"field": "38.2"}}
    tasks = tasks_from(["tan-a", "law", "dial", "tan-b", "tan-a"], common, own)
    assert [t.kind.slug for t in tasks] == ["tan-a", "law", "dial", "tan-b"]
    bergen, lima = Station(3, 2026, 5), Station(13, 2026, 5)
    assert [t.setting for t in tasks] == [
        Setting(field=bergen, scale_step=1.0),
        Setting(field=lima, scale_step=1.0),
        Setting(field=bergen),
        Setting(field=38.2, scale_step=1.0),
    ]
    assert all(t.edition == t.kind.edition for t in tasks)


@pytest.mark.parametrize(
    "words, said",
    [
        ({"colour": "red"}, "no setting “colour”"),
        ({"place": "Nowhere", "month": "2026-05"}, "There are: Aberdeen"),
        ({"field": "0.382"}, "Is “0.382” in gauss? A number without a unit is in µT here: type 38.2, or 0.382 G."),
        ({"length": "9.6"}, "type 96, or 9.6 cm."),
    ],
)
def test_what_is_no_setting(words, said):
    with pytest.raises(ClassError) as told:
        tasks_from(["law"], words)
    assert (
        said in str(told.value)
        and "law" not in str(told.value)
        and str(told.value).endswith(".")
        and told.value.part == "kinds"
    )


def test_what_is_wrong_with_one_kind_names_it():
    with pytest.raises(ClassError) as told:
        tasks_from(["dial", "law"], {}, {"law": {"field": "3.82e-5"}})
    assert str(told.value).startswith("For law: Is “3.82e-5” in tesla?")


def test_too_few_distances_are_refused_when_they_are_set():
    words = {"length": "40", "grid": "10 mm", "field": "65"}
    with pytest.raises(ClassError) as told:
        tasks_from(["tan-b"], {**words, "distances": "8"})
    assert str(told.value) == (
        "Tan B: A bar of 40 mm in a field of 65.0 µT leaves at most 5 distances of whole centimetres between 30° and "
        "60°; 8 are set."
    )
    assert tasks_from(["tan-b", "law"], {**words, "distances": "5"})
    assert tasks_from(["law"], {**words, "distances": "8"})
