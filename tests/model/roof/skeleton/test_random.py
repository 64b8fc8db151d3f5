"""Random outlines against other ways to the same roof: repeated insets, and the lowest of the planes."""

import math

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from outlines import Rings, convex, outline

from trimwright.model.geometry.polygon import area_vector
from trimwright.model.roof.skeleton.skeleton import SideFace, skeleton

Array = NDArray[np.float64]

SPEED = 2.0
HEIGHTS = 50
STEPS = 4
"""Insets between two heights that are compared: small ones, since one inset does not know of sides that run out."""

SLICE = range(24)
SWEEP = range(1000, 3000)


def above(faces: tuple[SideFace, ...], rings: Rings, height: float) -> shapely.Geometry:
    """Return the plan of all that is higher than ``height``: of each face what is far enough from its eave."""
    starts = np.concatenate(rings)
    ways = np.concatenate([np.roll(ring, -1, axis=0) - ring for ring in rings])
    parts = []
    for face in faces:
        along = ways[face.sides[0]] / np.linalg.norm(ways[face.sides[0]])
        into = np.array([-along[1], along[0]])
        foot, far = starts[face.sides[0]] + height * SPEED * into, 1e5
        half = [
            foot - far * along,
            foot + far * along,
            foot + far * (along + into),
            foot + far * (into - along),
        ]
        plan = shapely.Polygon(face.outline[:, :2], [hole[:, :2] for hole in face.holes])
        parts.append(plan.intersection(shapely.Polygon(half)))
    return shapely.union_all(parts, grid_size=1e-7)


def assert_level_sets_are_insets(seed: int) -> None:
    rings = outline(seed)
    faces = skeleton(rings, np.full(sum(map(len, rings)), SPEED))
    plan = inset = shapely.Polygon(rings[0], rings[1:])
    top = max(float(face.outline[:, 2].max()) for face in faces)
    for step in range(1, HEIGHTS * STEPS):
        inset = inset.buffer(-SPEED * top / HEIGHTS / STEPS, join_style="mitre", mitre_limit=1e6)
        if step % STEPS == 0:
            here = above(faces, rings, step * top / HEIGHTS / STEPS)
            assert here.symmetric_difference(inset).area < 1e-5 * plan.area, f"outline {seed}, step {step}"


def assert_lowest_plane_rules(seed: int) -> None:
    rng = np.random.default_rng(seed)
    ring = convex(rng, int(rng.integers(3, 20)))
    speeds = rng.uniform(0.5, 4, len(ring))
    faces = skeleton([ring], speeds)
    ways = np.roll(ring, -1, axis=0) - ring
    along = ways / np.linalg.norm(ways, axis=1)[:, None]
    into = np.column_stack([-along[:, 1], along[:, 0]])
    for face in faces:
        rises = ((face.outline[:, None, :2] - ring) * into).sum(axis=2) / speeds
        assert rises.min(axis=1) == pytest.approx(face.outline[:, 2], abs=1e-7)
        assert rises[:, face.sides[0]] == pytest.approx(face.outline[:, 2], abs=1e-7)


def assert_areas_add_up(seed: int) -> None:
    """True area x cos(slope) is plan area, whatever the pitches."""
    rings = outline(seed)
    rng = np.random.default_rng(seed)
    slopes = rng.uniform(0.2, 1.1, sum(map(len, rings)))
    faces = skeleton(rings, 1 / np.tan(slopes))
    total = 0.0
    for face in faces:
        rings_of_face = (face.outline, *face.holes)
        area = np.linalg.norm(np.sum([area_vector(ring) for ring in rings_of_face], axis=0))
        total += float(area) * math.cos(slopes[face.sides[0]])
    assert total == pytest.approx(shapely.Polygon(rings[0], rings[1:]).area, rel=1e-9)


@pytest.mark.parametrize("seed", SLICE)
def test_level_sets_are_repeated_insets(seed: int) -> None:
    assert_level_sets_are_insets(seed)


@pytest.mark.parametrize("seed", SLICE)
def test_over_a_convex_outline_the_lowest_plane_is_the_roof(seed: int) -> None:
    assert_lowest_plane_rules(seed)


@pytest.mark.parametrize("seed", [seed for seed in SLICE if seed % 3 != 1])
def test_areas_add_up_at_unequal_pitches(seed: int) -> None:
    assert_areas_add_up(seed)


@pytest.mark.sweep
def test_two_thousand_outlines() -> None:
    for seed in SWEEP:
        assert_level_sets_are_insets(seed)
        assert_lowest_plane_rules(seed)
        if seed % 3 != 1:
            assert_areas_add_up(seed)
