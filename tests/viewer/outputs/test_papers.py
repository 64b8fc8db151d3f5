"""All papers in one folder: packet, a pattern for every piece in both formats, and what to buy."""

import csv
from pathlib import Path

from pytest import approx
from zoo import layout

from trimwright.model.checks.run import check
from trimwright.viewer.buy.timed import timed_takeoff
from trimwright.viewer.data.report import report_of
from trimwright.viewer.outputs.papers import write_papers


def test_everything_is_written(tmp_path: Path) -> None:
    plan = layout("oar-store")
    takeoff = timed_takeoff(plan)
    write_papers(plan, check(plan), tmp_path, takeoff=takeoff, date="2026-11-20")
    marks = {part.mark for part in plan.parts}
    assert {path.name for path in tmp_path.iterdir()} == {"packet.pdf", "patterns", "buy"}
    for ending in ("dxf", "svg"):
        assert {path.stem for path in (tmp_path / "patterns").glob(f"*.{ending}")} == marks
    assert (tmp_path / "packet.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "buy" / "cutting-diagram.png").read_bytes().startswith(b"\x89PNG")


def test_lists_and_report_come_from_one_takeoff(tmp_path: Path) -> None:
    plan = layout("oar-store")
    takeoff = timed_takeoff(plan)
    write_papers(plan, (), tmp_path, takeoff=takeoff)
    stock = report_of(plan, (), takeoff)["takeoff"]["stock"]
    with (tmp_path / "buy" / "cutting.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["Piece"] for row in rows] == [mark for one in stock for mark in one["pieces"]]
    offcuts = [float(row["Offcut, in"]) for row in rows if row["Offcut, in"]]
    assert offcuts == approx([one["offcut"] for one in stock], abs=1e-3)
