"""The command that writes what tests compare with: it adds what is missing and leaves golden numbers alone."""

import json
import shutil

import pytest

from exercises.kinds.kind import all_kinds
from tests import keep
from tests.exercises import edges, golden, written

DIAL = all_kinds()["dial"]


@pytest.fixture
def folder(tmp_path):
    for path in golden.FOLDER.glob("*.*"):
        shutil.copy(path, tmp_path)
    return tmp_path


def texts(folder):
    return {path.name: path.read_text() for path in folder.iterdir()}


def test_golden_numbers_that_there_are_stay(folder):
    (folder / "dial.jsonl").write_text('{"code": "R3N-249-PWP"}\n')  # wrong numbers, as after a change of the draw
    (folder / "edges.json").write_text('{"dial": "nothing"}')
    before = texts(folder)
    assert not golden.keep(DIAL, folder=folder) and not edges.keep(DIAL, path=folder / "edges.json")
    assert texts(folder) == before


def test_anew_the_same_codes_get_the_numbers_of_today(folder):
    before = texts(folder)
    (folder / "dial.jsonl").write_text(
        "".join(
            json.dumps({"code": line["code"]}) + "\n" for line in map(json.loads, before["dial.jsonl"].splitlines())
        )
    )
    assert golden.keep(DIAL, anew=True, folder=folder) and edges.keep(DIAL, anew=True, path=folder / "edges.json")
    assert texts(folder) == before


def test_what_is_missing_is_written(folder):
    (folder / "dial.jsonl").unlink()
    kept = json.loads((folder / "edges.json").read_text())
    (folder / "edges.json").write_text(json.dumps({slug: found for slug, found in kept.items() if slug != "dial"}))
    assert golden.keep(DIAL, folder=folder) and edges.keep(DIAL, path=folder / "edges.json")
    lines = [json.loads(line) for line in (folder / "dial.jsonl").read_text().splitlines()]
    assert len({line["code"] for line in lines}) == 60 and all(line["answers"] for line in lines)
    assert json.loads((folder / "edges.json").read_text()) == kept


def test_a_new_edition_is_added_to_the_old_one(folder):
    (folder / "dial.jsonl").write_text('{"code": "R2P-222-222"}\n')  # of an edition 0, which the kind has no more
    golden.keep(DIAL, folder=folder)
    lines = (folder / "dial.jsonl").read_text().splitlines()
    assert lines[0] == '{"code": "R2P-222-222"}' and len(lines) == 61


def test_texts_of_one_kind_are_written_and_the_others_stay(folder):
    before = texts(folder)
    for name in ("written.txt", "slips.txt"):
        (folder / name).write_text(before[name].replace("°", "degrees"))
    written.keep(["dial"], folder)
    now = written.kept(folder / "written.txt")
    assert now["dial"] == written.kept(written.KEPT)["dial"] and "degrees" in "".join(now["law"])
    written.keep(all_kinds(), folder)
    assert texts(folder) == before


def test_the_command_refuses_what_is_no_kind(capsys):
    with pytest.raises(SystemExit):
        keep.main(["nosuch"])
    assert "tan-a" in capsys.readouterr().err
