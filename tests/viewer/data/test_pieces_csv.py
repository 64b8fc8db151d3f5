"""The list of pieces, read back as a spreadsheet does."""

import csv
import io

import pytest
from zoo import NAMES, layout

from trimwright.viewer.data.pieces_csv import COLUMNS, piece_list


@pytest.mark.parametrize("name", NAMES)
def test_the_piece_list_has_a_row_a_piece(name: str) -> None:
    there = layout(name)
    rows = list(csv.DictReader(io.StringIO(piece_list(there))))
    assert [row["mark"] for row in rows] == [part.mark for part in there.parts]
    assert list(rows[0]) == list(COLUMNS)
    for row, part in zip(rows, there.parts, strict=True):
        assert float(row["length in"]) == pytest.approx(part.length, abs=5e-4)
        assert row["length"] == there.scene.tape(part.length)
        assert row["hand"] == (part.piece.hand or part.run.hand or "")
        assert row["laps"].count("over") + row["laps"].count("under") == len([*part.ends.laps])


def test_the_screws_of_a_cap_are_listed_wing_by_wing() -> None:
    there = layout("harbor-office")
    rows = {row["mark"]: row["screws"] for row in csv.DictReader(io.StringIO(piece_list(there)))}
    section = there.part("H1-1").run.section
    told = []
    for wing, is_left in (("left wing", True), ("right wing", False)):
        at = [one.at for one in there.screws_of("H1-1") if (one.across < section.width / 2) == is_left]
        told.append(f"{wing}: {', '.join(map(there.scene.tape, at))}")
    assert rows["H1-1"] == "; ".join(told)
    assert told[0].split(": ")[1] != told[1].split(": ")[1]
    assert ":" not in rows["E1-1"]


def test_a_spreadsheet_takes_no_cell_for_a_formula() -> None:
    rows = list(csv.reader(io.StringIO(piece_list(layout("slip-shed")))))
    for row in rows[1:]:
        for cell in row:
            assert not cell.startswith(("=", "+", "@"))
            assert not cell.startswith("-") or float(cell) < 0
