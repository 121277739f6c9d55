"""The scheme of marks: it is kept whole, and what makes no sense is refused with a sentence."""

import json
import math

import pytest

from exercises.classroom.marking.scheme import Scheme, SchemeError, as_dict, columns_of, from_dict
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.kind import all_kinds, open_code

ODD = Scheme(2.5, (("tan-a/pole", 3.0), ("law/tan-1", 0.0)), 0.5, 0.25, 0.1, "first", 20.0)


def test_the_first_attempt_is_marked_unless_the_last_is_asked_for():
    """The full working is shown to whoever asks twice, so the last attempt may be a copy of it."""
    assert Scheme().attempt == from_dict({}).attempt == "first" and from_dict({"attempt": "last"}).attempt == "last"


@pytest.mark.parametrize("scheme", [Scheme(), ODD])
def test_a_scheme_comes_back_from_json(scheme):
    assert from_dict(json.loads(json.dumps(as_dict(scheme)))) == scheme


def test_what_is_left_out_is_as_usual():
    assert from_dict({}) == Scheme() and from_dict({"follows": 0.5}) == Scheme(follows=0.5)


def test_the_mark_of_a_step():
    assert (
        ODD.for_step("tan-a", "pole") == 3
        and ODD.for_step("tan-b", "pole") == 2.5
        and ODD.for_step("law", "tan-1") == 0
    )


@pytest.mark.parametrize(
    "found, said",
    [
        ({"step_mark": -1}, "mark of a step must be a number from 0 to 1000"),
        ({"step_mark": "1"}, "mark of a step"),
        ({"step_mark": True}, "mark of a step"),
        ({"follows": 1.01}, "“follows” must be a number from 0 to 1."),
        ({"figures": math.nan}, "“figures”"),
        ({"units": math.inf}, "“units”"),
        ({"step_mark": 10**400}, "mark of a step"),  # too large for a float
        ({"columns": {"tan-a/pole": -(10**400)}}, "The mark of tan-a/pole"),
        ({"attempt": "best"}, "“first” or “last”"),
        ({"attempt": []}, "“first” or “last”"),
        ({"out_of": 0}, "more than nothing"),
        ({"out_of": 10_001}, "from 0 to 10000"),
        ({"columns": {"tan-a": 1}}, "has no step “”. It has: mean, tan, bracket, moment, mean-moment, pole."),
        ({"columns": {"tan-a/poles": 1}}, "has no step “poles”"),
        ({"columns": {"tan-z/pole": 1}}, "The kinds are: tan-a, "),
        ({"columns": {"tan-a/pole": "2"}}, "The mark of tan-a/pole"),
        ({"columns": [["tan-a/pole", 2]]}, "names with numbers"),
        ({"marks": 3}, "There are: step_mark, columns"),
        ([], "not in the form"),
        (None, "not in the form"),
    ],
)
def test_what_makes_no_sense_is_refused(found, said):
    with pytest.raises(SchemeError) as error:
        from_dict(found)
    assert said in str(error.value) and str(error.value).endswith(".")


def test_a_step_named_twice():
    with pytest.raises(SchemeError, match="twice"):
        Scheme(columns=(("tan-a/pole", 1.0), ("tan-a/pole", 2.0)))


@pytest.mark.parametrize("slug", all_kinds())
def test_every_step_of_any_sheet_can_be_given_a_mark(slug):
    kind = all_kinds()[slug]
    named = set()
    for seed in range(100, 115):
        named |= {s.column for s in open_code(str(SheetCode(kind.letter, kind.edition, seed))).working.steps}
    assert named == set(columns_of(slug))


@pytest.mark.parametrize(
    "columns", [(("tan-a/pole",),), (("tan-a/pole", 1.0, 2.0),), [("tan-a/pole", 1.0)], (["tan-a/pole", 1.0],)]
)
def test_what_is_no_pair_of_a_name_and_a_number(columns):
    with pytest.raises(SchemeError, match="pairs of a name and a number"):
        Scheme(columns=columns)
