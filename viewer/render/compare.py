"""Starting rules side by side: each run drawn to scale as a bar, its pieces, laps and short piece on it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from PIL import Image

from trimwright.model.layout import Layout, Part
from trimwright.model.message import Length
from trimwright.model.runs import Run
from trimwright.model.tolerances import LEVEL

from ..display.color_math import Color
from ..display.colors import SHORT
from ..display.trim_looks import LOOKS
from ..words.speaker import Speaker, speaker_of
from .lettering import FAINT, INK, PAPER, ClearSheet
from .png import write_png

WIDTH = 1600
MARGIN, NAMES, TOLD = 36, 150, 290
"""Room round the drawing, left of the bars for the rules' names and right of them for what they come to, pixels."""

TOP, HEAD, ROW, BAR, FOOT = 120, 58, 58, 34, 52
"""Height of the title, of a run's heading, of a rule's row, of its bar and of the foot, pixels."""


def render_compare(layouts: Mapping[str, Layout], path: Path | str) -> None:
    """Draw what each starting rule makes of every run of a roof into a PNG file.

    Runs that come out alike are drawn once.

    Args:
        layouts: By the name of the rule; all of one roof.
        path: Where the picture goes.

    Raises:
        PictureError: the file cannot be written.
    """
    write_png(compared(layouts), Path(path))


def compared(layouts: Mapping[str, Layout]) -> Image.Image:
    """Return the picture of what each starting rule makes of every run."""
    first = next(iter(layouts.values()))
    groups = _alike(layouts)
    high = TOP + len(groups) * (HEAD + ROW * len(layouts)) + FOOT
    sheet = ClearSheet(Image.new("RGB", (WIDTH, high), PAPER))
    sheet.text((MARGIN, 26), first.scene.title, 30, True)
    say = speaker_of(first.scene)
    subtitle = say("Where the short piece lands, by the end that the pieces are started from")
    sheet.text((MARGIN, 70), subtitle, 24)
    reach = max(
        _reach(layout, run)[1] - _reach(layout, run)[0] for layout in layouts.values() for run in layout.runs
    )
    scale = (WIDTH - 2 * MARGIN - NAMES - TOLD) / reach
    y = float(TOP)
    for names in groups:
        run = next(run for run in first.runs if run.name == names[0])
        sheet.line([(MARGIN, y), (WIDTH - MARGIN, y)], 1.0, FAINT, 120)
        _heading(sheet, first, run, names, y)
        y += HEAD
        for rule, layout in layouts.items():
            _row(sheet, layout, names[0], rule, y, scale)
            y += ROW
    sheet.line([(MARGIN, y), (WIDTH - MARGIN, y)], 1.0, FAINT, 120)
    _foot(sheet, y + FOOT / 2, say)
    return sheet.finished()


def _alike(layouts: Mapping[str, Layout]) -> list[list[str]]:
    """Return the names of the runs, those together that every rule divides alike."""
    groups: dict[tuple[object, ...], list[str]] = {}
    for run in next(iter(layouts.values())).runs:
        told = tuple(
            (part.run.trim, round(part.low, 1), round(part.high, 1))
            for layout in layouts.values()
            for part in layout.parts_of(run.name)
        )
        groups.setdefault((run.trim, *told), []).append(run.name)
    return list(groups.values())


def _reach(layout: Layout, run: Run) -> tuple[float, float]:
    """Return the lowest and highest run distance of a run's metal, inches."""
    parts = layout.parts_of(run.name)
    return min(part.low for part in parts), max(part.high for part in parts)


def _heading(sheet: ClearSheet, layout: Layout, run: Run, names: list[str], y: float) -> None:
    """Write which runs a group of bars stands for."""
    say = speaker_of(layout.scene)
    kind = say(LOOKS[run.trim].name).capitalize()
    title = say("{kind}, {length}", kind=kind, length=Length(run.length))
    sheet.text((MARGIN, y + HEAD / 2), title, 23, True, INK, "lm")
    wide = sheet.measure(title, 23, True)[0]
    sheet.text((MARGIN + wide + 18, y + HEAD / 2), ", ".join(names), 19, False, FAINT, "lm")
    if abs(run.edge.slope) > LEVEL:
        ends = say("low end at the left, high end at the right")
    else:
        ends = say("start at the left, far end at the right")
    sheet.text((WIDTH - MARGIN - TOLD, y + HEAD / 2), ends, 17, False, FAINT, "rm")


def _row(sheet: ClearSheet, layout: Layout, name: str, rule: str, y: float, scale: float) -> None:
    """Draw one run as one rule divides it."""
    parts = layout.parts_of(name)
    left, middle = MARGIN + NAMES, y + ROW / 2
    low = min(part.low for part in parts)
    sheet.text((MARGIN, middle), rule, 22, True, INK, "lm")
    for part in parts:
        start, end = left + (part.low - low) * scale, left + (part.high - low) * scale
        sheet.box(start, middle - BAR / 2, end, middle + BAR / 2, _hue(part), 255, INK, 1.3, 2)
    for part in parts:
        lap = part.ends.high.lap
        if lap is not None:
            end = left + (part.high - low) * scale
            _lap(sheet, end - lap * scale, end, middle)
    for part in parts:
        _name(sheet, layout, part, left + (part.low - low) * scale, left + (part.high - low) * scale, middle)
    shortest = min(parts, key=lambda part: part.length)
    told = speaker_of(layout.scene).counted(
        "{count} piece, shortest {length}",
        "{count} pieces, shortest {length}",
        count=len(parts),
        length=Length(shortest.length),
    )
    sheet.text((WIDTH - MARGIN, middle), told, 19, False, INK, "rm")


def _hue(part: Part) -> Color:
    """Return a piece's color."""
    if part.piece.short:
        return SHORT
    return LOOKS[part.run.trim].tones[part.piece.number % 2]


def _lap(sheet: ClearSheet, start: float, end: float, middle: float) -> None:
    """Draw a lap: a dark band with a tick above and below, wide enough to be seen."""
    wide = max(end - start, 4.0)
    at = (start + end) / 2
    sheet.box(at - wide / 2, middle - BAR / 2 - 5, at + wide / 2, middle + BAR / 2 + 5, INK, 255, radius=0)


def _name(sheet: ClearSheet, layout: Layout, part: Part, start: float, end: float, middle: float) -> None:
    """Write a piece's mark, and its length where there is room."""
    color = PAPER if part.piece.short else INK
    room = end - start - 14
    for text in (f"{part.mark}  {layout.scene.tape(part.length)}", part.mark):
        if sheet.measure(text, 18, True)[0] <= room:
            sheet.text(((start + end) / 2, middle), text, 18, True, color, "mm")
            return


def _foot(sheet: ClearSheet, y: float, say: Speaker) -> None:
    """Write what the colors mean."""
    x = float(MARGIN)
    for color, text in ((SHORT, say("short piece: cut to what was left")), (INK, say("lap"))):
        sheet.box(x, y - 9, x + 22, y + 9, color, 255, INK, 1.0, 2)
        sheet.text((x + 32, y), text, 18, False, INK, "lm")
        x += 32 + sheet.measure(text, 18)[0] + 40
