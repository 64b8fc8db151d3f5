"""Which seams are looked at: of any in any order, the nearest on both sides of each point."""

import numpy as np
import pytest

from trimwright.model.checks.rules.seam_too_close import seams_beside


@pytest.mark.parametrize("count", [1, 2, 7])
def test_no_seam_is_nearer_than_those_that_are_looked_at(count: int) -> None:
    """Seams that run up a slope of 6 in 12 which falls to the front, and points all over it and beside it."""
    random = np.random.default_rng(count)
    across, points = random.uniform(0, 100, count), random.uniform(-20, 120, (40, 3))
    feet = np.array([[[x, 0, 0], [x, 120, 60]] for x in across])
    beside = seams_beside(points, feet, np.array([0, -1, 2]) / np.sqrt(5))
    nearest = np.abs(points[:, :1] - across).min(axis=1)
    assert np.abs(points[:, :1] - across[beside]).min(axis=1) == pytest.approx(nearest)
