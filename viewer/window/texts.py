"""What is written over the window: notes and pins in the picture, the card in its corner, the line at its foot."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from trimwright.model.message import Message

from ..display.color_math import Color
from ..display.placing import Box
from ..display.stage import Stage
from ..display.view import CAUTION, ViewPoint
from ..render.lettering import FAINT, INK, PAPER, ClearSheet
from ..render.notes import Frame, write
from ..words.speaker import Speaker, told
from .reading import Reading

Bytes = NDArray[np.uint8]

CARD, TEXT, FOOT = 380, 15.0, 46
"""Width of the card, size of its text and height of the line at the foot, pixels."""

PAD = 12.0
RULE: Color = (208, 212, 214)


def card_of(reading: Reading, most: int, say: Speaker) -> Image.Image:
    """Return the card of what is read, no higher than ``most`` pixels."""
    draft = ClearSheet(Image.new("RGB", (2, 2)), 1)
    said = [(told(say, row.name), told(say, row.says), row.heading) for row in reading.rows]
    names = max((draft.measure(name, TEXT)[0] for name, _, _ in said), default=0.0)
    indent = names + PAD if names else 0.0
    head = draft.wrapped(say(reading.heading), TEXT * 1.2, CARD - 2 * PAD, True)
    y = PAD + draft.measure(head, TEXT * 1.2, True)[1] + PAD
    rows = []
    for name, text, bold in said:
        left = indent if name else 0.0
        words = draft.wrapped(text, TEXT, CARD - 2 * PAD - left, bold)
        rows.append((y, name, left, words, bold))
        y += draft.measure(words, TEXT, bold)[1] + TEXT * 0.5
    high = min(round(y + PAD / 2), most)
    sheet = ClearSheet(Image.new("RGB", (CARD, high), PAPER))
    sheet.text((PAD, PAD), head, TEXT * 1.2, True)
    for top, name, left, words, bold in rows:
        if top + TEXT > high:
            break
        sheet.text((PAD, top), name, TEXT, False, FAINT)
        sheet.text((PAD + left, top), words, TEXT, bold)
    sheet.line([(0, 0), (CARD, 0), (CARD, high), (0, high), (0, 0)], 2, INK)
    return sheet.finished()


def foot_of(title: str, says: Message | str, wide: int, say: Speaker) -> Image.Image:
    """Return the line along the foot of the window: the scene, what is seen, the cautions, how to see the keys."""
    sheet = ClearSheet(Image.new("RGB", (wide, FOOT), PAPER))
    sheet.line([(0, 0), (wide, 0)], 1.5, RULE)
    sheet.text((PAD, FOOT * 0.3), title, TEXT, True, INK, "lm")
    left = PAD + sheet.measure(title, TEXT, True)[0] + 2 * PAD
    sheet.text((left, FOOT * 0.3), told(say, says), TEXT, False, INK, "lm")
    sheet.text((wide - PAD, FOOT * 0.3), say("h: keys"), TEXT, False, FAINT, "rm")
    sheet.text((PAD, FOOT * 0.74), say(CAUTION), TEXT * 0.85, False, FAINT, "lm")
    return sheet.finished()


def noted(
    picture: Bytes, frame: Frame, stage: Stage, view: ViewPoint, card: Box | None
) -> tuple[Image.Image, dict[int, Box]]:
    """Return the window's picture with its notes and pins, clear of card and foot, and where each pin stands."""
    high, wide = picture.shape[:2]
    sheet = ClearSheet(Image.fromarray(picture))
    taken = [Box(0, high - FOOT, wide, high), *([card] if card else [])]
    pins = write(sheet, stage, view, [frame], taken)
    return sheet.finished(), pins
