"""The flat pattern as files: read back, audited, measured, and folded again."""

import io
import math
import re
from functools import cache
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf.document import Drawing as Document
from pytest import approx
from zoo import NAMES, OTHERS, layout

from trimwright.model.layout import Part
from trimwright.model.sheet.fold import facets
from trimwright.viewer.data.dxf import LAYERS, document_of, dxf_of
from trimwright.viewer.data.flat_pattern import flat_of
from trimwright.viewer.data.pattern_lines import is_mirrored
from trimwright.viewer.data.pattern_svg import pattern_svg

ALL = [*NAMES, *OTHERS]


@cache
def one_of_each(name: str) -> tuple[Part, ...]:
    """Return a piece with each kind of joint and lap of a scene."""
    found: dict[tuple[object, ...], Part] = {}
    for part in layout(name).parts:
        kinds = [(end.kind.name, end.at, end.lies) for end in part.ends]
        found.setdefault((part.run.trim, part.run.hand, *kinds), part)
    return tuple(found.values())


def read_back(document: Document) -> Document:
    stream = io.StringIO()
    document.write(stream)
    return ezdxf.read(io.StringIO(stream.getvalue()))


@pytest.mark.parametrize("name", ALL)
def test_dxf_opens_clean_and_has_the_flat_area(name: str) -> None:
    for part in one_of_each(name):
        document = read_back(document_of(part))
        assert not document.audit().has_errors
        assert document.header["$INSUNITS"] == 1
        rings = list(document.modelspace().query('LWPOLYLINE[layer=="outline"]'))
        assert all(ring.closed for ring in rings)
        outline, *holes = [shapely.Polygon(list(ring.vertices())) for ring in rings]
        assert outline.area - sum(hole.area for hole in holes) == approx(part.sheet.area, rel=1e-6)
        assert {e.dxf.layer for e in document.modelspace()} <= set(LAYERS)


@pytest.mark.parametrize("name", ALL)
def test_outlines_are_the_report_s(name: str) -> None:
    for part in one_of_each(name):
        reported = np.asarray(flat_of(part)["outline"])
        ring = read_back(document_of(part)).modelspace().query('LWPOLYLINE[layer=="outline"]')[0]
        assert np.array(list(ring.vertices())) == approx(reported, abs=1e-3)
        path = ElementTree.fromstring(pattern_svg(part)).find(".//{*}g[@id='outline']/{*}path")
        assert path is not None
        drawn = np.array(re.findall(r"-?[\d.]+", path.get("d", "")), dtype=float).reshape(-1, 2)
        assert drawn == approx(reported, abs=1e-3)


def test_millimeters_say_so() -> None:
    part = layout("boat-shed").parts[0]
    document = read_back(document_of(part, "mm"))
    assert document.header["$INSUNITS"] == 4
    ring = document.modelspace().query('LWPOLYLINE[layer=="outline"]')[0]
    assert np.ptp(np.array(list(ring.vertices()))[:, 0]) == approx(part.length * 25.4)


@pytest.mark.parametrize("name", ALL)
def test_folding_the_file_gives_the_piece(name: str) -> None:
    """What a brake makes of the file alone is the formed piece.

    A bend of 90 degrees or less turns half its angle before the strip of metal that goes into it and half after;
    one of more does so in equal strips of at most 90 degrees each.
    """
    for part in one_of_each(name):
        document = read_back(document_of(part))
        space = document.modelspace()
        ring = np.array(list(space.query('LWPOLYLINE[layer=="outline"]')[0].vertices()))
        bends = sorted(_bends(document), key=lambda bend: bend[0])
        places = _across(bends, ring[:, 1].max())
        expected = {}
        for facet in facets(part.sheet):
            if not facet.tab:
                flat = map(tuple, (facet.ring - [part.low, 0]).round(9))
                expected |= dict(zip(flat, facet.to_space(facet.ring), strict=True))
        flaps = {tuple(corner) for tab in part.sheet.tabs for corner in (tab.flap - [part.low, 0]).round(9)}
        section = part.run.section
        out, up = (section.points[1] - section.points[0]) / (section.v[1] - section.v[0])
        first = math.atan2(-up, out)
        for u, v in ring:
            if tuple(np.array([u, v]).round(9)) in flaps:
                continue
            x, y = places(v)
            turned = section.points[0] + [
                x * math.cos(first) + y * math.sin(first),
                -x * math.sin(first) + y * math.cos(first),
            ]
            near = min(expected, key=lambda corner: math.dist(corner, (u, v)))
            assert math.dist(near, (u, v)) < 1e-3
            assert [u + part.low, *turned] == approx(expected[near], abs=5e-3), (part.mark, u, v)


