"""A Z whose two ends come together: its foot and its flange end where metal of an eighth of an inch is left."""

import numpy as np
import pytest

from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.panels.closure_forms import closure_section, narrowed
from trimwright.model.panels.lay import stuff_of
from trimwright.model.scene.read import scene_of


@pytest.mark.parametrize(
    ("at_bend", "at_edge", "kept"),
    [(1.0, 1 / 8, 1.0), (1.0, 0.0, 7 / 8), (5 / 8, 0.0, 4 / 5), (1 / 8, 0.0, None), (1 / 16, 0.0, None)],
    ids=["an eighth is left", "at 7/8 of it", "at 4/5 of it", "none is left at the bend", "less than that"],
)
def test_a_flange_is_cut_off_where_its_ends_leave_it_an_eighth(
    at_bend: float, at_edge: float, kept: float | None
) -> None:
    """Under three rows of screws, 1 1/4 in apart, it is 3 3/8 in wide: as long at its bend and its edge as is said."""
    roof = {"form": "gable", "length": 240, "width": 200, "pitch": "6/12"}
    stuff = stuff_of(scene_of({"title": "House", "roof": roof}))
    whole = closure_section(closure_catalogue()["Z"], stuff, 1.5, 3.375)
    web, flange = whole.strip_of("web"), whole.strip_of("flange")
    v = np.array([0.0, whole.v[web + 1], whole.v[flange], whole.width])
    half = np.array([0.5, 0.5, at_bend / 2, at_edge / 2])
    found = narrowed(whole, stuff, 1.5, 3.375, np.stack([-half, v], axis=1), np.stack([half, v], axis=1))
    assert found is not None
    if kept is None:
        assert found.leg("flange") is None
    else:
        strip = found.strip_of("flange")
        wide = (found.v[strip + 1] - found.v[strip]) / (v[3] - v[2])
        assert wide == pytest.approx(kept, abs=1e-6)
