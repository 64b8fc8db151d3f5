"""Starting lines: 3, 4 and 5 on the deck itself, the largest that finds room."""

import numpy as np
import pytest

from trimwright.model.panels.starting_line import starting_lines
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_of


def test_the_first_seam_of_a_shed_by_hand() -> None:
    """Seams every 16 in from 12 in: 13 ft of deck leave 12 ft beside the line, and 14 ft 9 in of slope 3 times 4 ft."""
    roof = {
        "form": "shed",
        "length": "13'",
        "width": "14'",
        "pitch": "4/12",
        "overhang": {"eave": 0, "rake": 0, "high": 0},
    }
    plan = build(scene_of({"title": "Ice house", "roof": roof, "panels": {"offset": 12}}))
    (line,) = starting_lines(plan.roof, plan.panels)
    assert (line.face, line.eave, line.way) == ("front", "front eave", "right")
    assert line.offset == pytest.approx(12.0)
    assert (line.along, line.up, line.across) == (9 * 12, 12 * 12, 15 * 12)


@pytest.mark.parametrize("form", ["gable", "hip", "shed"])
def test_the_marks_are_as_far_apart_on_the_roof_as_said(form: str) -> None:
    roof = {"form": form, "length": "40'", "width": "24'", "pitch": "7/12"}
    plan = build(scene_of({"title": "Net loft", "roof": roof}))
    lines = list(starting_lines(plan.roof, plan.panels))
    assert [line.face for line in lines] == [face.name for face in plan.roof.faces]
    for line in lines:
        eave = next(edge for edge in plan.roof.edges if edge.name == line.eave)
        normal = plan.roof.faces[eave.faces[0]].normal
        foot = eave.start + eave.direction * line.offset
        sign = 1 if line.way == "right" else -1
        beside, above = (
            foot + sign * line.along * eave.direction,
            foot + line.up * np.cross(normal, eave.direction),
        )
        assert np.linalg.norm(beside - above) == pytest.approx(line.across)
        assert 0 <= (beside - eave.start) @ eave.direction <= eave.length
