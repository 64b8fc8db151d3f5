"""The roof plan: all names and marks, arrows down the slopes, north where it is, nothing over anything else."""

import math

import numpy as np
import pytest
import shapely
from collisions import collisions
from once import once
from paged import box_of, paged
from pytest import approx
from zoo import NAMES, OTHERS, layout

from trimwright.model.checks.run import check
from trimwright.viewer.drawings.ink.drawing import Area, Drawing, Words
from trimwright.viewer.drawings.ink.svg import svg_of
from trimwright.viewer.drawings.paper.sizes import Paper
from trimwright.viewer.drawings.roof.plan import plan
from trimwright.viewer.words.speaker import speaker_of

ALL = [*NAMES, *OTHERS]


@once
def pages(name: str, paper: Paper = "letter") -> tuple[Drawing, ...]:
    found = layout(name)
    return paged(found, plan(found, check(found), box_of(found, paper), speaker_of(found.scene)), paper)


def rings(name: str, what: str) -> list[tuple[tuple[float, float], ...]]:
    return [item.rings[0] for item in pages(name)[0].items if isinstance(item, Area) and item.name == what]


def words(name: str, what: str) -> list[Words]:
    return [item for item in pages(name)[0].items if isinstance(item, Words) and item.name == what]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", ALL)
def test_nothing_collides(name: str, paper: Paper) -> None:
    assert [(page.title, found) for page in pages(name, paper) for found in collisions(page)] == []


@pytest.mark.parametrize("name", ALL)
def test_all_pieces_edges_and_faces_are_named(name: str) -> None:
    found = layout(name)
    assert sorted(item.text for item in words(name, "mark")) == sorted(part.mark for part in found.parts)
    assert sorted(item.text for item in words(name, "edge")) == sorted(edge.name for edge in found.roof.edges)
    assert sorted(item.text for item in words(name, "face")) == sorted(face.name for face in found.roof.faces)


@pytest.mark.parametrize("name", ALL)
def test_an_arrow_points_down_every_slope(name: str) -> None:
    found = layout(name)
    tips = rings(name, "arrow")
    ways = []
    for tip, left, right in tips:
        way = np.array(tip) - (np.array(left) + np.array(right)) / 2
        ways.append(tuple(np.round(way / np.linalg.norm(way), 6) + 0.0))
    for face in found.roof.faces:
        down = face.normal[:2] / np.linalg.norm(face.normal[:2])
        assert any(np.allclose(way, down, atol=1e-5) for way in ways)


@pytest.mark.parametrize("name", ALL)
def test_bars_along_the_edges_are_to_one_scale(name: str) -> None:
    found = layout(name)
    bars = rings(name, "piece")
    assert len(bars) == len(found.parts)
    ratios = []
    for part, bar in zip(found.parts, bars, strict=True):
        edge = part.run.edge
        level = (min(part.high, edge.length) - max(part.low, 0.0)) * math.hypot(*edge.direction[:2])
        ratios.append(math.dist(bar[0], bar[1]) / level)
    assert ratios == approx([ratios[0]] * len(ratios), rel=1e-6)


def test_north_points_where_the_scene_says() -> None:
    found = layout("harbor-office")
    assert found.scene.north is not None
    tips = [
        item.rings[0]
        for item in pages("harbor-office")[0].items
        if isinstance(item, Area) and item.name == "arrow"
    ]
    way = np.array([math.sin(math.radians(found.scene.north)), math.cos(math.radians(found.scene.north))])
    assert any(
        np.allclose(
            (np.array(t) - (np.array(a) + np.array(b)) / 2) / math.dist(t, np.add(a, b) / 2), way, atol=1e-6
        )
        for t, a, b in tips
    )
    assert [item.text for item in words("harbor-office", "north")] == ["N"]
    assert words("boat-shed", "north") == []


def test_face_names_stand_in_their_faces() -> None:
    found = layout("bakehouse")
    bars = rings("bakehouse", "piece")
    center = shapely.union_all([shapely.Polygon(bar) for bar in bars]).envelope.centroid
    for item in words("bakehouse", "face"):
        face = next(face for face in found.roof.faces if face.name == item.text)
        away = np.array(item.at) - [center.x, center.y]
        assert away @ face.normal[:2] > 0


def test_the_plan_of_a_pyramid_stays_as_it_is(golden) -> None:  # type: ignore[no-untyped-def]
    golden("bakehouse-plan.svg", svg_of(pages("bakehouse")[0]))
