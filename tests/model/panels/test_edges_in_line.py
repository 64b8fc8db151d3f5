"""Edges of one face in one line, as the eaves beside a porch: each panel ends at the one that it lies along."""

from dataclasses import replace

import numpy as np
import pytest
from porches import porch_roof
from zoo import NAMES, layout

from trimwright.model.checks.record import Finding
from trimwright.model.checks.run import check
from trimwright.model.layout import Layout
from trimwright.model.panels.record import Panel
from trimwright.model.panels.steps import panel_steps
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of

PAST = 2.0
"""Panels reach at most so far past the end of an edge, inches: past a rake's lip, or to the cleat of a valley."""


def beside_a_porch(offset: float = 8.0, **run: bool) -> Layout:
    """Return a gable 304 in long whose front eave a porch parts from 80 in to 224 in; the first seam is ``offset`` in.

    Args:
        offset: Of the first seam of each slope from its left end, inches.
        run: What trim is left bare, by name.
    """
    roof = porch_roof(304, 200, 80, 224, 60, overhang={"rake": 0})
    return build(scene_of({"title": "Porch", "roof": roof, "panels": {"offset": offset}, "run": run}))


def seams_at(here: Layout, eave: str) -> list[float]:
    """Return how far from the left of the house the seams stand whose panels end at an eave, inches."""
    own = [panel for panel in here.panels if panel.seams and panel.ends[0].border == eave]
    assert all(eave in panel.borders for panel in own)
    return sorted(round(float(panel.seams[0][0, 0]), 6) for panel in own)


def test_each_panel_beside_a_porch_is_named_for_its_own_eave() -> None:
    """Seams stand 8 in and every 16 in from there: five over the left eave, nine over the porch, five over the right.

    The porch's rake takes the place of the seam beside it, so that its first is the one 88 in in.
    """
    here = beside_a_porch()
    left, porch, right = sorted(
        (edge for edge in here.roof.edges if edge.kind == "eave" and edge.outward[1] < 0),
        key=lambda edge: float(edge.start[0]),
    )
    assert seams_at(here, left.name) == [8.0 + 16 * k for k in range(5)]
    assert seams_at(here, porch.name) == [88.0 + 16 * k for k in range(9)]
    assert seams_at(here, right.name) == [232.0 + 16 * k for k in range(5)]


@pytest.mark.parametrize(
    ("offset", "bare", "rake", "line"),
    [
        (15.75, True, "porch 1 right rake", 79.75),
        (0.25, True, "porch 1 left rake", 224.25),
        (14.870383, False, "porch 1 right rake", 78.870383),
        (14.85, False, "porch 1 right rake", 78.85),
    ],
)
def test_a_seam_on_the_line_of_a_porch_s_rake_locks_above_it(
    offset: float, bare: bool, rake: str, line: float
) -> None:
    """Panels end 1/4 in past a bare rake at 80 in or 224 in, 1.129617 in past one with a lip; seams stand 16 in apart.

    One seam goes from the porch's inside corner to the ridge. Below it the panel over the porch is folded along all of
    the rake, 60 in out at 6 in 12: 67.08 in; less 1/64 in at each end, as close as snips go.
    """
    names = [f"porch 1 {side} rake" for side in ("left", "right")]
    here = beside_a_porch(offset, **(dict.fromkeys(names, False) if bare else {}))
    front = [panel for panel in here.panels if panel.face == 0]
    (left,) = [one for one in front if one.outline[:, 0].max() == pytest.approx(line, abs=1e-5)]
    (right,) = [one for one in front if one.outline[:, 0].min() == pytest.approx(line, abs=1e-5)]
    assert (left.edges[1], right.edges[0]) == ("under", "over")
    porch, house = (left, right) if "left" in rake else (right, left)
    (seam,) = right.seams
    heights = house.outline[:, 2].min(), house.outline[:, 2].max()
    assert seam[:, 2].tolist() == pytest.approx(heights, abs=here.scene.metal.thickness)
    assert rake in porch.borders and rake not in house.borders
    folds = [float(np.ptp(tab.hinge[:, 0])) for tab in porch.sheet.low.tabs]
    assert max(folds) == pytest.approx(60 * 1.25**0.5 - 1 / 32, abs=1e-6)
    assert not [one for one in check(here) if one.rule in ("panels-collide", "panel-unhooked")]


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_seam_on_the_line_of_a_rake_locks_below_it(mirrored: bool) -> None:
    """A shed 200 in long whose upper half ends at a rake 120 in along, left bare; panels go on 1/4 in past it.

    The panel that ends there is folded down along the upper 60 in, at 6 in 12, and locks below. Its mirror likewise.
    """
    corners = [(0, 0), (200, 0), (200, 60), (120, 60), (120, 120), (0, 120)]
    if mirrored:
        corners = [(200 - x, y) for x, y in reversed(corners)]
    roof = {"form": "faces", "faces": [[[x, y, 100 + y / 2] for x, y in corners]]}
    line = 79.75 if mirrored else 120.25
    rake = "left-end right rake 1" if mirrored else "right-end left rake 2"
    tables = {"title": "Notch", "roof": roof, "panels": {"offset": line % 16}, "run": {rake: False}}
    panels = build(scene_of(tables)).panels
    (left,) = [one for one in panels if one.outline[:, 0].max() == pytest.approx(line, abs=1e-5)]
    (right,) = [one for one in panels if one.outline[:, 0].min() == pytest.approx(line, abs=1e-5)]
    assert (left.edges[1], right.edges[0]) == ("under", "over")
    (seam,) = right.seams
    upper, lower = (right, left) if mirrored else (left, right)
    assert float(np.ptp(seam[:, 2])) == pytest.approx(float(np.ptp(lower.outline[:, 2])), abs=0.1)
    assert [end.ending for end in upper.ends if end.border == rake] == ["turned down"]
    assert rake not in lower.borders


