"""The audit reads the registries' answers for what they are; what they say is not asked here."""

import json

import pytest

from tests import audit


def test_every_pin_is_asked_for():
    pins = audit.pins()
    assert any(p.startswith("mkdocs==") for p in pins) and any(p.startswith("hatchling==") for p in pins)
    assert any(p.startswith("pytest==") for p in pins) and any(p.startswith("jinja2==") for p in pins)
    for folder in audit.LOCKS.values():
        assert (folder / "package-lock.json").is_file()


def test_what_is_skipped_is_not_taken_for_sound():
    answer = {
        "dependencies": [
            {
                "name": "dunlin",
                "version": "1.0",
                "vulns": [{"id": "X-1", "fix_versions": ["1.1"]}, {"id": "X-2", "fix_versions": []}],
            },
            {"name": "knot", "version": "2.0", "vulns": []},
            {"name": "ruff-bird", "skip_reason": "not found"},
        ]
    }
    assert audit.of_python(json.dumps(answer)) == (
        ["dunlin 1.0: X-1, mended in 1.1", "dunlin 1.0: X-2, mended in no version yet"],
        1,
    )
    for silence in ("", "Traceback"):
        with pytest.raises(ValueError):
            audit.of_python(silence)


def test_npm_that_gets_no_answer_is_not_taken_for_sound():
    bad = {"vulnerabilities": {"dunlin": {"range": "<2", "severity": "high"}}}
    assert audit.of_npm(json.dumps(bad)) == ["dunlin <2: high"]
    assert audit.of_npm('{"vulnerabilities": {}}') == []
    for silence in ("", '{"message": "405 Method Not Allowed"}'):
        with pytest.raises(ValueError):
            audit.of_npm(silence)


@pytest.mark.parametrize(
    "python, npm, code",
    [
        (([], 0), [], 0),
        (([], 3), [], 2),
        ((["dunlin 1.0: X-1"], 3), [], 1),
        (([], 0), ["dunlin <2: high"], 1),
        (None, [], 2),
        (([], 0), None, 2),
    ],
)
def test_how_it_ends(monkeypatch, capsys, python, npm, code):
    def given(answer):
        if answer is None:
            raise ValueError("no answer")
        return answer

    monkeypatch.setattr(audit, "ask_python", lambda wanted: given(python))
    monkeypatch.setattr(audit, "ask_npm", lambda folder: given(npm))
    assert audit.main() == code
    said = capsys.readouterr().out
    assert all(": " in line for line in said.splitlines())
    assert (audit.SILENT in said) == (python is None or npm is None)
