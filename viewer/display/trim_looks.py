"""What trim on each kind of edge is called, and the colors that tell it from the others.

Source: the hues are those of M. Okabe and K. Ito, *Color Universal Design* (2008), which people with any kind of
color vision can tell apart; marks on the pieces say the same without color. From memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from trimwright.model.edge_kinds import EdgeKind
from trimwright.model.message import Message, message

from .color_math import WHITE, Color, lightness, mix

TAG_LIGHT = 0.5
"""How light a mark's tag is at least, from 0 to 1, so that dark letters on it are easily read."""


@dataclass(frozen=True, slots=True)
class TrimLook:
    """The words and the color of trim on one kind of edge.

    Attributes:
        name: What such an edge is called in a legend: ``high side``.
        title: What the form calls its trim: ``Ridge cap``.
        about: Which edges they are, in a sentence.
        hue: Its color when pieces are told apart.
    """

    name: Message
    title: Message
    about: str
    hue: Color

    @property
    def tones(self) -> tuple[Color, Color]:
        """The colors of every second piece and of those between, so that neighbors differ."""
        return mix(self.hue, WHITE, 0.42), mix(self.hue, WHITE, 0.1)


LOOKS: dict[EdgeKind, TrimLook] = {
    "eave": TrimLook(message("eave"), message("Eave trim"), "Low edges, level.", (86, 180, 233)),
    "rake": TrimLook(
        message("rake"), message("Rake trim"), "Sloping edges of a gable or a shed.", (230, 159, 0)
    ),
    "high": TrimLook(
        message("high side"), message("High-side trim"), "The upper edge of a shed.", (0, 114, 178)
    ),
    "valley": TrimLook(
        message("valley"), message("Valley pans"), "Edges between two faces that rise away.", (240, 228, 66)
    ),
    "break": TrimLook(
        message("break"),
        message("Break aprons"),
        "Edges at which the pitch changes, level or nearly so.",
        (213, 94, 0),
    ),
    "hip": TrimLook(
        message("hip"),
        message("Hip caps"),
        "Sloping edges between two faces that fall away.",
        (204, 121, 167),
    ),
    "ridge": TrimLook(
        message("ridge"), message("Ridge cap"), "Level edges between two faces that fall away.", (0, 158, 115)
    ),
}
"""Every kind of edge of ``model/edge_kinds.py``."""


def tag_of(hue: Color) -> Color:
    """Return the color of the tag that a mark stands on: ``hue``, made as light as dark letters ask for."""
    tags = (mix(hue, WHITE, share / 20) for share in range(20))
    return next(tag for tag in tags if lightness(tag) >= TAG_LIGHT)
