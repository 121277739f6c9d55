"""Setting up: every step worked afresh from the drawn lines, the slips named, and what may be chosen."""

import json
import math
import random
import re
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.codes.sheet_code import SCALE_STEPS, SEEDS, Setting, SheetCode
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.kind import all_kinds
from exercises.kinds.setting.choices import ARMS, FIRST, LEFT_OUT, NEXT, REMAINS
from exercises.kinds.setting.draw import ASKEW, LINES, POINTERS
from exercises.kinds.setting.kind import KIND
from exercises.student import desk as student
from tests.exercises.settings import SETTINGS
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

CHANCE = random.Random("setting up")
CODES = [
    SheetCode("P", 1, CHANCE.randrange(SEEDS), Setting(scale_step=step)) for step in SCALE_STEPS for _ in range(15)
]
SHEETS = [(s, KIND.working(s)) for s in map(KIND.draw, CODES)]
CATALOGUE = all_kinds()["setting"].slips_of(1)
PLAIN = [slip for slip in CATALOGUE if not slip.hides]
NAME = {"ids": lambda x: str(getattr(x, "code", ""))}


def near(x, step):
    """To the nearest division."""
    return math.floor(x / step + 0.5) * step


def sheet_where(holds):
    return next((s, w) for s, w in SHEETS if holds(s))


@pytest.mark.parametrize("scenario,working", SHEETS, **NAME)
def test_every_step_worked_afresh(scenario, working):
    values = working.all_values()
    for n, board in enumerate(scenario.boards, 1):
        # the pivot's share by the tangent: it stands so far north of the centre
        off = math.degrees(math.atan(board.pivot_y / (scenario.box.radius + board.pivot_x)))
        other = math.degrees(math.atan(board.pivot_y / (scenario.box.radius - board.pivot_x)))
        ends = abs(board.pointer - off), abs(board.pointer + other)
        read = [near(end, scenario.scale_step) for end in ends]
        assert [values[f"read-{n}-1"], values[f"read-{n}-2"]] == read
        line = near(abs(board.line), scenario.scale_step)
        assert values[f"line-{n}"] == values[f"turn-first-{n}"] == line
        assert values[f"first-{n}"] == ("box-clockwise" if board.line > 0 else "box-anticlockwise")
        shows = board.pointer - board.line
        worked = abs(sum(read) / 2 - line * (1 if board.same_side else -1))
        assert values[f"shows-{n}"] == values[f"turn-next-{n}"] == pytest.approx(worked)
        assert worked == pytest.approx(abs(shows), abs=0.5 * scenario.scale_step)  # what it truly shows
        assert values[f"next-{n}"] == ("board-clockwise" if shows > 0 else "board-anticlockwise")
        assert values[f"arms-{n}"] == "east-west"
    for row, readings in enumerate(scenario.readings, 1):
        east, west = readings[0:2] + readings[4:6], readings[2:4] + readings[6:8]
        assert values[f"diff-{row}"] == pytest.approx(abs(sum(east) - sum(west)) / 4)
    asked = scenario.asked + 1
    mean = sum(scenario.readings[scenario.asked]) / 8
    theta = math.radians(mean)
    share = math.sin(theta) ** 2 if scenario.left_out == "first" else math.cos(theta) ** 2
    assert values[f"mean-{asked}"] == pytest.approx(mean)
    assert values["askew"] == pytest.approx(values[f"diff-{asked}"] / 2 / share)
    assert values["rest"] == pytest.approx(math.radians(values["askew"]) ** 2 / 2 * abs(math.cos(2 * theta)))
    assert values["left-out"] == scenario.left_out
    assert values["remains"] == ("large" if mean > 45 else "small")


@pytest.mark.parametrize("scenario,working", SHEETS, **NAME)
def test_limits(scenario, working):
    assert sorted(board.same_side for board in scenario.boards) == [False, True]
    for board in scenario.boards:
        assert LINES[0] - 0.5 <= abs(board.line) <= LINES[1] + 0.65 and POINTERS[0] <= abs(board.pointer) <= POINTERS[1]
        assert ASKEW[0] <= abs(board.arms) <= ASKEW[1]
        one, two = board.signed_ends(scenario.box)
        assert (abs(one), abs(two)) == pytest.approx(board.ends(scenario.box))
        assert (one > 0) == (two > 0) == (board.pointer > 0)
        for tip in (one, two):  # no eye can be in doubt about the division
            assert abs(tip / scenario.scale_step - round(tip / scenario.scale_step)) <= 0.3 + 1e-9
        assert abs(board.line / scenario.scale_step - round(board.line / scenario.scale_step)) <= 0.16
    near, far = (sum(row) / 8 for row in scenario.readings)
    assert near > 49 and far < 41 and all(20 < r < 70 for row in scenario.readings for r in row)
    if scenario.code.setting.scale_step:
        assert scenario.scale_step == scenario.code.setting.scale_step
    assert scenario.diagnosable


