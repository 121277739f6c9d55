"""`eight record`: a laboratory record in a file is checked, and a page for the record book made of it."""

import argparse
from dataclasses import replace
from html import escape
from pathlib import Path

from exercises.classroom.class_list.paper import POLICY
from exercises.codes.sheet_code import TWO_L, CodeError, Setting, read_setting
from exercises.record.check import check, sentences
from exercises.record.entries import Record
from exercises.record.estimate import Result
from exercises.record.file import LARGEST, RecordError, blank, decode, opened
from exercises.record.laboratory import with_settings
from exercises.record.paper import paper
from exercises.record.position import POSITIONS, TAN_A, position_named
from exercises.record.said import assumed, coverage, stated
from generator.build.runtime import ROOT
from generator.build.trouble import Trouble
from generator.commands.arguments import Commands
from generator.commands.given_file import bytes_of_file
from generator.commands.replacing import replace_files

PAPER = """
body { margin: 0; background: var(--er-paper); color: var(--er-ink); }
main { max-width: 200mm; margin: 4mm auto; }
table { border-collapse: collapse; }
@media print { main { max-width: none; margin: 0; } }
"""


def add_to(commands: Commands) -> None:
    """Enter the command among those of `eight`."""
    parser = commands.add_parser("record", help="check a laboratory record, and make a page of it to print")
    parser.add_argument("record", nargs="?", help="the record, a CSV file")
    parser.add_argument("--out", help="write the page for the record book to this file, such as record.html")
    parser.add_argument("--2l", dest="two_l", choices=TWO_L, help="how 2l is known, where the record does not say")
    parser.add_argument("--lab", help="your laboratory’s code, whose settings fill what the record does not say")
    parser.add_argument("--blank", help="write an empty record to fill in to this file, such as blank.csv")
    parser.add_argument("--position", choices=[p.key for p in POSITIONS], help="of the empty record; tan-a if not said")


def run(chosen: argparse.Namespace) -> None:
    """Say what was found and write what was asked for.  Trouble if the record cannot be read or a file not written."""
    if chosen.blank:
        if _there(chosen.blank):
            raise Trouble(f"{chosen.blank} is there already, and may hold a record. Give another name with --blank.")
        position = position_named(chosen.position or "") or TAN_A
        write_file(chosen.blank, blank(position=position), "utf-8-sig", "the empty record")
        print(f"{chosen.blank} is an empty record. Fill it in with any spreadsheet and save it as CSV.")
    if not chosen.record:
        if chosen.blank:
            return
        raise Trouble("Give a record to check, or --blank FILE for an empty one to fill in.")
    text = _text(chosen.record)
    if chosen.out and _there(chosen.out) and Path(chosen.out).samefile(chosen.record):
        raise Trouble("--out names the record itself, which would be lost. Give another name, such as record.html.")
    try:
        found = opened(text)
    except RecordError as error:
        raise Trouble(f"{chosen.record}: {error}") from error
    record, taken = _with_settings(found.record, chosen)
    checked = check(record)
    for note in (*found.notes, *taken):
        print(note)
    for sentence in sentences(checked, found.lines):
        print(sentence)
    right = sum(v.state == "right" for v in checked.verdicts.values())
    if checked.verdicts:
        print(f"{right} of {len(checked.verdicts)} entries right.")
    if checked.moments:
        print(_said(checked.moments.result, ""))
        for sentence in assumed(checked.givens, checked.moments.result):
            print(sentence)
        if checked.moments.corrected:
            print(_said(checked.moments.corrected, ", with what stands out put right"))
    if chosen.out:
        page = paper(checked)
        if not page:
            raise Trouble("There is no distance in this record, so no page was made.")
        write_file(chosen.out, document(page), "utf-8", "the page")
        print(f"{chosen.out} is the page for the record book.")


def _with_settings(record: Record, chosen: argparse.Namespace) -> tuple[Record, tuple[str, ...]]:
    """The record with what the options say where it says nothing, and a note of what was taken."""
    try:
        setting = read_setting(chosen.lab) if chosen.lab else None
    except CodeError as error:
        raise Trouble(f"--lab: {error}") from error
    if chosen.two_l:
        setting = replace(setting or Setting(), two_l=chosen.two_l)
    return with_settings(record, setting)


def _there(name: str) -> bool:
    try:
        return Path(name).exists()
    except (OSError, ValueError) as error:
        raise Trouble(f"“{name[:200]}” cannot be the name of a file.") from error


def _said(r: Result, more: str) -> str:
    return (
        f"m = {stated(r.moment, 'A·m²')}, p = {stated(r.pole, 'A·m')}, with the expanded uncertainty U, "
        f"{coverage(r)}, for 95 intervals in a hundred{more}."
    )


def _text(name: str) -> str:
    wanted = "Give a record as CSV; --blank FILE makes an empty one."
    raw = bytes_of_file(name, wanted, LARGEST)
    if raw is None:
        raise Trouble(f"There is no file {name[:200]}. {wanted}")
    try:
        return decode(raw)
    except RecordError as error:
        raise Trouble(f"{name}: {error}") from error


def document(page: str) -> str:
    """The page as a file of its own: nothing is fetched."""
    css = "".join((ROOT / "site_assets" / name).read_text(encoding="utf-8") for name in ("notebook.css", "record.css"))
    title = escape("Laboratory record")
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">{POLICY}<title>{title}</title>'
        f'<meta name="viewport" content="width=device-width"><style>{css}{PAPER}</style></head>'
        f'<body data-md-color-scheme="notebook"><main class="md-typeset">{page}</main></body></html>\n'
    )


def write_file(name: str, text: str, encoding: str, what: str) -> None:
    """Write a file, all of it or nothing.  Trouble if it cannot be written."""
    path = Path(name)
    if not path.name or "\0" in name:
        raise Trouble(f"“{name[:200]}” cannot be the name of a file.")
    replace_files(path.parent, [path.name], lambda folder: _write(folder / path.name, text, encoding), what)


def _write(path: Path, text: str, encoding: str) -> None:
    with path.open("w", encoding=encoding, newline="") as file:
        file.write(text)
