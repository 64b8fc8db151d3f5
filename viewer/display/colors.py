"""Colors: the finished look, and the look in which every piece is told apart by the hue of its kind of trim."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from trimwright.model.scene.schema import Scene

from .body import Body, Kind
from .coats import DULL, GLASS, Coat, coat_name, coat_of, gutter_coat
from .color_math import Color, mix, rgb
from .trim_looks import LOOKS

SHORT: Color = (213, 94, 0)
"""The piece that is cut to what was left; told from all hues of trim."""

LAYERS: tuple[Color, ...] = (
    (230, 159, 0),
    (86, 180, 233),
    (0, 158, 115),
    (204, 121, 167),
    (213, 94, 0),
    (0, 114, 178),
)
"""Layers of metal that are cut through, the lowest first; the same hues, each unlike the next."""

SEVERITY: dict[str, Color] = {"error": (190, 50, 20), "warning": (190, 125, 0), "note": (0, 100, 160)}

PRIMER: Color = (172, 171, 164)
CUT: Color = (236, 237, 234)
SCREW: Color = (188, 192, 194)
DECK: Color = (205, 178, 138)
BOARD: Color = (226, 221, 208)
QUIET: Color = (222, 225, 225)
CASING: Color = (240, 238, 231)
PANE: Color = (92, 108, 120)
DOOR: Color = (58, 66, 70)
CONCRETE: Color = (158, 155, 148)
FOAM: Color = (228, 216, 176)

BUILT: dict[Kind, Color] = {
    "deck": DECK,
    "fascia": BOARD,
    "casing": CASING,
    "glass": PANE,
    "door": DOOR,
    "foundation": CONCRETE,
    "foam": FOAM,
}
"""What is neither metal nor wall, each in its own color."""


def finish(body: Body, scene: Scene) -> NDArray[np.uint8]:
    """Return the color of each face in the finished look: ``(m, 3)``."""
    if body.kind in BUILT:
        front = BUILT[body.kind]
        return _by_side(body, front, front, mix(front, (0, 0, 0), 0.08))
    if body.kind in ("wall", "siding"):
        wall = rgb(scene.colors.walls)
        return _by_side(body, wall, wall, wall)
    front = metal_color(body, scene)
    back = front if coat_name(scene) == "bare" else PRIMER
    return _by_side(body, front, back, CUT if body.kind == "trim" else mix(front, CUT, 0.3))


def metal_color(body: Body, scene: Scene) -> Color:
    """Return the color of a piece of trim, a gutter, a panel or what belongs to one."""
    colors = scene.colors
    if body.kind == "gutter":
        return rgb(colors.gutters or colors.trim)
    return rgb(colors.trim if body.kind == "trim" else colors.panels)


def told_apart(body: Body, scene: Scene, short: frozenset[str], focus: frozenset[str]) -> NDArray[np.uint8]:
    """Return the color of each face when pieces are told apart: ``(m, 3)``.

    Args:
        body: What is colored.
        scene: For what is not trim.
        short: Marks of the pieces to stand out.
        focus: Marks of the pieces that the view is about; the others are quiet. Empty for all.
    """
    if body.kind != "trim" or body.trim is None:
        quiet = finish(body, scene)
        share = {"deck": 0.35, "fascia": 0.4, "wall": 0.7, "foam": 0.0}.get(body.kind, 0.72)
        return (quiet + (np.array(QUIET, dtype=float) - quiet) * share).astype(np.uint8)
    number = int(body.name.rpartition("-")[2])
    front = SHORT if body.name in short else LOOKS[body.trim].tones[number % 2]
    if focus and body.name not in focus:
        front = mix(front, QUIET, 0.75)
        return _by_side(body, front, QUIET, CUT)
    return _by_side(body, front, PRIMER, CUT)


def coat(body: Body, scene: Scene) -> Coat:
    """Return what a body is to light."""
    if body.kind == "glass":
        return GLASS
    if body.kind in BUILT or body.kind in ("wall", "siding"):
        return DULL
    if body.kind == "gutter":
        return gutter_coat(scene)
    return coat_of(scene, metal_color(body, scene))


def _by_side(body: Body, front: Color, back: Color, cut: Color) -> NDArray[np.uint8]:
    table = np.array([cut, front, back], dtype=np.uint8)
    return np.asarray(table[body.side])
