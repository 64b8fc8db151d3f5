"""Pictures of a stage: one view, or several."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from trimwright.model.geometry.arrays import Array
from trimwright.model.message import message
from trimwright.model.scene.schema import Scene

from ..display.camera import Shot
from ..display.daylight import DAY, FAIR, daylight_at, sun_over
from ..display.notes import Pin
from ..display.placing import Box
from ..display.stage import Stage
from ..display.view import BESIDE, LegendPart, ViewPoint, file_name
from ..words.progress import Progress
from ..words.speaker import Speaker, speaker_of
from ..words.unbroken import unbroken_tape
from .caption import caption_of
from .lettering import FAINT, INK, PAPER, ClearSheet
from .light import Weather, lights_on, lit
from .meshes import middle_and_radius, pieces_of
from .notes import Frame, pin_mark, write
from .outdoors import GRASS, YARD, behind, yard_air
from .png import png_of, write_png
from .surface import ColoredMesh, Ground, surface_of
from .unchanged import kept, sealed, shown_in
from .visible import see

Bytes = NDArray[np.uint8]

SIZE = (1600, 1000)
SUN = np.array([-0.36, -0.68, 0.64]) / np.linalg.norm([-0.36, -0.68, 0.64])
BACK_SUN = SUN * [-1.0, -1.0, 1.0]
"""The sun behind the eye of one who looks from the back: a picture is no forecast, it shows shapes."""

WORKSHOP = (0.46, 0.56, 0.5)
"""Strength of the sun, the sky and the light from below where every fold is to be seen, and colors are to be told
apart in the shade too."""

REACH = 5.5
"""How far the ground is seen, in radii of the house."""

EDGE = 0.7
"""Where a pixel is more than this many inches of the house, edges grow fainter."""

SOFT = 0.3
"""How dark edges are drawn in the finished look, as a share of what they are elsewhere: light shows them there."""

PANEL = 1 - BESIDE
"""Width of the legend beside a picture, as a share of the picture's."""

SHARES = (
    0.0225,
    0.0205,
    0.0185,
    0.0165,
    0.0145,
    0.0135,
    0.0125,
    0.0115,
    0.0105,
    0.0095,
    0.0085,
    0.0075,
    0.0065,
)
"""Heights of a legend's letters, as shares of the picture's: the largest with which all of it is told is taken."""


def render(stage: Stage, view: str, path: Path | str, size: tuple[int, int] = SIZE) -> None:
    """Draw one view into a PNG file.

    Args:
        stage: What is seen.
        view: Name of the view, or some of its words.
        path: Where the picture goes; an earlier one is replaced when the new one is complete.
        size: Width and height, pixels.

    Raises:
        ViewError: the roof has no such view.
        PictureError: the file cannot be written.
    """
    write_png(drawn(stage, stage.view(view), size), Path(path))


def pictures_of(
    stage: Stage,
    views: Sequence[str],
    progress: Progress,
    size: tuple[int, int] = SIZE,
    earlier: Path | None = None,
) -> Iterator[tuple[str, bytes]]:
    """Yield PNG files of several views by their names; one that would come out as it was is not drawn again.

    Args:
        stage: What is seen.
        views: Names of the views.
        progress: Told of each picture.
        size: Width and height, pixels.
        earlier: Folder of the pictures of an earlier run; None where there is none.
    """
    for number, name in enumerate(views, 1):
        progress(message("picture {view}", view=name), number, len(views))
        view, file = stage.viewpoints[name], file_name(name)
        shown = shown_in(stage, view, size)
        same = None if earlier is None else kept(earlier / file, shown)
        yield file, same or sealed(png_of(drawn(stage, view, size)), shown)


def scenery(stage: Stage, view: ViewPoint, size: tuple[int, int]) -> Image.Image:
    """Return what a view shows with nothing written into it."""
    page = np.full((size[1], size[0], 3), 255, dtype=np.uint8)
    _shots(stage, view, page, size[1])
    return Image.fromarray(page)


def seen_from(
    stage: Stage, view: ViewPoint, pieces: list[ColoredMesh], shot: Shot, size: tuple[int, int]
) -> tuple[Bytes, Frame]:
    """Return ``(h, w, 3)``: pieces as a view shows them, seen from another place; and the frame to write into.

    Args:
        stage: Where they stand.
        view: How they are shown.
        pieces: What is there to be seen.
        shot: The camera.
        size: Width and height, pixels.
    """
    page = np.empty((size[1], size[0], 3), dtype=np.uint8)
    [frame] = _shots(stage, replace(view, shots=(shot,)), page, size[1], pieces)
    return page, frame


