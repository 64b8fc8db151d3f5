"""The view of a changed layout: the metal that is not as it was stands out, from the front and from behind."""

from __future__ import annotations

from collections.abc import Collection

from trimwright.model.layout import Layout
from trimwright.model.message import message

from .camera import looking_at
from .colors import QUIET, SHORT
from .notes import piece_label
from .view import HOUSE, LEFT_OFF, METAL, ViewPoint
from .whole_roof import BACK, FRONT, outline_of


def changed_view(layout: Layout, marks: Collection[str]) -> ViewPoint:
    """Return the view in which the pieces of these marks stand out."""
    box = outline_of(layout)
    changed = frozenset(marks)
    return ViewPoint(
        "changed",
        message("What changed"),
        (
            looking_at(box, FRONT, margin=1.15, frame=(0.0, 0.0, 0.5, 1.0)),
            looking_at(box, BACK, margin=1.15, frame=(0.5, 0.0, 1.0, 1.0)),
        ),
        HOUSE | METAL,
        "pieces",
        notes=(LEFT_OFF, message("left from the front, right from behind")),
        focus=changed,
        highlight=changed,
        labels=tuple(piece_label(part, part.mark) for part in layout.parts if part.mark in changed),
        key=((message("changed"), SHORT), (message("as it was"), QUIET)),
        outdoors=True,
    )
