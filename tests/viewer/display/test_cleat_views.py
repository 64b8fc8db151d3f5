"""The lap of continuous cleats is shown with what its sheet says to do there."""

import numpy as np
import pytest
from zoo import layout

from trimwright.viewer.display.cleat_views import LIFT, cleat_views


def test_the_screw_through_a_lap_is_told_where_it_goes_in() -> None:
    """Half of the lap from the end of the length on top; apart, it is on that length, which is lifted off."""
    there = layout("boxed-gable")
    closed, apart = cleat_views(there)
    over = next(one for one in there.cleats if any(end.lies == "over" for end in one.laps))
    lap = next(end for end in over.laps if end.lies == "over")
    assert lap.lap is not None
    local = np.linalg.inv(over.placement)
    for view, lift in ((closed, 0.0), (apart, LIFT)):
        (label,) = (one for one in view.labels if str(one.text) == "one screw through both")
        u, _, up = (local @ [*label.points[0], 1.0])[:3]
        assert u == pytest.approx(lap.inward(lap.lap / 2), abs=0.01)
        assert lift <= up <= lift + 0.3