def drawn(stage: Stage, view: ViewPoint, size: tuple[int, int] = SIZE) -> Image.Image:
    """Return the picture of a view with all that is written into it."""
    wide, high = size
    say = speaker_of(stage.scene)
    caption = caption_of(stage, view, size, say)
    room = (wide, high - caption.height)
    whole = np.full((high, wide, 3), 255, dtype=np.uint8)
    frames = _shots(stage, view, whole[: room[1]], high)
    sheet = ClearSheet(Image.fromarray(whole))
    taken = [Box(0, room[1], wide, high)]
    for frame in frames[1:]:
        if frame.box.right - frame.box.left < 0.5 * wide:
            _rim(sheet, frame.box)
    taken += _key(sheet, view, high, say)
    if view.legend or view.pins:
        taken.append(Box(wide * (1 - PANEL), 0, wide, room[1]))
    pins = write(sheet, stage, view, frames, taken)
    if view.pins:
        _findings(sheet, stage.pins, list(pins), (wide, room[1], high), say)
    elif view.legend:
        _legend(sheet, view.legend, (wide, room[1], high), say)
    caption.write(sheet)
    return sheet.finished()


def _shots(
    stage: Stage, view: ViewPoint, page: Bytes, tall: int, pieces: list[ColoredMesh] | None = None
) -> list[Frame]:
    """Draw what each camera of a view sees into its part of a page; return these parts."""
    room = (page.shape[1], page.shape[0])
    pieces = pieces_of(stage, view) if pieces is None else pieces
    middle, radius = middle_and_radius(pieces)
    seen_ground = view.outdoors and all(shot.eye[2] > stage.ground for shot in view.shots)
    finished = view.coloring == "finish"
    ground = (
        Ground(stage.ground, GRASS if finished else YARD, middle[:2], radius * REACH) if seen_ground else None
    )
    surface = surface_of(pieces, ground)
    page[:] = _workshop(room)
    clear = page.copy()
    frames = []
    for shot in view.shots:
        box = _box(shot, room)
        part = (round(box.right - box.left), round(box.bottom - box.top))
        there = (
            slice(int(box.top), int(box.top) + part[1]),
            slice(int(box.left), int(box.left) + part[0]),
        )
        seen = see(surface, shot, part)
        sun = sun_for(stage.scene, shot, finished)
        day = daylight_at(height_of(sun)) if finished else DAY
        back = clear[there].copy()
        if view.outdoors:
            back = behind(shot, part, day) if finished else yard_air(part)
        strengths = FAIR if finished else WORKSHOP
        weather = Weather(sun, *strengths, far=1.0 if view.outdoors else 4.0, day=day)
        about, reach = (middle, radius) if view.outdoors else (shot.target, max(shot.width, shot.height))
        lights = lights_on(surface, weather, about, reach)
        page[there] = lit(seen, lights, back, _strength(view, room))
        frames.append(Frame(shot, box, seen.depth, tall, seen.metal))
    return frames


def sun_for(scene: Scene, shot: Shot, finished: bool) -> Array:
    """Return the ``(3,)`` unit vector toward the sun: where the scene has it, else behind the eye's left shoulder."""
    place = sun_over(scene) if finished else None
    if place is None:
        return np.asarray(SUN if (shot.eye - shot.target)[1] <= 0 else BACK_SUN)
    bearing, rise = (math.radians(angle) for angle in place)
    return np.array([math.sin(bearing) * math.cos(rise), math.cos(bearing) * math.cos(rise), math.sin(rise)])


def height_of(sun: Array) -> float:
    """Return how high the sun stands, degrees."""
    return math.degrees(math.asin(sun[2]))


def _strength(view: ViewPoint, room: tuple[int, int]) -> float:
    """Return how dark the edges are drawn: fainter the farther off they are, so that seams do not run together."""
    if not view.outdoors:
        return 1.0
    inches = view.shots[0].span(room[0] / room[1]) / room[1]
    strength = float(np.clip(EDGE / inches, 0.25, 1.0))
    return SOFT * strength if view.coloring == "finish" else strength


def _box(shot: Shot, room: tuple[int, int]) -> Box:
    left, top, right, bottom = shot.frame
    return Box(round(left * room[0]), round(top * room[1]), round(right * room[0]), round(bottom * room[1]))


def _workshop(room: tuple[int, int]) -> Bytes:
    """Return ``(h, 1, 3)`` colors from the top of the picture to its foot, indoors."""
    share = np.linspace(0, 1, room[1], dtype=np.float32)[:, None, None] ** np.float32(0.9)
    top, foot = (np.array(end, dtype=np.float32) for end in ([0.985, 0.987, 0.988], [0.885, 0.902, 0.912]))
    return np.round(255 * (top + (foot - top) * share)).astype(np.uint8)


