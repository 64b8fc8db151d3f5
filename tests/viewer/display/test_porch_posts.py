"""Posts of a porch: under its eave alone, from the ground to the deck, and its downspout beside them."""

import numpy as np
import pytest
from zoo import layout

from trimwright.model.geometry.arrays import Array
from trimwright.model.scene.house import HouseSpec
from trimwright.viewer.display.gutters import PIPE, downspouts_of
from trimwright.viewer.display.porch_posts import APART, porch_posts
from trimwright.viewer.display.wall_frames import frames_of


def test_a_porch_stands_on_posts_under_its_own_eave() -> None:
    roof = layout("weigh-house").roof
    [porch] = [
        edge for edge in roof.edges if edge.kind == "eave" and edge.start[2] < roof.edges[0].start[2] - 12
    ]
    beam, *posts = (mesh[0] for mesh in porch_posts(roof, frames_of(roof)))
    assert np.ptp(beam, axis=0).max() == pytest.approx(porch.length - 14.5)
    assert [post[:, 2].min() for post in posts] == pytest.approx([0.0] * len(posts))
    assert [post[:, 2].max() for post in posts] == pytest.approx([beam[:, 2].min()] * len(posts))
    middles = [float((post.mean(axis=0) - porch.start) @ porch.direction) for post in posts]
    assert np.diff(middles) == pytest.approx(np.diff(middles)[0]) and 0 < np.diff(middles)[0] <= APART
    for mesh in (beam, *posts):
        assert _below_the_deck(mesh, roof.faces[porch.faces[0]].outline)


def test_a_house_without_a_porch_has_none() -> None:
    roof = layout("boat-shed").roof
    assert not list(porch_posts(roof, frames_of(roof)))


def test_the_downspout_of_a_porch_goes_straight_down() -> None:
    roof = layout("weigh-house").roof
    lowest = min(spout.path[0, 2] for spout in downspouts_of(roof, HouseSpec(gutters="box")))
    [spout] = [one for one in downspouts_of(roof, HouseSpec(gutters="box")) if one.path[0, 2] == lowest]
    assert np.ptp(spout.path[:-1, :2], axis=0).max() < PIPE, "back to no wall"
    assert (np.diff(spout.path[:, 2]) < 0).all() and spout.path[-1, 2] > 0


def _below_the_deck(points: Array, outline: Array) -> bool:
    """Return whether points lie under the plane of a face."""
    normal = np.cross(outline[1] - outline[0], outline[2] - outline[0])
    normal *= np.sign(normal[2])
    return bool(((points - outline[0]) @ normal < 0).all())