def _bends(document: Document) -> list[tuple[float, float, float]]:
    """Return ``v``, angle (radians, down is positive) and width of each bend that a brake makes."""
    space = document.modelspace()
    result = []
    lines = [e for e in space.query("LWPOLYLINE") if e.dxf.layer.startswith("bend")]
    texts = [e.dxf.text for e in space.query('TEXT[layer=="text"]') if " deg " in e.dxf.text]
    for line, text in zip(lines, texts, strict=True):
        found = re.fullmatch(r"(tab, )?([\d.]+) deg (up|down)(?:, ([\d.]+) of metal in the bend)?", text)
        assert found, text
        assert line.dxf.layer == f"bend {found[3]}"
        if not found[1]:
            angle = math.radians(float(found[2])) * (1 if found[3] == "down" else -1)
            result.append((float(next(iter(line.vertices()))[1]), angle, float(found[4])))
    return result


def _across(bends: list[tuple[float, float, float]], width: float):
    """Return the place across the folded piece, its first leg along x and y up, of every ``v``."""
    headings = [(0.0, 0.0)]
    turned = 0.0
    for v, angle, metal in bends:
        count = math.ceil(abs(angle) / (math.pi / 2) - 1e-4)
        headings += [
            (v - metal / 2 + metal * k / count, turned + angle * (k + 0.5) / count) for k in range(count)
        ]
        turned += angle
        headings.append((v + metal / 2, turned))
    corners = [(0.0, 0.0, 0.0)]
    for (start, heading), (end, _) in pairwise([*headings, (width + 1, 0.0)]):
        _, x, y = corners[-1]
        corners.append((end, x + (end - start) * math.cos(heading), y - (end - start) * math.sin(heading)))
    table = np.array(corners)
    return lambda v: (
        float(np.interp(v, table[:, 0], table[:, 1])),
        float(np.interp(v, table[:, 0], table[:, 2])),
    )


@pytest.mark.parametrize("name", ["boat-shed", "bakehouse", "oar-store"])
def test_folds_of_tabs_are_in_the_file(name: str) -> None:
    for part in one_of_each(name):
        space = read_back(document_of(part)).modelspace()
        texts = [e.dxf.text for e in space.query('TEXT[layer=="text"]') if e.dxf.text.startswith("tab, ")]
        assert len(texts) == len(part.sheet.tabs)
        for text, tab in zip(texts, part.sheet.tabs, strict=True):
            assert float(text.split()[1]) == approx(abs(math.degrees(tab.angle)), abs=0.006)


def test_the_file_says_which_side_it_shows() -> None:
    for part in one_of_each("boat-shed"):
        texts = [e.dxf.text for e in document_of(part).modelspace().query("TEXT")]
        side = "painted side up" if is_mirrored(part) else "painted side down (seen from the back)"
        assert f"drawn {side}" in texts
        turn = ElementTree.fromstring(pattern_svg(part)).find("{*}g")
        assert turn is not None
        assert (turn.get("transform") == "scale(-1 1)") == is_mirrored(part)


def test_screws_are_crosses_on_the_layer_of_marks() -> None:
    plan = layout("boat-shed")
    part = plan.parts[0]
    screws = tuple(screw for screw in plan.screws if screw.mark == part.mark)
    space = document_of(part, screws=screws).modelspace()
    crosses = [np.array(list(e.vertices())) for e in space.query('LWPOLYLINE[layer=="mark"]')]
    centers = {tuple(cross.mean(axis=0).round(4)) for cross in crosses}
    assert {(round(s.at, 4), round(s.across, 4)) for s in screws} <= centers


def test_the_text_of_a_dxf_reads_as_a_file(tmp_path: Path) -> None:
    part = layout("boat-shed").parts[0]
    (tmp_path / "a.dxf").write_text(dxf_of(part), encoding="utf-8")
    assert not ezdxf.readfile(tmp_path / "a.dxf").audit().has_errors


def test_the_svg_is_as_large_as_the_metal() -> None:
    part = layout("boat-shed").parts[0]
    root = ElementTree.fromstring(pattern_svg(part))
    width = float((root.get("width") or "").removesuffix("in"))
    assert width == approx(float((root.get("viewBox") or "").split()[2]))
    assert width == approx(part.length + 1.0, abs=1e-3)