def test_every_turn_every_side_and_either_distance_is_drawn():
    assert {s.left_out for s, _ in SHEETS} == {"first", "second"} and {s.asked for s, _ in SHEETS} == {0, 1}
    chosen = {w.value(step_id) for _, w in SHEETS for step_id in ("first-1", "next-1", "first-2", "next-2")}
    assert chosen == {f"{what}-{way}" for what in ("box", "board") for way in ("clockwise", "anticlockwise")}


@given(SETTINGS)
def test_only_the_scale_step_of_a_laboratory_matters(setting):
    assert KIND.refuses(setting) == ""
    scenario = KIND.draw(SheetCode("P", 1, 77, setting))
    assert scenario.diagnosable and scenario.scale_step in ((setting.scale_step,) if setting.scale_step else (1.0, 0.5))


@pytest.mark.parametrize("scenario,working", SHEETS[::4], **NAME)
def test_each_slip_is_named(scenario, working):
    for step in working.steps:
        if step.choices:
            continue
        for slip, values in slip_values(working, step, PLAIN, {}):
            verdict = judge(
                working, CATALOGUE, {step.id: f"{values[0] / (0.01 if step.id == 'rest' else 1):.2e}"}, step.id
            )
            assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), step.id


def test_every_slip_is_met():
    seen = {
        slip.key
        for _, working in SHEETS[:12]
        for step in working.steps
        if not step.choices
        for slip, _ in slip_values(working, step, CATALOGUE, {})
    }
    # there is one row of each column that slips are looked for in, and nothing in units of the CGS system
    assert seen == {slip.key for slip in CATALOGUE} - {"other-row", "cgs"}


@pytest.mark.parametrize("scenario,working", SHEETS[::3], **NAME)
def test_the_slips_of_the_trade_are_named_as_a_student_types_them(scenario, working):
    """The board first, the box the wrong way round, the pointer as found, the needle for the pointer."""
    step, n = scenario.scale_step, 1 if scenario.boards[0].same_side else 2
    board = scenario.boards[n - 1]
    one, two = (near(end, step) for end in board.ends(scenario.box))
    pointer, line = (one + two) / 2, near(abs(board.line), step)
    shows = abs(pointer - line)
    for step_id, number, slip in (
        (f"turn-first-{n}", pointer, "setting-board-first"),
        (f"turn-first-{n}", 90 - line, "setting-pointer-for-needle"),
        (f"shows-{n}", pointer + line, "setting-wrong-way-round"),
        (f"shows-{n}", 90 - shows, "setting-shown-from-ninety"),
        (f"turn-next-{n}", pointer, "setting-pointer-as-found"),
        (f"turn-next-{n}", line, "setting-box-turned-again"),
        (f"turn-next-{n}", 90 - shows, "setting-pointer-for-needle"),
        (f"read-{n}-1", 90 - one, "from-the-wrong-zero"),
        (f"read-{n}-1", one * 2 if step == 0.5 else one / 2, "division-misjudged"),
        (f"line-{n}", 90 - line, "setting-line-from-ninety"),
    ):
        if number == shows and step_id == f"turn-next-{n}":
            continue  # the board turns by as much as the box did
        if one >= 10 and slip == "division-misjudged":
            continue  # past the 10 only what is counted from it is misjudged
        read = {f"read-{n}-1": f"{one:g}", f"read-{n}-2": f"{two:g}", f"line-{n}": f"{line:g}"}
        for before in ({}, read):
            typed = {**before, step_id: f"{number:g}"}
            assert judge(working, CATALOGUE, typed, step_id).slips == (slip,), (step_id, before)


@pytest.mark.parametrize(
    "choices", [FIRST, NEXT, ARMS, LEFT_OUT, REMAINS], ids=["first", "next", "arms", "left", "rest"]
)
def test_a_wrong_choice_is_told_why_and_nothing_more(choices):
    column = {id(FIRST): "first", id(NEXT): "next", id(ARMS): "arms", id(LEFT_OUT): "left-out", id(REMAINS): "remains"}
    for _, working in SHEETS[:6]:
        step = next(s for s in working.steps if s.column == column[id(choices)])
        assert step.choices is choices
        for key, _, said in choices:
            verdict = judge(working, CATALOGUE, {step.id: key}, step.id)
            right = key == working.value(step.id)
            assert verdict.state == ("right" if right else "wrong") and (right or verdict.text == said != "")


def test_correct_working_is_never_refused():
    for _, working in SHEETS[::4]:
        for seed in range(10):
            path = working.all_values(Rounding(random.Random(seed).randrange))
            entries = {s.id: path[s.id] for s in working.steps}
            texts = {
                s.id: entries[s.id] if s.choices else f"{entries[s.id] * (100 if s.id == 'rest' else 1):.9f}"
                for s in working.steps
            }
            assert {v.state for v in judge_all(working, CATALOGUE, texts).values()} == {"right"}


