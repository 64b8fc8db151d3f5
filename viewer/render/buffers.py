"""Buffers: what each pixel shows, which way it faces and how far away it is, drawn once by pyvista off screen."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import pyvista as pv
from numpy.typing import NDArray
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkCommonCore import vtkFloatArray, vtkLogger, vtkUnsignedCharArray

from ..display.camera import Shot

Floats = NDArray[np.float32]
Bytes = NDArray[np.uint8]

GAMMA = 2.2
LINEAR = ((np.arange(256) / 255) ** GAMMA).astype(np.float32)
"""What a color's 256 steps are in light."""

STEPS = ((np.arange(256) - 128) / 127).astype(np.float32)
"""What the 256 steps of a normal's component are; its length says how glossy the surface is."""

NEAREST = 0.35
"""What is nearer to the eye than this share of the way to the target is left off: depths stay fine."""

FEATURE = 22.0
"""Two faces that meet at more than this many degrees have a drawn edge between them."""


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A mesh with its color: what is drawn.

    Attributes:
        vertices: ``(n, 3) float, inches, scene frame``.
        faces: ``(m, 3) int``.
        colors: ``(m, 3)`` from 0 to 255.
        gloss: From 0 to 1.
        edges: Whether its edges are drawn.
    """

    vertices: NDArray[np.float64]
    faces: NDArray[np.int64]
    colors: Bytes
    gloss: float
    edges: bool = True


@dataclass(frozen=True, slots=True, eq=False)
class Buffers:
    """What a camera sees.

    Attributes:
        color: ``(h, w, 3)`` from 0 to 255, before any light.
        told: ``(h, w, 3)`` normals in steps from 0 to 255, longer where the surface is glossier.
        depth: ``(h, w)`` inches along the line of sight; infinite where nothing is.
    """

    color: Bytes
    told: Bytes
    depth: Floats

    @property
    def shiny(self) -> NDArray[np.bool_]:
        """``(h, w)`` whether metal is seen."""
        turned = STEPS[self.told]
        return np.asarray(np.einsum("hwk,hwk->hw", turned, turned) > 0.55**2)


class Canvas:
    """Meshes that are drawn from several places; a context, so that its window is closed.

    Args:
        pieces: What is drawn.
        line: Width of the edges, pixels.
        lead: How far edges on a surface that slopes away are drawn before it, in pixels of its slope.
        strength: How much they hide what is behind them, from 0 to 1.
        ink: Their color, from 0 to 255.
    """

    def __init__(
        self,
        pieces: Sequence[Piece],
        line: float = 2.0,
        lead: float = 0.4,
        strength: float = 1.0,
        ink: tuple[int, int, int] = (38, 44, 48),
    ) -> None:
        """Merge the pieces into one mesh and one set of lines."""
        vtkLogger.SetStderrVerbosity(vtkLogger.VERBOSITY_OFF)
        starts = np.cumsum([0, *(len(piece.vertices) for piece in pieces)])
        vertices = np.concatenate([piece.vertices for piece in pieces])
        faces = np.concatenate([piece.faces + start for piece, start in zip(pieces, starts, strict=False)])
        counts = [len(piece.faces) for piece in pieces]
        self._mesh = pv.PolyData.from_regular_faces(vertices, faces)
        self._mesh.cell_data["color"] = np.concatenate([piece.colors for piece in pieces])
        corners = vertices[faces]
        across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        size = np.linalg.norm(across, axis=1, keepdims=True)
        shine = np.repeat([piece.gloss for piece in pieces], counts)[:, None]
        told = across / np.where(size == 0, 1, size) * (0.5 + 0.5 * shine)
        self._mesh.cell_data["normal"] = np.round(told * 127 + 128).astype(np.uint8)
        drawn = np.repeat([piece.edges for piece in pieces], counts)
        self._edges = _edges(self._mesh, drawn)
        self._plotter = pv.Plotter(off_screen=True, lighting="none")
        self._plotter.disable_anti_aliasing()
        self._plotter.set_background("black")
        self._body = self._plotter.add_mesh(
            self._mesh, scalars="color", rgb=True, lighting=False, copy_mesh=False
        )
        self._lines = None
        if self._edges is not None:
            self._lines = self._plotter.add_mesh(
                self._edges, color=[c / 255 for c in ink], line_width=line, lighting=False, opacity=strength
            )
            mapper = self._lines.mapper
            mapper.SetResolveCoincidentTopologyToPolygonOffset()
            mapper.SetRelativeCoincidentTopologyLineOffsetParameters(-lead, -0.25)

    def __enter__(self) -> Canvas:
        """Return itself."""
        return self

    def __exit__(self, *error: object) -> None:
        """Close the window."""
        self._plotter.close()

    def draw(self, shot: Shot, size: tuple[int, int]) -> Buffers:
        """Return what a camera sees in a picture of ``size`` pixels, width by height."""
        self._aim(shot, size)
        color, depth = self._shown("color", True), self._depth()
        return Buffers(color, self._shown("normal", False), depth)

    def depth(self, shot: Shot, size: tuple[int, int], parallel: bool = True) -> Floats:
        """Return only how far away each pixel is, seen in parallel lines of sight unless told otherwise."""
        self._aim(shot, size)
        self._plotter.camera.parallel_projection = parallel
        self._plotter.camera.parallel_scale = shot.height / 2
        self._plotter.renderer.ResetCameraClippingRange()
        if self._lines is not None:
            self._lines.visibility = False
        self._plotter.render_window.Render()
        depth = self._depth()
        self._plotter.camera.parallel_projection = False
        return depth

    def _aim(self, shot: Shot, size: tuple[int, int]) -> None:
        plotter = self._plotter
        if tuple(plotter.window_size) != size:
            plotter.window_size = list(size)
        camera = plotter.camera
        camera.position, camera.focal_point, camera.up = shot.eye, shot.target, shot.up
        camera.view_angle = math.degrees(shot.angle(size[0] / size[1]))
        plotter.renderer.ResetCameraClippingRange()
        near, far = camera.clipping_range
        camera.clipping_range = (max(near, NEAREST * shot.distance), max(far, shot.distance))

    def _shown(self, scalars: str, lines: bool) -> Bytes:
        self._body.mapper.SetScalarModeToUseCellFieldData()
        self._body.mapper.SelectColorArray(scalars)
        if self._lines is not None:
            self._lines.visibility = lines
        self._plotter.render_window.Render()
        width, height = self._plotter.window_size
        got = vtkUnsignedCharArray()
        self._plotter.render_window.GetPixelData(0, 0, width - 1, height - 1, 0, got, 0)
        return np.asarray(_numbers(got).reshape(height, width, 3)[::-1])

    def _depth(self) -> Floats:
        width, height = self._plotter.window_size
        got = vtkFloatArray()
        self._plotter.render_window.GetZbufferData(0, 0, width - 1, height - 1, got)
        z = _numbers(got).reshape(height, width)[::-1]
        near, far = self._plotter.camera.clipping_range
        if self._plotter.camera.parallel_projection:
            depth = near + z * (far - near)
        else:
            depth = near * far / (far - z * (far - near))
        return np.asarray(np.where(z >= 1.0, np.inf, depth), dtype=np.float32)


def _numbers(array: object) -> NDArray[Any]:
    """Return what a VTK array holds."""
    return np.asarray(vtk_to_numpy(array))  # type: ignore[no-untyped-call]


def _edges(mesh: pv.PolyData, drawn: NDArray[np.bool_]) -> pv.PolyData | None:
    """Return the edges between faces that turn sharply, and those of open meshes."""
    if not drawn.any():
        return None
    part = mesh.extract_cells(np.flatnonzero(drawn)).extract_surface(algorithm=None)
    edges = part.extract_feature_edges(
        feature_angle=FEATURE, boundary_edges=True, non_manifold_edges=False, manifold_edges=False
    )
    return edges if edges.n_cells else None
