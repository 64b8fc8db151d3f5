"""The caption along the foot of a picture: whose roof, what is seen, and what is to be heeded; as high as its words."""

from __future__ import annotations

from dataclasses import dataclass

from PIL import Image

from ..display.stage import Stage
from ..display.view import CAUTION, ViewPoint
from ..words.speaker import Speaker
from .lettering import FAINT, INK, PAPER, ClearSheet

STRIP = 0.078
"""Height with one line of each, as a part of the picture's; more lines make it higher."""

SAID, TOLD = 0.022, 0.0165
"""Height of the letters, as parts of the picture's."""

LEADING = 1.35
"""From line to line, as a multiple of the letters."""


@dataclass(frozen=True, slots=True)
class Caption:
    """What is written, broken into lines.

    Attributes:
        title: Of the scene.
        said: What the view shows: the lines beside the title, or under it where that takes the width.
        told: What is left off and what is to be heeded.
        beside: Where the lines of ``said`` begin, pixels from the left.
        sizes: Width and height of the picture, pixels.
    """

    title: str
    said: tuple[str, ...]
    told: tuple[str, ...]
    beside: float
    sizes: tuple[int, int]

    @property
    def height(self) -> int:
        """Pixels."""
        more = SAID * self._more_said + TOLD * max(len(self.told) - 1, 0)
        return round(self.sizes[1] * (STRIP + more * LEADING))

    @property
    def _more_said(self) -> int:
        """How many lines there are below the first."""
        return len(self.said) - 1

    def write(self, sheet: ClearSheet) -> None:
        """Write it along the foot of a sheet."""
        wide, high = self.sizes
        top = high - self.height
        sheet.box(-10, top, wide + 10, high + 10, PAPER, 255, radius=0)
        sheet.line([(0, top), (wide, top)], 1.2, FAINT)
        size, row = high * SAID, high * SAID * LEADING
        y = top + round(high * STRIP) * (0.34 if self.told else 0.5)
        sheet.text((size, y), self.title, size, True, INK, "lm")
        for number, line in enumerate(self.said):
            sheet.text((self.beside, y + number * row), line, size, False, INK, "lm")
        y = top + round(high * STRIP) * 0.75 + self._more_said * row
        for number, line in enumerate(self.told):
            sheet.text((size, y + number * high * TOLD * LEADING), line, high * TOLD, False, FAINT, "lm")


def caption_of(stage: Stage, view: ViewPoint, sizes: tuple[int, int], say: Speaker) -> Caption:
    """Return the caption of a picture that is so many pixels wide and high."""
    wide, high = sizes
    ruler = ClearSheet(Image.new("RGB", (1, 1)))
    size, title = high * SAID, stage.scene.title
    beside = ruler.measure(title, size, True)[0] + size * 2
    said = ruler.wrapped(say(view.title), size, wide - beside - size).split("\n")
    if beside > wide / 2 and len(said) > 1:
        beside = size
        said = ["", *ruler.wrapped(say(view.title), size, wide - 2 * size).split("\n")]
    notes = _sentence(", ".join(say(note) for note in view.notes))
    told = ". ".join(filter(None, [notes, say(CAUTION) if view.caution else ""]))
    lines = ruler.wrapped(told, high * TOLD, wide - 2 * size).split("\n") if told else ()
    return Caption(title, tuple(said), tuple(lines), beside, sizes)


def _sentence(note: str) -> str:
    """Return a note as the beginning of a sentence."""
    return note[:1].upper() + note[1:]
