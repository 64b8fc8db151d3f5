"""The pictures of a film: what each step sets comes to its place, and stays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image, ImageDraw

from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Layout
from trimwright.model.message import Listed, Message, counted, message
from trimwright.model.scene.schema import Scene
from trimwright.model.scene.sun import LOWEST

from ..display.camera import looking_at
from ..display.placing import Box
from ..display.setting_steps import SettingStep, steps_of
from ..display.stage import Stage
from ..display.view import CAUTION, HOUSE, METAL, OUTSIDE, PANELS, ViewPoint
from ..display.whole_roof import outline_of
from ..render.lettering import PAPER, ClearSheet
from ..render.meshes import pieces_of
from ..render.notes import Frame, write
from ..render.picture import sun_for
from ..render.surface import ColoredMesh, surface_of
from ..words.progress import Progress, nobody
from ..words.speaker import speaker_of
from .caption import FilmCaption, strip_height, write_caption, write_title
from .pane import Pane, Still

RATE = 12.5
"""Pictures a second: a GIF counts in hundredths of a second, and each of these takes eight."""

SLIDE = 7
"""Pictures in which a piece comes to its place."""

FROM = {"trim": 34.0, "panels": 60.0}
"""How far off it starts, inches."""

HOLD, FIRST, PASSING, LAST = 0.8, 1.2, 0.16, 3.2
"""How long a step, the bare deck, half an hour of the day and the finished roof stay, seconds."""

SIDES = (
    (message("From the front"), (0.7, -1.0, 0.78)),
    (message("From behind"), (-0.7, 1.0, 0.78)),
)
"""The two cameras: each sees the faces that the other cannot."""


@dataclass(frozen=True, slots=True, eq=False)
class FilmPicture:
    """One picture of a film.

    Attributes:
        image: What is seen.
        seconds: How long it stays.
        look: What pictures whose colors are alike share.
    """

    image: Image.Image
    seconds: float
    look: str = "pieces"


def pictures_of(
    layout: Layout,
    stage: Stage,
    size: tuple[int, int],
    view: ViewPoint | None = None,
    progress: Progress = nobody,
) -> Iterator[FilmPicture]:
    """Yield the film of a roof being set.

    Args:
        layout: The roof.
        stage: What is seen of it.
        size: Width and height, pixels.
        view: The view whose camera is used; None for one camera in front and one behind.
        progress: Told of each step.
    """
    steps = [step for step in steps_of(layout) if step.kind == "trim" or layout.scene.panels.show]
    panes = _panes(layout, stage, size, view)
    seen = _seen(stage, steps, 0)
    suns = [sun_for(layout.scene, pane.shot, finished=False) for pane in panes]
    stills = [pane.still(_pieces(seen), sun, False) for pane, sun in zip(panes, suns, strict=True)]
    title, count, say = layout.scene.title, len(steps), speaker_of(layout.scene)
    bare = FilmCaption(title, "", say("Bare deck"), say("before any metal"), 0, say(CAUTION))
    yield FilmPicture(_shown(panes, stills, size, bare), FIRST)
    for number, step in enumerate(steps, 1):
        progress(step.title, number, count + 1)
        place = say("{number} of {count}", number=number, count=count)
        caption = FilmCaption(
            title, place, say(step.title), say(_setting(step)), number / count, say(CAUTION)
        )
        before, seen = stills, _seen(stage, steps, number)
        standing = _pieces(seen)
        stills = [
            pane.still(standing, sun, False, last)
            for pane, sun, last in zip(panes, suns, before, strict=True)
        ]
        for moving in _sliding(stage, step, panes, suns, (before, stills)):
            yield FilmPicture(_shown(panes, moving, size, caption), 1 / RATE)
        held = _shown(panes, stills, size, caption)
        yield FilmPicture(_labelled(held, seen, step, panes, stills), HOLD)
    progress(message("the finished roof"), count + 1, count + 1)
    pieces = pieces_of(stage, _view(stage, "finish"))
    for scene, told, seconds in _day(layout.scene):
        suns = [sun_for(scene, pane.shot, finished=True) for pane in panes]
        stills = [pane.still(pieces, sun, True) for pane, sun in zip(panes, suns, strict=True)]
        done = FilmCaption(title, "", say(told), say(_tally(layout)), 1, say(CAUTION))
        look = f"finish {scene.sun and scene.sun.hour}"
        yield FilmPicture(_shown(panes, stills, size, done), seconds, look)


def _day(scene: Scene) -> Iterator[tuple[Scene, Message, float]]:
    """Yield the finished roof as it is lit: where a scene has a sun, through its day first; and for how long."""
    if scene.sun is not None:
        for half in range(48):
            sun = scene.sun.model_copy(update={"hour": half / 2})
            if sun.place[1] >= LOWEST:
                yield scene.model_copy(update={"sun": sun}), message("The sun through the day"), PASSING
    yield scene, message("All set"), LAST


def _panes(layout: Layout, stage: Stage, size: tuple[int, int], view: ViewPoint | None) -> list[Pane]:
    say = speaker_of(layout.scene)
    wide, high = size
    foot = high - strip_height(high)
    if view is not None:
        whole = replace(view.shots[0], frame=(0.0, 0.0, 1.0, 1.0))
        return [Pane(say(view.title), whole, Box(0, 0, wide, foot), stage.ground)]
    box, half = outline_of(layout), wide // 2
    return [
        Pane(
            say(title),
            looking_at(box, way, margin=1.12),
            Box(side * half, 0, side * half + half, foot),
            stage.ground,
        )
        for side, (title, way) in enumerate(SIDES)
    ]


def _setting(step: SettingStep) -> Message:
    """Return what a step sets, and what that lies over."""
    if not step.over:
        return step.says
    return message("{step}, over {others}", step=step.says, others=Listed(step.over, "comma"))


def _tally(layout: Layout) -> Message:
    """Return how many pieces, screws and panels there are."""
    counts = [
        counted("{count} piece", "{count} pieces", count=len(layout.parts)),
        counted("{count} screw", "{count} screws", count=len(layout.screws)),
    ]
    if layout.scene.panels.show:
        counts.append(counted("{count} panel", "{count} panels", count=len(layout.panels)))
    return message("{contents}", contents=Listed(tuple(counts), "comma"))


def _view(stage: Stage, name: str) -> ViewPoint:
    """Return a whole view with everything that the scene shows, and nothing written into it."""
    house = HOUSE | OUTSIDE if name == "finish" else HOUSE
    shows = house | METAL | (PANELS if stage.scene.panels.show else frozenset())
    return replace(stage.viewpoints[name], shows=shows, labels=(), pins=False, key=())


def _pieces(stage: Stage) -> list[ColoredMesh]:
    return pieces_of(stage, _view(stage, "bare"))


def _seen(stage: Stage, steps: Sequence[SettingStep], number: int) -> Stage:
    """Return what stands when ``number`` steps are done."""
    names = {
        kind: {name for step in steps[:number] if step.kind == kind for name in step.names} for kind in FROM
    }
    bodies = [
        body
        for body in stage.bodies
        if body.kind in HOUSE or body.name in names["trim" if body.kind in METAL else "panels"]
    ]
    screws = [screw for screw in stage.screws if screw.mark in names["trim"]]
    return replace(stage, bodies=tuple(bodies), screws=tuple(screws))


def _sliding(
    stage: Stage,
    step: SettingStep,
    panes: Sequence[Pane],
    suns: Sequence[Array],
    stills: tuple[Sequence[Still], Sequence[Still]],
) -> Iterator[list[Still]]:
    """Yield what the panes see while a step's pieces come to their place; ``stills`` are of before and after."""
    kinds = METAL if step.kind == "trim" else PANELS
    bodies = tuple(body for body in stage.bodies if body.kind in kinds and body.name in step.names)
    pieces = _pieces(replace(stage, bodies=bodies, screws=()))
    surface = surface_of(pieces)
    lights = [pane.lights_of(pieces, sun, surface) for pane, sun in zip(panes, suns, strict=True)]
    for i in range(SLIDE):
        shift = step.away * FROM[step.kind] * (1 - (i + 1) / (SLIDE + 1)) ** 2
        yield [
            old if old is new else replace(old, picture=pane.moving(old, surface, light, shift))
            for pane, light, old, new in zip(panes, lights, *stills, strict=True)
        ]


