"""Corners that no joint is made for: cut clear, listed, and nothing else is found wrong because of them."""

from typing import Any

import numpy as np
import pytest
from ordinary_outlines import ordinary_outline
from sound import assert_sound

from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

Points = list[list[float]]


def laid(faces: list[Points]) -> Layout:
    roof: dict[str, Any] = {"form": "faces", "faces": faces}
    return build(scene_of({"title": "Corners", "roof": roof}))


def half_hip(pitch: float, end: float, cut: float) -> list[Points]:
    """Return a gable whose top at the right end is cut off by a hip, so much lower than the ridge where it begins."""
    wide, long, eaves = 240.0, 360.0, 100.0
    ridge = eaves + wide / 2 * pitch
    side, back, low = (ridge - cut - eaves) / pitch, cut / end, ridge - cut
    left, head = [0.0, wide / 2, ridge], [long - back, wide / 2, ridge]
    corners = [[long, side, low], [long, wide - side, low]]
    front = [[0.0, 0.0, eaves], [long, 0.0, eaves], corners[0], head, left]
    rear = [[long, wide, eaves], [0.0, wide, eaves], left, head, corners[1]]
    return [front, rear, [*corners, head]]


def broken_hip(low: float, high: float) -> list[Points]:
    """Return a hip roof whose four slopes change their pitch 60 in inside the eaves."""
    wide, long, eaves, run = 300.0, 420.0, 100.0, 60.0
    at = eaves + run * low
    top = at + (wide / 2 - run) * high
    outer = [[0.0, 0.0, eaves], [long, 0.0, eaves], [long, wide, eaves], [0.0, wide, eaves]]
    inner = [[run, run, at], [long - run, run, at], [long - run, wide - run, at], [run, wide - run, at]]
    ridge = [[wide / 2, wide / 2, top], [long - wide / 2, wide / 2, top]]
    lower = [[outer[k], outer[(k + 1) % 4], inner[(k + 1) % 4], inner[k]] for k in range(4)]
    upper = [
        [inner[0], inner[1], ridge[1], ridge[0]],
        [inner[1], inner[2], ridge[1]],
        [inner[2], inner[3], ridge[0], ridge[1]],
        [inner[3], inner[0], ridge[0]],
    ]
    return lower + upper


@pytest.mark.parametrize(
    "faces",
    [
        half_hip(6 / 12, 6 / 12, 50.0),
        half_hip(10 / 12, 16 / 12, 50.0),
        half_hip(4 / 12, 8 / 12, 30.0),
        broken_hip(12 / 12, 6 / 12),
        broken_hip(4 / 12, 10 / 12),
    ],
    ids=["half hip", "steeper half hip", "flat half hip", "mansard", "bell-cast hip"],
)
def test_they_are_listed_and_nothing_is_wrong_beside(faces: list[Points]) -> None:
    layout = laid(faces)
    assert "corner-without-joint" in {one.rule for one in check(layout)}
    assert_sound(layout)


def test_a_wing_ends_where_its_own_slope_does() -> None:
    """A pan whose head is only sealed beside a bare break: cut along its hip alone, it went on 24 in past that."""
    layout = build(scene_of(ordinary_outline(8244)))
    (bare,) = (edge for edge in layout.roof.edges if edge.name == "break 1-4")
    valley = layout.run("valley 1-2").edge
    *_, pan = layout.parts_of("valley 1-2")
    points = pan.solid.vertices - valley.end
    left = points[points @ [-valley.direction[1], valley.direction[0], 0.0] > 1]
    past = np.array([bare.direction[1], -bare.direction[0]]) / np.linalg.norm(bare.direction[:2])
    past *= np.sign(past @ valley.direction[:2])
    assert -1 / 8 < (left[:, :2] @ past).max() < 0


def test_eave_trim_ends_at_a_bare_break() -> None:
    """Two sides nearly in line, at two pitches: the top leg of the one ran on over the other's slope."""
    roof: dict[str, Any] = {"form": "outline", "pitch": "6/12", "wall_height": 240}
    roof["outline"] = [[0, 0], [236.5, -5.2], [335, 0], [372, 271], [9, 271]]
    roof["sides"] = {side: {"pitch": f"{pitch}/12"} for side, pitch in enumerate((5, 7, 6, 7, 5), 1)}
    layout = build(scene_of({"title": "Kite", "roof": roof}))
    assert {"corner-without-joint", "edge-without-trim"} <= {one.rule for one in check(layout)}
    assert_sound(layout)
