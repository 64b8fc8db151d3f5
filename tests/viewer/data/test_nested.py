"""Nested sheets: clean DXF files whose outlines have the pieces' own areas, inside the stock and apart."""

import io
from itertools import pairwise

import ezdxf
import numpy as np
import pytest
import shapely
from pytest import approx
from zoo import layout

from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.data.nested import nested


@pytest.mark.parametrize(("name", "unit", "scale"), [("boat-shed", "in", 1.0), ("sail-loft", "mm", 25.4)])
def test_pieces_lie_on_their_stock(name: str, unit, scale: float) -> None:  # type: ignore[no-untyped-def]
    plan = layout(name)
    takeoff = timed_takeoff(plan)
    parts = {part.mark: part for part in plan.parts}
    sheets = list(nested(plan, takeoff, unit))
    assert len({sheet.name for sheet in sheets}) == len(sheets) == len(takeoff.lengths)
    for sheet, bought in zip(sheets, takeoff.lengths, strict=True):
        document = ezdxf.read(io.StringIO(sheet.text))  # type: ignore[attr-defined]
        assert not document.audit().has_errors
        lines = list(document.modelspace().query("LWPOLYLINE"))
        outlines = [
            shapely.Polygon(np.array(line.get_points("xy")) / scale)
            for line in lines
            if line.dxf.layer == "outline" and line.closed
        ]
        [stock] = [
            shapely.Polygon(np.array(x.get_points("xy")) / scale) for x in lines if x.dxf.layer == "stock"
        ]
        assert stock.bounds[2] == approx(bought.length)
        assert [one.area for one in outlines] == approx([parts[mark].sheet.area for mark in bought.pieces])
        for one in outlines:
            assert one.bounds[0] > -1e-6
            assert one.bounds[2] < bought.length + 0.02
        for first, second in pairwise(outlines):
            assert first.intersection(second).area < 1e-6


def test_right_hand_pieces_are_turned_so_that_their_painted_side_is_up() -> None:
    plan = layout("boat-shed")
    takeoff = timed_takeoff(plan)
    parts = {part.mark: part for part in plan.parts}
    seen = set()
    for sheet, bought in zip(nested(plan, takeoff), takeoff.lengths, strict=True):
        text = " ".join(entity.dxf.text for entity in sheet.document.modelspace().query("TEXT"))
        for mark in bought.pieces:
            end = "right" if parts[mark].run.hand == "right" else "left"
            assert f"{mark}, low end {end}" in text
            seen.add(mark)
    assert seen == set(parts)
