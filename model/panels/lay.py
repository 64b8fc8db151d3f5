"""Panels: a face laid flat, cut into columns, each column made as a sheet and set in its place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely

from ..errors import GeometryError
from ..fitting import Fitted
from ..message import Listed, message
from ..roof.record import Roof
from ..runs import PAN, Run
from ..scene.schema import Scene
from ..sheet.solid import thicken
from ..tolerances import POINT
from ..trim_kinds import KINDS
from .caps import FOOT, web_back
from .catalogue import panel_profile_called
from .cleats import cleat_section, is_cleated
from .closures import Closure, lay_closures
from .columns import Column, Side, cut_columns
from .flat import Border, Flat, Lip, borders_of, laid_flat, pan_area
from .record import Edge, EndCut, Panel
from .seam import seam_of
from .shape import Stuff, edge_of, endings, panel_sheet

NARROWEST = 1.0
"""No seam stands nearer to the end of a face than this, inches: there would be no pan beside it."""


def stuff_of(scene: Scene) -> Stuff:
    """Return what all panels of a scene are made of.

    Raises:
        SceneError: the scene names a panel profile that there is not.
    """
    profile = panel_profile_called(scene.panels.profile, scene.panel_profile)
    metal = scene.metal
    return Stuff(metal.kind, metal.thickness, seam_of(profile, scene.panels.seam, metal.thickness))


def lay_panels(
    roof: Roof, scene: Scene, fitted: Sequence[Fitted], rows: int
) -> tuple[tuple[Panel, ...], tuple[Closure, ...]]:
    """Return the panels of every face, straight up the slope from its eave, and the closures that stand on them.

    Args:
        roof: The roof; its faces may have inside corners and openings.
        scene: What is asked of the panels.
        fitted: The trim: they hook the lips of eaves and rakes, and closures carry what lies over them.
        rows: How many rows of screws a cap's wing gets.

    Raises:
        GeometryError: a panel that cannot be made; says which.
    """
    stuff = stuff_of(scene)
    pieces: dict[str, list[Fitted]] = {}
    for one in fitted:
        pieces.setdefault(one.run.name, []).append(one)
    lips = {name: lip for name, own in pieces.items() if (lip := lip_of(own[0].run, scene)) is not None}
    panels: list[Panel] = []
    closures: list[Closure] = []
    for index, face in enumerate(roof.faces):
        flat = laid_flat(face)
        webs = {
            edge.name: web_back(pieces[edge.name][0].run, index, face, rows)
            for edge in roof.edges
            if index in edge.faces and edge.name in pieces and KINDS[edge.kind].panels == "under"
        }
        # Where two lines of closures meet, the foot of the one reaches nearer to the other's edge than its own does.
        share = 1 - FOOT / min(webs.values(), default=math.inf)
        feet = {name: web * share for name, web in webs.items()}
        rings = borders_of(roof, index, flat, lips, feet, stuff.up)
        borders = [border for ring in rings for border in ring]
        left, right = (float(f(border.start[0] for border in rings[0])) for f in (min, max))
        first = scene.panels.offset if scene.panels.offset > POINT else scene.panels.cover
        area = pan_area(rings)
        seams = np.arange(left + first, right - POINT, scene.panels.cover)
        low, high = area.bounds[::2] if not area.is_empty else (left, left)
        kept = seams[(seams > low + NARROWEST) & (seams < high - NARROWEST)]
        columns = cut_columns(area, kept.tolist(), borders)
        own = tuple(_panels(index, face.name, flat, columns, stuff, scene))
        panels += own
        closures += lay_closures(index, flat, rings, own, pieces, webs, rows, stuff)
    return tuple(panels), tuple(closures)


def lip_of(run: Run, scene: Scene) -> Lip | None:
    """Return what panels hook at a run: its trim's own lip, or that of the cleats on it."""
    return (cleat_section(run, scene) if is_cleated(run) else run.section).lip


def _panels(
    index: int, name: str, flat: Flat, columns: Sequence[Column], stuff: Stuff, scene: Scene
) -> Iterator[Panel]:
    """Yield the panels of one face from left to right."""
    kinds: tuple[Edge, Edge] = ("over", "under") if scene.panels.laid_from == "left" else ("under", "over")
    for number, column in enumerate(columns, 1):
        edges = (edge_of(column.left, kinds[0]), edge_of(column.right, kinds[1]))
        title = f"{name} {number}"
        try:
            sheet = panel_sheet(column, edges, stuff)
        except GeometryError as error:
            why = Listed(tuple(one.message for one in error.problems), "comma")
            raise GeometryError(message("panel {panel}: {told}", panel=title, told=why)) from None
        if not shapely.is_valid(sheet.pattern):
            told = message(
                "panel {panel}: its flat pattern runs into itself; another first seam or cover would do",
                panel=title,
            )
            raise GeometryError(told)
        x = float(column.left.start[0])
        placement = flat.placed(x, min(float(side.start[1]) for side in (*column.low, column.right)))
        cover = float(column.right.start[0]) - x
        whole = {"over", "under"} == set(edges) and abs(cover - scene.panels.cover) <= POINT
        seam = column.left
        foot = np.array([seam.start, seam.end])
        yield Panel(
            name=title,
            face=index,
            column=column.number,
            outline=flat.raised(column.ring, PAN + stuff.thickness / 2),
            cover=cover,
            ripped=None if whole else cover,
            edges=edges,
            ends=tuple(
                [_end("low", side) for side in column.low] + [_end("high", side) for side in column.high]
            ),
            seams=(flat.raised(foot, PAN),) if edges[0] in ("over", "under") else (),
            sheet=sheet,
            placement=placement,
            solid=thicken(sheet, placement),
        )


def _end(at: str, side: Side) -> EndCut:
    """Return one cut across a panel's end."""
    way = side.end - side.start
    border: Border | None = side.border
    name = border.edge.name if border is not None else ""
    return EndCut("low" if at == "low" else "high", endings(border), math.atan2(way[1], way[0]), name)
