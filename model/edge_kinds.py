"""The kinds of edge that get trim, one row each: what all trim on such an edge has in common.

A new kind of edge is a row here, the geometry that finds it in ``roof/edges.py``, a profile in the catalogue,
what its edges are called in ``roof/name_words.py``, and the words and color of its trim in
``viewer/display/trim_looks.py``. Where it meets other edges, a joint says so for itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

EdgeKind = str
"""The name of a kind of edge: a key of ``KINDS``."""

FACED = ("top", "face")
"""Legs of trim that turns down over an edge."""

WINGED = ("left wing", "right wing")
"""Legs of trim that lies over two faces."""

Ending = Literal["hook", "on", "under"]
"""How panels end at trim."""


@dataclass(frozen=True, slots=True)
class TrimKind:
    """What all trim on one kind of edge has in common.

    Attributes:
        mark: Letter that the marks of its pieces begin with.
        profile: The catalogue's profile that it has where a scene names none.
        legs: Names of the legs that every profile for it must have: corners are cut by these names.
        panels: How panels end at it. They ``hook`` round its nose and are set after it, end ``on`` it, where they hook
            cleats, and are set after it too, or end ``under`` it and are set before it: it stands on closures, as
            high as their seams.
        short: How far pans stop short of the edge, to move and to be turned, inches; 0 where they hook round.
        cleated: It is held by cleats on its hems, not by screws, so that it can move.
        lower: How panels of the lower of its two faces end, where that is another way.
    """

    mark: str
    profile: str
    legs: tuple[str, ...]
    panels: Ending
    short: float = 0.0
    cleated: bool = False
    lower: Ending | None = None

    def ending(self, is_lower: bool) -> Ending:
        """Return how panels of one of its faces end at it: of the lower one, or of any other."""
        return self.lower if is_lower and self.lower is not None else self.panels

    @property
    def is_covered(self) -> bool:
        """Whether panels lie over it: it is set before them, on one side at least."""
        return self.panels != "under"

    @property
    def is_cap(self) -> bool:
        """Whether it covers what meets under it, with a wing over each face."""
        return self.legs == WINGED and not self.is_covered


KINDS: dict[EdgeKind, TrimKind] = {
    "eave": TrimKind("E", "hook eave", FACED, "hook"),
    "rake": TrimKind("R", "hook rake", FACED, "hook"),
    "high": TrimKind("T", "high side", FACED, "under", short=1.0),
    "valley": TrimKind("V", "W valley", WINGED, "on", short=4.0, cleated=True),
    "break": TrimKind("B", "break apron", ("top", "apron"), "on", short=2.0, lower="under"),
    "hip": TrimKind("H", "hip cap", WINGED, "under", short=2.0),
    "ridge": TrimKind("C", "ridge cap", WINGED, "under", short=1.0),
}
"""Every kind of edge, in the order in which its trim is set."""


BARE: tuple[EdgeKind, ...] = ("step",)
"""Kinds of edge that are found, and for which no trim is made: they are left bare, and told."""


def rank(kind: EdgeKind) -> int:
    """Return the place of a kind of edge in the order in which trim is set; what stays bare comes last."""
    return [*KINDS, *BARE].index(kind)
