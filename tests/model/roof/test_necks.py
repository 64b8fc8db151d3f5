"""Necks: a slope all but cut off is parted at the ridge above it, or at the ridge's end where that is near."""

import math

import numpy as np
import pytest

from trimwright.model.edge_kinds import EdgeKind
from trimwright.model.roof.necks import parted
from trimwright.model.roof.record import Edge


def edge(vertices: np.ndarray, kind: EdgeKind, ends: tuple[int, int]) -> Edge:
    start, end = (vertices[k] for k in ends)
    return Edge(kind, kind, (0, 1), start, end, ends, np.array([0.0, 1.0, 0.0]), None, math.pi, 0.0)


@pytest.mark.parametrize(
    ("along", "below", "foot"),
    [(3, 5, 0), (5.9, 5, 0), (6.1, 5, 6), (50, 5, 6), (93.9, 5, 6), (94.1, 5, 1), (97, 5, 1), (50, 11, None)],
)
def test_a_neck_ends_at_a_ridges_end_that_is_within_6_inches(
    along: float, below: float, foot: int | None
) -> None:
    """A ridge of 100 in and a corner of two valleys ``below`` it; a new corner is the seventh, straight above."""
    corner = [along, 100.0 - below, 0.0]
    vertices = np.array(
        [[0.0, 100, 0], [100, 100, 0], [0, 0, 0], [along - 9, 0, 0], corner, [along + 9, 0, 0]]
    )
    edges = [
        edge(vertices, "ridge", (0, 1)),
        edge(vertices, "valley", (3, 4)),
        edge(vertices, "valley", (5, 4)),
    ]
    found = parted(vertices, [[0, 2, 3, 4, 5, 1]], [0], edges)
    if foot is None:
        assert found is None
        return
    assert found is not None
    points, rings, owners, neck = found
    assert neck == (4, foot) and owners == [0, 1]
    assert all({4, foot} <= set(ring) for ring in rings)
    assert points[6:].tolist() == [[along, 100.0, 0.0]] * (foot == 6)