def _rim(sheet: ClearSheet, box: Box) -> None:
    """Draw a thin frame round a picture within the picture."""
    corners = [(box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)]
    sheet.line([*corners, corners[0], corners[1]], 1.5, FAINT)


def _key(sheet: ClearSheet, view: ViewPoint, high: int, say: Speaker) -> list[Box]:
    """Draw what the colors mean, in the upper left corner."""
    if not view.key:
        return []
    size = high * 0.021
    line = size * 1.65
    key = [(say(name), color) for name, color in view.key]
    wide = max(sheet.measure(text, size)[0] for text, _ in key) + size * 3.2
    box = Box(size, size, size + wide, size + line * len(view.key) + size)
    sheet.box(box.left, box.top, box.right, box.bottom, alpha=225)
    for number, (text, color) in enumerate(key):
        y = box.top + size / 2 + line * (number + 0.5)
        sheet.box(
            box.left + size * 0.6,
            y - size * 0.42,
            box.left + size * 1.9,
            y + size * 0.42,
            color,
            255,
            INK,
            1.0,
            2,
        )
        sheet.text((box.left + size * 2.4, y), text, size, anchor="lm")
    return [box]


def _legend(
    sheet: ClearSheet, legend: Sequence[LegendPart], sizes: tuple[int, int, int], say: Speaker
) -> None:
    """Write a legend beside the picture."""
    wide, bottom, high = sizes
    left = wide * (1 - PANEL)
    sheet.box(left, 0, wide + 10, bottom, PAPER, 242, radius=0)
    rows, size = rows_of(legend, (wide * PANEL, bottom, high), say)
    for y, number, told in rows:
        head = not number
        if not head:
            sheet.text((left + size * 1.1, y), number, size, True)
        sheet.text((left + size * (1.1 if head else 3.0), y), told, size, head)


def rows_of(
    legend: Sequence[LegendPart], sizes: tuple[float, float, float], say: Speaker
) -> tuple[list[tuple[float, str, str]], float]:
    """Return what a legend says, all of it: from the top of each row its number and its words; and their size.

    Args:
        legend: Its parts; a heading has no number.
        sizes: How wide and high the legend may be, and how high the picture is, pixels.
        say: Puts it into words.
    """
    width, bottom, high = sizes
    say = replace(say, tape=unbroken_tape(say.tape))
    sheet = ClearSheet(Image.new("RGB", (1, 1)))
    for share in SHARES:
        size, y = share * high, share * high * 1.1
        rows: list[tuple[float, str, str]] = []
        for part in legend:
            told = sheet.wrapped(say(part.heading), size, width - size * 2.2, True)
            y += size * 0.5 if rows else 0.0
            rows.append((y, "", told))
            y += sheet.measure(told, size, True)[1] + size * 0.5
            for entry in part.entries:
                told = sheet.wrapped(say(entry.says), size, width - size * 4.1)
                rows.append((y, str(entry.number), told))
                y += sheet.measure(told, size)[1] + size * 0.5
        if y < bottom - size * 1.4:
            break
    return rows, size


def _findings(
    sheet: ClearSheet, pins: Sequence[Pin], shown: Sequence[int], sizes: tuple[int, int, int], say: Speaker
) -> None:
    """Write the findings that are pinned beside the picture, alike ones in one line, and how many are not told."""
    wide, bottom, high = sizes
    left, size = wide * (1 - PANEL), high * 0.0195
    sheet.box(left, 0, wide + 10, bottom, PAPER, 242, radius=0)
    sheet.text(
        (left + size * 1.1, size),
        say.counted("{count} finding", "{count} findings", count=len(pins)),
        size * 1.15,
        True,
    )
    y, told = size * 3.4, 0
    seen = {pin.group for pin in pins if pin.number in shown}
    for group, own in groupby(pins, key=lambda pin: pin.group):
        if group not in seen:
            continue
        pin, *alike = own
        words = pin.text
        if alike:
            words = say(
                "{finding} ({first} to {last})", finding=words, first=pin.number, last=alike[-1].number
            )
        text = sheet.wrapped(words, size, wide * PANEL - size * 5)
        tall = sheet.measure(text, size)[1]
        if y + tall > bottom - size * 2.4:
            break
        pin_mark(sheet, pin, (left + size * 2.1, y + size * 0.6), size * 0.8)
        sheet.text((left + size * 4.1, y), text, size)
        y += tall + size * 0.85
        told += 1 + len(alike)
    rest = len(pins) - told
    if rest:
        words = (
            say("{count} more in the report", count=rest)
            if told
            else say("{count} out of sight here; see the report", count=rest)
        )
        sheet.text((left + size * 1.1, bottom - size * 1.7), words, size, False, FAINT)
