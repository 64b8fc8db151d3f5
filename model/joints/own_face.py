"""Own face: where no joint is made, each wing of a cap or a pan ends where its own slope does.

What goes on past that would lie in the next slope's panels, or stand off them.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..edge_kinds import KINDS, WINGED
from ..geometry.arrays import Array
from ..roof.record import Edge
from ..tolerances import CLEARANCE, HAND
from .cap import wings
from .short_edge import ALONG, out_of
from .stand import Stand


def over_own_face(stand: Stand, ends: Array, edges: Sequence[Edge]) -> Array:
    """Return an end's cut, drawn in to the edges between slopes by which the faces under its wings end there.

    What reaches past them by less than a hand's cut may differ stays straight.

    Args:
        stand: The end.
        ends: Where it is cut else, ``(n, 2) float, inches``.
        edges: Every edge of the roof that ends at its corner.
    """
    if KINDS[stand.run.trim].legs != WINGED:
        return ends
    section = stand.section
    is_left = section.v[:-1] + section.v[1:] < section.width
    held = ends * stand.sign
    for wing in wings(stand):
        own = is_left if wing.left else ~is_left
        for edge in edges:
            if edge is stand.run.edge or wing.face not in edge.faces or len(edge.faces) < 2:
                continue
            normal = out_of(edge, wing.face)
            if normal @ stand.away > ALONG:
                cut = stand.cut(stand.corner - normal * CLEARANCE, normal) * stand.sign
                if (held - cut)[own].max() > HAND:
                    held[own] = np.minimum(held, cut)[own]
    return np.asarray(held * stand.sign)
