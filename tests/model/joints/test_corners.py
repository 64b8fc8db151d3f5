"""Corners: the joint is chosen by what meets, a scene may turn it round, and what nothing is made for is sealed."""

import itertools
from typing import Any

import numpy as np
import pytest
from solids import depths
from uncut import left_uncut

from trimwright.model import pipeline
from trimwright.model.checks.run import check
from trimwright.model.errors import SceneError
from trimwright.model.joints.corners import JOINTS
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.roof.edges import roof_from_faces
from trimwright.model.scene.read import scene_of

SIZES = {"length": "24'", "width": "16'", "pitch": "6/12"}


def made(form: str, **tables: Any) -> Layout:
    return build(scene_of({"title": "Corners", "roof": {"form": form, **SIZES}, **tables}))


def lies(layout: Layout, kind: str) -> set[tuple[str, str]]:
    """Return which run lies over which at joints of a kind."""
    runs = {part.mark: part.run.name for part in layout.parts}
    return {
        (part.run.name, runs[other])
        for part in layout.parts
        for end in part.ends
        if end.kind.name == kind and end.lies == "over"
        for other in end.others
    }


def faults(layout: Layout) -> set[str]:
    """Return which rules that measure collisions, gaps and corners find something."""
    spoken = {finding.rule for finding in check(layout)}
    return spoken & {"pieces-collide", "miter-gap", "tab-too-small", "lap-gap", "gap-in-run"}


def test_each_end_is_what_one_joint_only_is_made_for() -> None:
    """At one corner no two joints cut the same end, so their order in the table decides nothing.

    Where each edge is there once, two that need different ends of one of them are never made at the same corner.
    """
    for one, other in itertools.combinations([joint.MEETING for joint in JOINTS], 2):
        if set(one.edges) == set(other.edges):
            cut, also = (frozenset().union(*meeting.ends) for meeting in (one, other))
            apart = [
                kind
                for kind in one.edges
                if one.edges.count(kind) == other.edges.count(kind) == 1
                and {at for which, at in cut if which == kind}.isdisjoint(
                    at for which, at in also if which == kind
                )
            ]
            assert apart or not cut & also


@pytest.mark.parametrize(
    ("form", "table", "kind", "over"),
    [
        (
            "gable",
            {"run": {"right-end left rake": {"over": ["rake"]}}},
            "peak",
            ("right-end left rake", "right-end right rake"),
        ),
        ("hip", {"run": {"left eave": {"over": ["eave"]}}}, "outside corner", ("left eave", "front eave")),
        ("hip", {"trim": {"hip": {"over": ["ridge"]}}}, "hip head", ("back-right hip", "ridge")),
    ],
)
def test_a_scene_turns_a_joint_round(form: str, table: Any, kind: str, over: tuple[str, str]) -> None:
    usual, turned = made(form), made(form, **table)
    assert over not in lies(usual, kind) and over[::-1] in lies(usual, kind)
    assert over in lies(turned, kind) and over[::-1] not in lies(turned, kind)
    assert not faults(turned) and depths(turned) == []


@pytest.mark.parametrize("pitch", ["1/12", "4/12", "9/12", "18/12"])
@pytest.mark.parametrize("rake", ["hook rake", "plain drip", "box rake"])
@pytest.mark.parametrize("eave", ["hook eave", "plain drip"])
def test_eave_trim_over_a_rake_closes_at_any_pitch(eave: str, rake: str, pitch: str) -> None:
    """Against manifold3d and the rules that measure gaps and tabs; its steps follow every line of both cuts."""
    profiles: dict[str, dict[str, Any]] = {"eave": {"profile": eave}, "rake": {"profile": rake}}
    roof = {"form": "gable", **SIZES, "pitch": pitch, "wall_height": "40'"}
    usual = build(scene_of({"title": "Usual", "roof": roof, "trim": profiles}))
    profiles["eave"]["over"] = ["rake"]
    layout = build(scene_of({"title": "Turned", "roof": roof, "trim": profiles}))
    assert ("front eave", "right-end left rake") in lies(layout, "eave-rake")
    assert faults(layout) == faults(usual) and depths(layout) == []
    ends = [end for part in layout.parts for end in part.ends if end.kind.name == "eave-rake"]
    assert len(ends) == 8
    assert all((end.tab is not None) == (end.lies == "over") for end in ends)
    assert max(map(left_uncut, ends)) < 0.05


@pytest.mark.parametrize(
    ("form", "table", "says"),
    [
        (
            "shed",
            {"trim": {"rake": {"over": ["high"]}}},
            'run."right-end left rake".over: it cannot lie over the back high edge, which closes over it',
        ),
        (
            "gable",
            {"trim": {"rake": {"over": ["rake"]}}},
            'run."right-end left rake".over: it and the right-end right rake are each to lie over the other',
        ),
        (
            "gable",
            {"trim": {"rake": {"over": ["rak"]}}},
            "trim.rake.over: 'rak' is neither a kind of edge nor",
        ),
        (
            "gable",
            {"run": {"front eave": {"over": ["back eave"]}}},
            "run.\"front eave\".over: 'back eave' does not meet it; it meets: ",
        ),
    ],
)
def test_what_cannot_be_turned_is_refused_with_the_place(form: str, table: Any, says: str) -> None:
    with pytest.raises(SceneError) as caught:
        made(form, **table)
    assert says in str(caught.value)


def test_where_no_joint_is_made_ends_are_sealed_and_a_finding_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A triangle of roof, as on a corner cut off: its two rakes meet at the top, and no ridge runs in there."""
    triangle = np.array([[0, 0, 100], [240, 0, 100], [120, 160, 180]], dtype=float)
    monkeypatch.setattr(pipeline, "build_roof", lambda _: roof_from_faces([triangle], 0.5))
    layout = made("shed")
    sealed = [(part.mark, end) for part in layout.parts for end in part.ends if end.kind.name == "sealed end"]
    assert {end.at for _, end in sealed} == {"high"} and len(sealed) == 2
    assert all(end.sealed and end.others for _, end in sealed)
    marks = {part.mark for part in layout.parts}
    assert [pair for pair in depths(layout) if marks.issuperset(pair[:2])] == []
    (finding,) = [finding for finding in check(layout) if finding.rule == "corner-without-joint"]
    assert finding.pieces == tuple(mark for mark, _ in sealed)
    assert np.allclose(finding.point, triangle[2])
    assert "by sealant alone" in str(finding.message)
