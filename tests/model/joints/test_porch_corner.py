"""An eave at the side of a porch: the one slope goes on down, its rake begins at the eave's inside corner."""

from functools import cache

import numpy as np
import pytest
from porches import porch_roof
from solids import depths
from uncut import left_uncut

from trimwright.model.checks.rules.gap_in_run import bare_at, broad_strips
from trimwright.model.checks.run import check
from trimwright.model.errors import SceneError
from trimwright.model.joints.end import End
from trimwright.model.joints.porch_corner import KIND
from trimwright.model.layout import Layout, Part
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of
from trimwright.model.sheet.fold import strip_fold
from trimwright.model.tolerances import CLEARANCE

SPOKEN = {"no-lip", "steep-pitch", "short-end-piece"}
"""What is found for reasons of its own, whatever the corner is like."""


@cache
def porch(pitch: str, eave: str = "hook eave", rake: str = "hook rake") -> Layout:
    trim = {"eave": {"profile": eave, "start": "even"}, "rake": {"profile": rake, "start": "even"}}
    return build(
        scene_of({"title": "Porch", "roof": porch_roof(300, 200, 80, 220, 60, pitch=pitch), "trim": trim})
    )


def ends_of(layout: Layout, trim: str) -> list[tuple[Part, End]]:
    return [
        (part, end)
        for part in layout.parts
        for end in part.ends
        if end.kind is KIND and part.run.trim == trim
    ]


@pytest.mark.parametrize("pitch", ["1/12", "5/12", "9/12", "18/12"])
@pytest.mark.parametrize("rake", ["hook rake", "plain drip", "box rake"])
@pytest.mark.parametrize("eave", ["hook eave", "plain drip"])
def test_it_closes_at_any_pitch(eave: str, rake: str, pitch: str) -> None:
    """Against manifold3d and every rule; its steps follow every line of both cuts, and metal covers the corner."""
    layout = porch(pitch, eave, rake)
    assert {finding.rule for finding in check(layout)} <= SPOKEN
    assert depths(layout) == []
    parts = {part.mark: part for part in layout.parts}
    both = ends_of(layout, "eave") + ends_of(layout, "rake")
    assert len(both) == 4
    for part, end in both:
        assert left_uncut(end) < 0.05
        for k in range(len(broad_strips(part.run.section))):
            assert bare_at(part, end, k, parts) <= 3 * CLEARANCE


@pytest.mark.parametrize("pitch", ["3/12", "12/12"])
def test_the_lap_opens_down_the_slope(pitch: str) -> None:
    """Both top legs cover the deck above the porch's rake, the eave's over it: water runs off it onto the rake's.

    By hand: each is as wide there as the other's reaches in from its edge, 3 in less what the bends take.
    """
    for eave, eave_end in ends_of(porch(pitch), "eave"):
        rake = next(part for part, _ in ends_of(porch(pitch), "rake") if part.mark in eave_end.others)
        assert eave_end.lies == "over"
        corner = rake.run.edge.end
        up, normal = rake.run.edge.direction, porch(pitch).roof.faces[rake.run.edge.faces[0]].normal
        inward = -rake.run.edge.outward
        place = corner + up * 1.5 + inward * 1.5
        heights = []
        for part, end in ((rake, part_end(rake, "high")), (eave, eave_end)):
            fold, _ = strip_fold(part.run.section, part.run.section.strip_of("top"))
            local = np.linalg.inv(part.placement) @ [*place, 1.0]
            u, v = (local[:3] - fold[:, 2]) @ fold[:, :2]
            assert (end.outermost - u) * (1 if end.at == "high" else -1) > 1.2
            assert 1.3 < v < 1.7
            on = part.placement[:3, :3] @ (fold @ [u, v, 1.0]) + part.placement[:3, 3]
            heights.append(float((on - corner) @ normal))
        assert 0.9 < (heights[1] - heights[0]) / eave.run.section.thickness < 1.3


def part_end(part: Part, at: str) -> End:
    return next(end for end in part.ends if end.at == at)


def test_the_rake_may_not_lie_over_the_eave_that_laps_onto_it() -> None:
    table = {"roof": porch_roof(), "run": {"porch 1 left rake": {"over": ["eave 1 1"]}}}
    with pytest.raises(SceneError, match="which closes over it"):
        build(scene_of({"title": "Porch", **table}))


def test_a_rake_that_is_to_lie_over_eaves_still_does_at_its_foot() -> None:
    """What a scene says of a kind is for the corners where it can be so."""
    table = {"roof": porch_roof(), "trim": {"rake": {"over": ["eave"]}}}
    layout = build(scene_of({"title": "Porch", **table}))
    assert len(ends_of(layout, "eave")) == 2