def _shown(
    panes: Sequence[Pane], stills: Sequence[Still], size: tuple[int, int], caption: FilmCaption
) -> Image.Image:
    """Return the panes side by side over their caption."""
    whole = np.full((size[1], size[0], 3), 255, dtype=np.uint8)
    for pane, still in zip(panes, stills, strict=True):
        left, top, (wide, high) = round(pane.box.left), round(pane.box.top), pane.size
        whole[top : top + high, left : left + wide] = still.picture
    picture = Image.fromarray(whole)
    for pane in panes[1:]:
        ImageDraw.Draw(picture).line([(pane.box.left, 0), (pane.box.left, pane.box.bottom)], PAPER, 3)
    for pane in panes:
        write_title(picture, (pane.box.left, pane.box.top), pane.title)
    write_caption(picture, caption)
    return picture


def _labelled(
    picture: Image.Image, stage: Stage, step: SettingStep, panes: Sequence[Pane], stills: Sequence[Still]
) -> Image.Image:
    """Return a picture with the marks of what was just set."""
    labels = tuple(label for label in stage.labels if label.mark in step.names)
    if not labels:
        return picture
    view = replace(_view(stage, "bare"), labels=labels)
    frames = [
        Frame(pane.shot, pane.box, still.depth, picture.height)
        for pane, still in zip(panes, stills, strict=True)
    ]
    sheet = ClearSheet(picture)
    write(sheet, stage, view, frames, [Box(0, panes[0].box.bottom, picture.width, picture.height)])
    return sheet.finished()
