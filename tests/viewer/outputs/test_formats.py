"""The table of outputs: every row makes what it says, under the name it says, and the README lists all of them."""

import csv
import fnmatch
import io
from functools import cache
from pathlib import Path

import pytest
from pytest import approx
from zoo import layout

from trimwright.model.checks.run import check
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.data.report import report_of
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.outputs.formats import FOLDER, OUTPUTS, Output, bought_by, output
from trimwright.viewer.outputs.work import Work
from trimwright.viewer.outputs.write import made, write_outputs

README = Path(__file__).parents[3] / "README.md"

BEGINS = {
    "application/pdf": b"%PDF",
    "application/json": b"{",
    "image/png": b"\x89PNG",
    "image/svg+xml": b"<svg",
    "image/vnd.dxf": b"  0",
    "model/gltf-binary": b"glTF",
    "text/html": b"<!doctype html>",
    "text/csv": b"",
}
"""How a file of each kind begins; a workbook is a ZIP file."""

DRAWN = [each for each in OUTPUTS if not each.path.startswith("pictures/")]


@cache
def work() -> Work:
    plan = layout("oar-store")
    findings = check(plan)
    return Work(plan, findings, timed_takeoff(plan), stage_of(plan, findings), "2026-11-20")


@pytest.mark.parametrize("each", DRAWN, ids=lambda each: each.path)
def test_every_output_lies_where_its_row_says(each: Output) -> None:
    files = list(each.make(work(), lambda *_: None))
    assert files and len({name for name, _ in files}) == len(files)
    for name, data in files:
        assert fnmatch.fnmatch(name, each.path)
        assert data.startswith(BEGINS.get(each.kind, b"PK"))
    assert not each.single or len(files) == 1


def test_every_piece_has_its_patterns() -> None:
    marks = {part.mark for part in work().layout.parts}
    for ending in ("dxf", "svg"):
        files = output(f"patterns/*.{ending}").make(work(), lambda *_: None)
        assert {Path(name).stem for name, _ in files} == marks


def test_files_are_written_under_their_names(tmp_path: Path) -> None:
    told: list[str] = []
    names = write_outputs(
        bought_by(nest=True), work(), tmp_path, lambda what, *_: told.append(str(what)), FOLDER
    )
    there = {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file()}
    assert set(names) == there and any(name.startswith("nested/") for name in names)
    assert told == [str(each.title) for each in bought_by(nest=True)]
    assert not any(each.asked for each in bought_by(nest=False))


def test_lists_and_report_come_from_one_takeoff() -> None:
    stock = report_of(work().layout, (), work().takeoff)["takeoff"]["stock"]
    files = dict(output("buy/*.csv").make(work(), lambda *_: None))
    rows = list(csv.DictReader(io.StringIO(files["buy/cutting.csv"].decode("utf-8"), newline="")))
    assert [row["Piece"] for row in rows] == [mark for one in stock for mark in one["pieces"]]
    offcuts = [float(row["Offcut, in"]) for row in rows if row["Offcut, in"]]
    assert offcuts == approx([one["offcut"] for one in stock], abs=1e-3)


def test_one_file_is_handed_out_by_itself() -> None:
    assert made(output("pieces.csv"), work()).startswith(b"mark,")
    with pytest.raises(ValueError):
        made(output("patterns/*.svg"), work())


def test_the_readme_lists_them_all() -> None:
    rows = [line for line in README.read_text(encoding="utf-8").splitlines() if line.startswith("| `")]
    for each in OUTPUTS:
        assert any(row.startswith(f"| `{each.path}` | {each.says}") for row in rows), each.path
