"""The shapes of gutters and downspouts."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.record import Edge, Roof
from trimwright.model.scene.house import HouseSpec

from .body import Body, Ints, Mesh, fan, merged, slab, triangles_of
from .eaves import level_out
from .gutters import DEEP, PIPE, WIDE, Downspout, Gutter, downspouts_of, gutters_of

THICK = 0.12
"""How thick a gutter is drawn, inches."""

BACK = -0.03
"""How far out its back stands, inches: behind the trim's face, which hangs into it."""

BOX = (
    (0.0, 0.0),
    (0.0, -DEEP),
    (0.62 * WIDE, -DEEP),
    (0.72 * WIDE, -0.55 * DEEP),
    (WIDE, -0.22 * DEEP),
    (WIDE, 0.0),
)
"""Section of a box gutter from the top of its back: out and up, inches."""

ROUND = tuple(
    (WIDE / 2 * (1 - math.cos(turn)), -WIDE / 2 * math.sin(turn) - 0.4)
    for turn in np.linspace(0, math.pi, 13).tolist()
)
"""Section of a half-round gutter."""

SECTIONS = {"box": BOX, "half-round": ((0.0, 0.0), *ROUND)}

SIDES = {"box": 4, "half-round": 12}
"""How many sides a downspout has."""


def gutter_bodies(roof: Roof, spec: HouseSpec) -> Iterator[Body]:
    """Yield one body with all gutters and downspouts, where a house has any."""
    gutters = gutters_of(roof, spec)
    if gutters:
        meshes = [mesh for gutter in gutters for mesh in _trough(gutter, spec.gutters)]
        meshes += [_pipe(spout, SIDES[spec.gutters]) for spout in downspouts_of(roof, spec)]
        yield Body("gutter", "house", *merged(meshes))


def _trough(gutter: Gutter, shape: str) -> Iterator[Mesh]:
    """Yield a gutter: its section drawn along the eave, mitered with those beside it; and a plate at each free end."""
    outer = np.array(SECTIONS[shape])
    ring = np.concatenate([outer, _thinner(outer)[::-1]])
    ends = ((gutter.edge.start, gutter.before), (gutter.edge.end, gutter.after))
    rings = [_at_corner(gutter, place, beside, ring) for place, beside in ends]
    cap = _cap(ring)
    yield _drawn_through(rings, cap, cap)
    for (place, beside), way in zip(ends, (-1, 1), strict=True):
        if beside is None:
            plate = _at_corner(gutter, place, None, outer)[::way]
            yield slab(plate + way * THICK * gutter.edge.direction, -way * THICK * gutter.edge.direction)


def _thinner(outer: Array) -> Array:
    """Return the inside of an open section, which runs down its back and up its front."""
    ways = np.diff(outer, axis=0)
    normals = np.column_stack([-ways[:, 1], ways[:, 0]]) / np.linalg.norm(ways, axis=1)[:, None]
    first = np.concatenate([normals[:1], normals])
    second = np.concatenate([normals, normals[-1:]])
    share = 1 + np.einsum("ij,ij->i", first, second)
    return np.asarray(outer + THICK * (first + second) / share[:, None])


def _at_corner(gutter: Gutter, place: Array, beside: Edge | None, ring: Array) -> Array:
    """Return a section at one end of its eave, in the plane where the gutter beside it is met."""
    own = gutter.out
    shift = own if beside is None else (own + level_out(beside)) / (1 + own @ level_out(beside))
    up = np.array([0.0, 0.0, 1.0])
    return np.asarray(place + (ring[:, :1] + BACK) * shift + (ring[:, 1:] - gutter.rim) * up)


def _cap(section: Array) -> Ints:
    """Return triangles over the end of a gutter's metal."""
    return triangles_of(np.column_stack([section, np.zeros(len(section))]))


def _drawn_through(rings: list[Array], first: Ints, last: Ints) -> Mesh:
    """Return the mesh through rings that turn clockwise seen along the way, with triangles over both of its ends."""
    n = len(rings[0])
    a, b = np.arange(n), np.roll(np.arange(n), -1)
    rim = np.concatenate([np.stack([b, a, a + n], axis=1), np.stack([b, a + n, b + n], axis=1)])
    between = [rim + n * number for number in range(len(rings) - 1)]
    faces = np.concatenate([*between, first, last[:, ::-1] + n * (len(rings) - 1)])
    return np.concatenate(rings), faces, np.ones(len(faces), dtype=np.int8)


def _pipe(spout: Downspout, sides: int) -> Mesh:
    """Return a downspout: a ring of so many sides at each bend of its path, in the plane that halves the bend."""
    turn = (np.arange(sides) + 0.5) * math.tau / sides
    radius = PIPE / 2 / math.cos(math.pi / sides)
    ways = np.diff(spout.path, axis=0)
    ways /= np.linalg.norm(ways, axis=1)[:, None]
    rings = []
    for number, place in enumerate(spout.path):
        before, after = ways[max(number - 1, 0)], ways[min(number, len(ways) - 1)]
        across = np.cross(spout.along, before) + np.cross(spout.along, after)
        across /= 1 + before @ after
        rings.append(place + radius * (np.cos(turn)[:, None] * spout.along + np.sin(turn)[:, None] * across))
    ends = fan(sides)
    return _drawn_through(rings, ends, ends)
