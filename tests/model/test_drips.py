"""Drip edges that end alike at the corners: faces against hand calculation, and by what a scene asks."""

from math import atan, cos

import pytest

from trimwright.model.checks.facts import outside_width
from trimwright.model.drips import drip_height, drip_of
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

Tables = dict[str, dict[str, object]]


def gable(trim: Tables | None = None, profile: Tables | None = None, **roof: str) -> Layout:
    raw: dict[str, object] = {
        "title": "Net loft",
        "roof": {"form": "gable", "length": "18'", "width": "14'", **roof},
    }
    return build(scene_of(raw | ({"trim": trim} if trim else {}) | ({"profile": profile} if profile else {})))


def faces(plan: Layout, trim: str) -> list[float]:
    """Return the widths of the faces of one kind of trim, run by run, inches."""
    found = []
    for run in plan.runs:
        leg = run.section.leg("face")
        if run.trim == trim and leg is not None:
            found.append(outside_width(run.section, leg))
    return found


def apart(plan: Layout) -> list[float]:
    """Return how far apart the drip edges hang at each corner of eave and rake, inches."""
    rakes, eaves = ([run for run in plan.runs if run.trim == trim] for trim in ("rake", "eave"))
    return [
        drip_height(rake.frame, drip_of(rake.section), rake.edge.start)
        - drip_height(eave.frame, drip_of(eave.section), rake.edge.start)
        for rake in rakes
        for eave in eaves
        if rake.edge.vertices[0] in eave.edge.vertices
    ]


@pytest.mark.parametrize("pitch", range(2, 19))
def test_the_eave_trim_is_as_deep_as_a_rake_square_to_the_deck(pitch: int) -> None:
    """3 1/2 in square to the deck are 3 1/2 / cos in plumb; metal and bends change that by less than 3/16 in."""
    plan = gable(pitch=f"{pitch}/12")
    assert faces(plan, "rake") == pytest.approx([3.5] * 4, abs=0.01)
    assert faces(plan, "eave") == pytest.approx([3.5 / cos(atan(pitch / 12))] * 2, abs=3 / 16)
    assert max(map(abs, apart(plan))) <= 1 / 16


def test_each_eave_follows_the_rakes_of_its_own_slope() -> None:
    front, back = sorted(faces(gable(pitch="4/12", far_pitch="12/12"), "eave"))
    assert front == pytest.approx(3.69, abs=1 / 8)
    assert back == pytest.approx(4.95, abs=1 / 8)


def test_rakes_follow_an_eave_that_is_asked_to_be_deeper() -> None:
    """5 in plumb are 5 cos in square to the deck: 4.74 in at 4 in 12."""
    plan = gable({"eave": {"face": "5 in"}}, pitch="4/12")
    assert faces(plan, "eave") == pytest.approx([5.0] * 2, abs=0.01)
    assert faces(plan, "rake") == pytest.approx([5 * cos(atan(4 / 12))] * 4, abs=1 / 8)
    assert max(map(abs, apart(plan))) <= 1 / 16


def test_what_a_scene_says_stays() -> None:
    asked = gable({"eave": {"face": "3 1/2 in"}}, pitch="12/12")
    assert faces(asked, "eave") == pytest.approx([3.5] * 2, abs=0.01)
    own = {
        "shallow": {
            "edges": ["eave"],
            "anchor": "face",
            "legs": [
                {"name": "top", "width": 3, "direction": "deck", "fastened": True},
                {"name": "face", "width": 2.5, "direction": "plumb"},
                {"name": "kick", "width": 0.5, "turn": -45},
            ],
        }
    }
    drawn = gable({"eave": {"profile": "shallow"}}, own, pitch="12/12")
    assert faces(drawn, "eave") == pytest.approx([2.5] * 2, abs=0.01)
