"""Own face: where no joint is made, what lies on a slope ends where that slope does: wings, and top legs.

What goes on past that would lie in the next slope's panels, or stand off them.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from ..edge_kinds import FACED, KINDS, WINGED
from ..geometry.arrays import Array
from ..roof.record import Edge
from ..tolerances import CLEARANCE, HAND
from .cap import wings
from .short_edge import ALONG, out_of
from .stand import Stand

FARTHEST = 24.0
"""How far from the corner a cut may go in or out, inches: along what runs nearly in line it would go anywhere. The
widest trim, an apron, needs some 20 in at a square corner."""


def over_own_face(stand: Stand, ends: Array, edges: Sequence[Edge]) -> Array:
    """Return an end's cut, drawn in to the edges between slopes by which the slopes that it lies on end there.

    What reaches past them by less than a hand's cut may differ stays straight.

    Args:
        stand: The end.
        ends: Where it is cut else, ``(n, 2) float, inches``.
        edges: Every edge of the roof that ends at its corner.
    """
    held, is_wing = ends * stand.sign, KINDS[stand.run.trim].legs == WINGED
    for strips, face in _lying(stand):
        for edge in edges:
            if edge is stand.run.edge or face not in edge.faces or len(edge.faces) < 2:
                continue
            normal = out_of(edge, face)
            if normal @ stand.away > ALONG and (is_wing or _turns_back(edge, stand)):
                cut = stand.cut(stand.corner - normal * CLEARANCE, normal) * stand.sign
                cut = np.maximum(cut, stand.u * stand.sign - FARTHEST)
                if (held - cut)[strips].max() > HAND:
                    held[strips] = np.minimum(held, cut)[strips]
    return np.asarray(held * stand.sign)


def _turns_back(edge: Edge, stand: Stand) -> bool:
    """Return whether an edge of the roof goes back beside an end, rather than on past it."""
    back = (edge.start + edge.end) / 2 - stand.corner
    return bool(back @ stand.away < 0)


def _lying(stand: Stand) -> Iterator[tuple[NDArray[np.bool_], int]]:
    """Yield which strips lie on each slope beside a run, and the index of its face."""
    section, legs = stand.section, KINDS[stand.run.trim].legs
    if legs == WINGED:
        is_left = section.v[:-1] + section.v[1:] < section.width
        for wing in wings(stand):
            yield is_left if wing.left else ~is_left, wing.face
    elif legs == FACED:
        yield np.arange(section.strips) <= section.strip_of("top"), stand.run.edge.faces[0]
