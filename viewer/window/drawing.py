"""The roof as it is drawn while it is turned: one mesh, its edges, the ground, and what lies under the mouse.

Where it comes to rest, the picture that the command draws is laid over it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

import numpy as np
import pyvista as pv
from numpy.typing import NDArray
from vtkmodules.vtkCommonCore import vtkLogger
from vtkmodules.vtkRenderingCore import vtkCellPicker

from trimwright.model.geometry.arrays import Array

from ..display.camera import Shot
from ..display.color_math import Color
from ..display.daylight import DAY
from ..display.stage import Stage
from ..display.view import ViewPoint
from ..render.meshes import middle_and_radius, pieces_of
from ..render.outdoors import GRASS, YARD
from ..render.picture import sun_for
from ..render.surface import FEATURE, ColoredMesh

Floats = NDArray[np.float32]

AIR = {
    "finish": (DAY.haze, DAY.overhead),
    "pieces": ("#f3f4f1", "#b3cce0"),
    "indoors": ("#e2e6e8", "#fbfcfc"),
}
"""What lies behind, from the foot of the window to its top."""

INK = "#262c30"
CHOSEN: Color = (255, 205, 36)
REACH = 4.0
"""How far the ground is seen, in radii of the house."""

MATT = {"ambient": 0.34, "diffuse": 0.68, "specular": 0.0}
DAYLIT = {"ambient": 0.44, "diffuse": 0.86, "specular": 0.0}
AFAR = {"pieces": 0.6, "finish": 0.14}
"""How dark edges are drawn where the whole roof is seen, by its coloring."""

NEARER = -0.5
"""How much nearer than their faces edges are drawn, in steps of what the window tells depths by: no roof is so thin."""

SOLID = 0.5
"""Where the ground begins to fade away, as a share of how far it is seen: it hides the foot of the walls."""

SLIDE = 9
"""Pictures in which a piece comes to its place."""

NEAR = ((0, 0), *((r * math.cos(a), r * math.sin(a)) for r in (5, 10) for a in np.arange(8) * math.pi / 4))
"""Where a click looks for a piece, pixels round the mouse: trim is thin."""


class RoofPlot:
    """The roof in a plotter.

    Args:
        plotter: Its window; it is lit and given its camera here.
    """

    def __init__(self, plotter: pv.Plotter) -> None:
        """Light an empty window."""
        vtkLogger.SetStderrVerbosity(vtkLogger.VERBOSITY_OFF)
        self.plotter = plotter
        self.pieces: list[ColoredMesh] = []
        self._names: list[str | None] = []
        self._starts: NDArray[np.int64] = np.zeros(1, dtype=np.int64)
        self._actors: list[Any] = []
        self._body: Any = None
        self._sun: Callable[..., Array]
        self._lights = [
            pv.Light(light_type="scene light", positional=False, intensity=one) for one in (0.62, 0.3)
        ]
        for light in self._lights:
            plotter.add_light(light)
        plotter.add_light(pv.Light(light_type="headlight", intensity=0.3))

    def stand(self, stage: Stage, view: ViewPoint, chosen: str | None) -> None:
        """Draw what a view shows, and the chosen piece in the color of a mark."""
        plotter = self.plotter
        for actor in self._actors:
            plotter.remove_actor(actor, render=False)
        pieces = pieces_of(stage, view)
        bodies = [
            body
            for body in stage.bodies
            if body.kind in view.shows and not (body.kind == "trim" and body.name in view.hidden)
        ]
        self._names = [body.name if body.kind == "trim" else None for body in bodies]
        self._names += [None] * (len(pieces) - len(bodies))
        self._starts = np.cumsum([0, *(len(piece.faces) for piece in pieces)])
        if chosen is not None and chosen in self._names:
            at = self._names.index(chosen)
            one = pieces[at]
            color = np.tile(np.array(CHOSEN, dtype=np.uint8), (len(one.faces), 1))
            pieces[at] = ColoredMesh(one.vertices, one.faces, color, one.coat)
        self.pieces = pieces
        mesh = _mesh(pieces)
        lit = DAYLIT if view.coloring == "finish" else MATT
        self._body = plotter.add_mesh(mesh, scalars="color", rgb=True, copy_mesh=False, render=False, **lit)
        if view.outdoors:
            self._body.prop.culling = "back"  # undersides would shine through, so thin is the metal
        lines = self._lines([piece for piece in pieces if piece.edges], view, stage.ground)
        self._actors = [self._body, lines]
        self._sun = partial(sun_for, stage.scene, finished=view.coloring == "finish")
        if view.outdoors:
            middle, radius = middle_and_radius(pieces)
            ground = np.array([*middle[:2], stage.ground])
            grass = view.coloring == "finish"
            self._actors.append(self._ground(ground, radius * REACH, GRASS if grass else YARD))
        foot, top = AIR[view.coloring if view.outdoors else "indoors"]
        plotter.set_background(foot, top=top)

    def _lines(self, pieces: Sequence[ColoredMesh], view: ViewPoint, ground: float) -> Any:
        """Draw the edges of pieces, none below the ground: from afar fainter, where light shows the shapes."""
        mesh = _mesh(pieces)
        if view.outdoors:
            mesh.points[:, 2] = np.maximum(mesh.points[:, 2], ground)
        edges = mesh.extract_feature_edges(
            feature_angle=FEATURE, boundary_edges=True, non_manifold_edges=False, manifold_edges=False
        )
        strength = AFAR[view.coloring] if view.outdoors else 1.0
        lines = self.plotter.add_mesh(
            edges, color=INK, opacity=strength, line_width=1.2, lighting=False, render=False, pickable=False
        )
        lines.mapper.SetResolveCoincidentTopologyToPolygonOffset()
        lines.mapper.SetRelativeCoincidentTopologyLineOffsetParameters(0.0, NEARER)
        return lines

    def bring(self, stage: Stage, view: ViewPoint, shift: Array) -> None:
        """Let all that a stage holds come from ``shift`` inches off to its place."""
        pieces = pieces_of(stage, view)
        if not pieces:
            return
        actor = self.plotter.add_mesh(
            _mesh(pieces), scalars="color", rgb=True, render=False, pickable=False, **MATT
        )
        for i in range(SLIDE):
            actor.position = tuple(shift * (1 - (i + 1) / SLIDE) ** 2)
            self.plotter.render_window.Render()
        self.plotter.remove_actor(actor, render=False)

    def aim(self, shot: Shot) -> None:
        """Look from a place."""
        camera = self.plotter.camera
        camera.is_set = True
        camera.position, camera.focal_point, camera.up = shot.eye, shot.target, shot.up
        camera.view_angle = math.degrees(shot.angle(self._aspect))
        sun = self._sun(shot=shot)
        for light, way in zip(self._lights, (sun, np.array([-sun[0], -sun[1], 0.9])), strict=True):
            light.position, light.focal_point = tuple(way), (0, 0, 0)
        self.plotter.renderer.ResetCameraClippingRange()

    def shot(self) -> Shot:
        """Return the place that is looked from now."""
        camera = self.plotter.camera
        eye, target = np.array(camera.position), np.array(camera.focal_point)
        high = 2 * float(np.linalg.norm(target - eye)) * math.tan(math.radians(camera.view_angle) / 2)
        return Shot(eye, target, np.array(camera.up), high * self._aspect, high)

    def under(self, x: float, y: float) -> str | None:
        """Return the mark of the piece at or near a pixel, counted from the lower left corner."""
        picker = vtkCellPicker()
        picker.SetTolerance(0)
        picker.PickFromListOn()
        picker.AddPickList(self._body)
        for dx, dy in NEAR:
            picker.Pick(x + dx, y + dy, 0, self.plotter.renderer)
            cell = picker.GetCellId()
            if cell >= 0:
                name = self._names[int(np.searchsorted(self._starts, cell, side="right")) - 1]
                if name is not None:
                    return name
        return None

    @property
    def _aspect(self) -> float:
        wide, high = self.plotter.render_window.GetActualSize()
        return float(wide) / max(float(high), 1.0)

    def _ground(self, middle: Array, reach: float, color: Floats) -> Any:
        disc = pv.Disc(center=middle, inner=0, outer=reach, normal=(0, 0, 1), r_res=24, c_res=64)
        out = np.linalg.norm(disc.points[:, :2] - middle[:2], axis=1) / reach
        share = np.clip((1 - out) / (1 - SOLID), 0, 1)
        rgba = np.empty((len(out), 4))
        rgba[:, :3] = color
        rgba[:, 3] = share * share * (3 - 2 * share)
        disc.point_data["color"] = np.round(rgba * 255).astype(np.uint8)
        return self.plotter.add_mesh(
            disc, scalars="color", rgb=True, lighting=False, render=False, pickable=False
        )


def _mesh(pieces: Sequence[ColoredMesh]) -> pv.PolyData:
    """Return the pieces as one mesh with a color a face."""
    starts = np.cumsum([0, *(len(piece.vertices) for piece in pieces)])
    vertices = np.concatenate([piece.vertices for piece in pieces])
    faces = np.concatenate([piece.faces + start for piece, start in zip(pieces, starts, strict=False)])
    mesh = pv.PolyData.from_regular_faces(vertices, faces)
    mesh.cell_data["color"] = np.concatenate([piece.colors for piece in pieces])
    return mesh