@pytest.mark.parametrize("scenario,working", SHEETS[::3], **NAME)
def test_readings_to_the_nearest_division_go_all_the_way(scenario, working):
    """As a student works: whole divisions, what the pointer shows worked from them or taken to a division again."""
    step = scenario.scale_step
    for to_division in (False, True):
        texts = {}
        for n, board in enumerate(scenario.boards, 1):
            ends, line = [near(t, step) for t in board.ends(scenario.box)], near(abs(board.line), step)
            shows = abs(sum(ends) / 2 - line * (1 if board.same_side else -1))
            shows = near(shows, step) if to_division else shows
            texts |= {f"read-{n}-1": f"{ends[0]:g}", f"read-{n}-2": f"{ends[1]:g}", f"line-{n}": f"{line:g}"}
            texts |= {f"turn-first-{n}": f"{line:g}", f"shows-{n}": f"{shows:g}", f"turn-next-{n}": f"{shows:g}"}
        verdicts = judge_all(working, CATALOGUE, texts)
        assert {k: v.state for k, v in verdicts.items() if k in texts} == dict.fromkeys(texts, "right")


def test_the_angle_follows_from_the_turn_that_was_chosen():
    """Who names the other turn works with the other share: that is right working from a wrong start."""
    scenario, working = sheet_where(lambda s: s.left_out == "first")
    row = scenario.asked + 1
    values = working.all_values()
    texts = {f"diff-{row}": f"{values[f'diff-{row}']:.3f}", f"mean-{row}": f"{values[f'mean-{row}']:.2f}"}
    half, theta = values[f"diff-{row}"] / 2, math.radians(values[f"mean-{row}"])
    other = f"{half / math.cos(theta) ** 2:.2f}"
    assert judge(working, CATALOGUE, {**texts, "askew": other}, "askew").slips == ("setting-other-turn",)
    for key, share in (("second", math.cos(theta) ** 2), ("neither", 1.0)):
        verdicts = judge_all(working, CATALOGUE, {**texts, "left-out": key, "askew": f"{half / share:.2f}"})
        assert (verdicts["left-out"].state, verdicts["askew"].state) == ("wrong", "follows")


def test_a_misread_line_is_followed_even_past_the_pointer():
    """Pointer and line on one side, the line misread beyond the pointer: the difference still has no sign."""
    scenario, working = sheet_where(lambda s: s.boards[0].same_side and abs(s.boards[0].pointer) > 9)
    board = scenario.boards[0]
    ends, line = board.ends(scenario.box), abs(board.pointer) + 4
    texts = {"read-1-1": f"{ends[0]:.2f}", "read-1-2": f"{ends[1]:.2f}", "line-1": f"{line:.2f}", "shows-1": "4"}
    assert judge_all(working, CATALOGUE, texts)["shows-1"].state == "follows"


@pytest.mark.parametrize("scenario,working", SHEETS[::5], **NAME)
def test_the_words_are_enough_to_work_by_and_do_not_give_the_answers(scenario, working):
    html = unescape(KIND.page.observations(scenario))
    pattern = (
        r"lies (clockwise|anticlockwise) of its 0, between the marks numbered (\d+) and (\d+), "
        r"at division (\d+) counted from the (\d+)"
    )
    said = re.findall(pattern, html)
    assert len(said) == 12  # three places of two boards, on the drawings and in the list
    for places in (said[:6], said[6:]):
        texts = {}
        for n in (1, 2):
            found = []
            for (side, low, high, count, same), step_id in zip(
                places[3 * n - 3 : 3 * n], (f"read-{n}-1", f"read-{n}-2", f"line-{n}")
            ):
                assert int(high) == int(low) + 10 and low == same
                value = int(low) + int(count) * scenario.scale_step
                texts[step_id] = f"{value:g}"
                found.append(value if side == "clockwise" else -value)
            shows = (found[0] + found[1]) / 2 - found[2]
            texts[f"first-{n}"] = f"box-{'clockwise' if found[2] > 0 else 'anticlockwise'}"
            texts[f"next-{n}"] = f"board-{'clockwise' if shows > 0 else 'anticlockwise'}"
            texts[f"shows-{n}"] = f"{abs(shows):g}"
        verdicts = judge_all(working, CATALOGUE, texts)
        assert {verdicts[step_id].state for step_id in texts} == {"right"}
    words = " ".join(re.findall(r'aria-label="([^"]*)"', html))
    assert not re.search(r"\d\.\d|\d°", words)


def test_the_numbers_hold_what_is_given():
    scenario, _ = SHEETS[0]
    numbers = json.loads(student.numbers(str(scenario.code)))
    assert numbers["code"] == str(scenario.code) and "left_out" in json.dumps(numbers)


@given(st.text(max_size=20))
def test_any_entry_gets_a_sentence(text):
    working = SHEETS[0][1]
    for step_id in ("shows-1", "first-1", "askew"):
        said = judge(working, CATALOGUE, {step_id: text}, step_id)
        assert said.state == "blank" or said.text.endswith((".", "?"))
