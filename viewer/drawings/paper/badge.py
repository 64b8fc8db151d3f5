"""A badge: the head of something within a page, its code in a dark box that the eye finds when leafing."""

from __future__ import annotations

from ..ink.drawing import Area, Stroke, Words
from ..ink.letters import width_of, wrapped
from ..ink.shapes import rectangle
from ..ink.style import BODY, INK, LARGE, LINE, SMALL, SOFT
from .flow import Block


def badged(code: str, title: str, aside: str, width: float, name: str = "") -> Block:
    """Return a head that stays with what follows it.

    Args:
        code: In the dark box.
        title: Beside it.
        aside: At the right.
        width: To fill, inches.
        name: What the block is looked up by.
    """
    box = width_of(code, LARGE, bold=True) + 0.16
    room = width - box - 0.12 - width_of(aside, BODY) - 0.2
    full = width_of(title, LARGE, bold=True)
    below = full * SMALL / LARGE > room  # the aside stands under the title
    room = width - box - 0.12 if below else room
    size = max(SMALL, min(LARGE, LARGE * room / max(full, 1e-9)))
    texts = wrapped(title, size, room + 1e-6, bold=True)
    badge = rectangle(0.0, -0.26, box, -0.02)
    under = SMALL * LINE * (len(texts) - 1) + (BODY * LINE if below else 0.0)
    return Block(
        0.37 + under,
        (
            Area((badge,), INK, "code"),
            Words(code, (0.08, -0.2), LARGE, bold=True, color="#ffffff", name="code"),
            *(
                Words(text, (box + 0.12, -0.2 - SMALL * LINE * k), size, bold=True, color=INK, name="heading")
                for k, text in enumerate(texts)
            ),
            Words(aside, (width, -0.2 - under), BODY, "end", color=SOFT, name="aside"),
            Stroke(((0.0, -0.31 - under), (width, -0.31 - under)), 0.01, INK, name="rule"),
        ),
        keep=True,
        name=name,
    )
