"""`eight record` says what it finds, makes its whole page or none, and refuses what is no record in a sentence."""

import os

import pytest

from exercises.codes.sheet_code import Setting, write_setting
from exercises.record.file import LARGEST, opened
from exercises.record.position import TAN_B
from generator.commands import record_command
from generator.commands.command import main

TEXT = (
    "observer;Ringed Plover\r\nmeasured length (cm);8,0\r\nB_H (µT);36,0\r\n"
    "d (cm);1;2;3;4;5;6;7;8;mean;tan;(d²−l²)² (m⁴);moment (A m²)\r\n"
    "17,5;59,5;60;59,5;60;59,5;59,5;60;59,5;59,69;0,86;;\r\n"
    "18,7;54;54;64,5;54;54;54;54;54;;;;\r\n"
    "19,9;48;48;48;48,5;48,5;48,5;48,5;48;;;;\r\n"
    "21,1;43;43;43,5;43;43;43;43;43;;;;\r\n"
    "mean moment;=1+1\r\n"
)


@pytest.fixture
def record(tmp_path):
    path = tmp_path / "record.csv"
    path.write_text(TEXT, encoding="utf-8-sig", newline="")
    return path


def refused(capsys, *arguments) -> str:
    assert main(["record", *map(str, arguments)]) == 1
    said = capsys.readouterr().err.strip()
    assert said.endswith(".") and "Traceback" not in said
    return said


def test_what_is_found_is_said_and_the_page_made(record, tmp_path, capsys):
    out = tmp_path / "made" / "record.html"
    assert main(["record", str(record), "--out", str(out)]) == 0
    said = capsys.readouterr().out
    assert "Line 5, distance 1, tan θ, “0,86”: This looks like sin θ" in said
    assert "Distance 2, east arm, N west, end ①: 64.5° does not belong" in said and "10° too large" in said
    assert (
        "Line 9, mean moment" in said and "1 of 3 entries right." in said and "with what stands out put right" in said
    )
    html = out.read_text(encoding="utf-8")
    assert "Ringed Plover" in html and "<svg" in html and "http:" not in html.replace("http://www.w3.org/2000/svg", "")
    assert [p.name for p in out.parent.iterdir()] == ["record.html"]


def test_what_2l_is_taken_for_is_said_and_can_be_chosen(record, capsys):
    lab = write_setting(Setting("given", scale_step=1.0))
    for options, told in (
        ((), "2l is taken as 5/6 of the measured length"),
        (("--2l", "given"), "2l is the length given"),
        (("--lab", lab), "2l is the length given, the scale step is 1°"),
        (("--lab", lab, "--2l", "five-sixths"), "2l is 5/6 of the measured length, the scale step is 1°"),
    ):
        assert main(["record", str(record), *options]) == 0
        assert told in capsys.readouterr().out
    assert "--lab: " in refused(capsys, record, "--lab", "222")


def test_an_empty_record_opens_and_is_never_written_over_another(tmp_path, capsys):
    path = tmp_path / "blank.csv"
    assert main(["record", "--blank", str(path)]) == 0
    assert path.read_bytes().startswith(b"\xef\xbb\xbf") and opened(path.read_text(encoding="utf-8-sig")).notes == ()
    before = path.read_bytes()
    assert "there already" in refused(capsys, "--blank", path) and path.read_bytes() == before
    other = tmp_path / "b.csv"
    assert main(["record", "--blank", str(other), "--position", "tan-b"]) == 0
    assert opened(other.read_text(encoding="utf-8-sig")).record.position is TAN_B
    assert main(["record", str(path)]) == 0
    assert "There is no distance that can be worked yet" in capsys.readouterr().out


def test_what_cannot_be_read_is_refused(record, tmp_path, capsys):
    assert "There is no file" in refused(capsys, tmp_path / "none.csv")
    assert "not a file" in refused(capsys, tmp_path)
    assert "Give a record" in refused(capsys)
    large = tmp_path / "large.csv"
    with large.open("wb") as file:
        file.truncate(50_000_000)
    assert f"at most {LARGEST:,}" in refused(capsys, large)
    (tmp_path / "x.csv").write_text("hello\n")
    assert "Nothing here looks like a record" in refused(capsys, tmp_path / "x.csv")
    (tmp_path / "book.csv").write_bytes(b"PK\x03\x04 a spreadsheet's own file")
    assert "CSV" in refused(capsys, tmp_path / "book.csv")


def test_names_that_are_no_names(record, capsys):
    for name in ("x" * 5000, "a\0b", "x" * 300 + ".html"):
        assert refused(capsys, name) and refused(capsys, record, "--out", name) and refused(capsys, "--blank", name)


def test_the_record_itself_is_never_written_over(record, capsys):
    assert "lost" in refused(capsys, record, "--out", record)
    assert record.read_text(encoding="utf-8-sig").startswith("observer")


def test_a_failed_write_leaves_the_old_page(record, tmp_path, capsys, monkeypatch):
    out = tmp_path / "record.html"
    out.write_text("the old page")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert "disk is full" in refused(capsys, record, "--out", out)
    assert out.read_text() == "the old page"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["record.csv", "record.html"]


def test_a_folder_or_an_empty_record_makes_no_page(record, tmp_path, capsys):
    (tmp_path / "folder").mkdir()
    assert "is a folder" in refused(capsys, record, "--out", tmp_path / "folder")
    main(["record", "--blank", str(tmp_path / "b.csv")])
    capsys.readouterr()
    assert "no page was made" in refused(capsys, tmp_path / "b.csv", "--out", tmp_path / "b.html")
    assert not (tmp_path / "b.html").exists()


def test_the_page_fetches_nothing():
    html = record_command.document("<p>x</p>")
    assert "@import" not in html and "url(" not in html and "<script" not in html