@pytest.mark.parametrize("name", NAMES)
def test_the_foot_of_every_seam_is_beside_the_edge_that_it_is_named_for(name: str) -> None:
    here = layout(name)
    runs = {run.name: run for run in here.runs}
    for place in (one for one in here.sealed if one.place == "foot of a seam"):
        assert min(place.along) > -PAST and max(place.along) < runs[place.at].length + PAST, place


@pytest.mark.parametrize("at", [0, 2])
def test_a_panel_short_of_either_eave_beside_a_porch_is_found(at: int) -> None:
    here = beside_a_porch()
    eaves = sorted((run for run in here.runs if run.trim == "eave"), key=lambda run: run.edge.start[0])
    name = [run.name for run in eaves if run.edge.outward[1] < 0][at]
    panel = [one for one in here.panels if one.ends[0].border == name][2]
    (finding,) = unhooked(here, panel)
    assert finding.where == panel.name and finding.measured == pytest.approx(3 / 4 - 1 / 4)
    assert not [one for one in check(here) if one.rule == "panel-unhooked"]


def unhooked(here: Layout, panel: Panel) -> list[Finding]:
    """Return what is said of a panel's hook once it is set 1/4 in too low."""
    moved = replace(panel.solid, vertices=panel.solid.vertices - panel.placement[:3, 0] / 4)
    other = replace(panel, solid=moved)
    slipped = replace(here, panels=tuple(other if one is panel else one for one in here.panels))
    return [one for one in check(slipped) if one.rule == "panel-unhooked"]


def test_a_panel_under_two_ridges_in_line_is_folded_for_each() -> None:
    """Where they meet a wing's ridge begins on the other side; a seam stands 1/2 in from there."""
    (panel,) = [one for one in layout("salt-house").panels if {"ridge 1-7", "ridge 5-7"} <= one.borders]
    high = [(end.border, round(end.length, 6)) for end in panel.ends if end.at == "high"]
    assert high == [("ridge 5-7", 15.5), ("ridge 1-7", 0.5)]
    told = [str(step.says) for step in panel_steps(panel)]
    assert [one.rpartition(" the ")[2] for one in told if "Turn the end up" in one] == [
        "ridge 5-7.",
        "ridge 1-7.",
    ]


def test_a_side_along_two_rakes_in_line_is_named_for_both() -> None:
    """The point of a lower roof touches the left rake 60 in in, where it is parted: one fold hooks both halves."""
    faces = [
        [[0, 0, 100], [240, 0, 100], [240, 120, 160], [0, 120, 160]],
        [[240, 240, 100], [0, 240, 100], [0, 120, 160], [240, 120, 160]],
        [[-90, 20, 90], [-30, 20, 90], [0, 60, 130]],
    ]
    here = build(scene_of({"title": "Touched", "roof": {"form": "faces", "faces": faces}}))
    halves = {
        edge.name for edge in here.roof.edges if edge.faces == (0,) and edge.start[0] == edge.end[0] == 0
    }
    assert len(halves) == 2
    (first,) = [panel for panel in here.panels if panel.face == 0 and panel.borders & halves]
    assert halves <= first.borders and first.edges[0] == "hooked"
