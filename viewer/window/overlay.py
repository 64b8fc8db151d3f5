"""Images laid over the window, in an order that stays."""

from __future__ import annotations

import numpy as np
import pyvista as pv
from PIL import Image
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkCommonDataModel import vtkImageData
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkImageMapper

ORDER = ("notes", "card", "foot")
"""What lies under what."""


class Overlay:
    """The images over a plotter.

    Args:
        plotter: Its window.
    """

    def __init__(self, plotter: pv.Plotter) -> None:
        """Lay nothing over it yet."""
        self._renderer = plotter.renderer
        self._actors: dict[str, vtkActor2D] = {}

    def lay(self, name: str, image: Image.Image | None, place: tuple[int, int] = (0, 0)) -> None:
        """Lay an image with its lower left corner at ``place``, pixels; None takes the last one away."""
        if name in self._actors:
            self._renderer.RemoveViewProp(self._actors.pop(name))
        if image is not None:
            self._actors[name] = _actor(image, place)
        for above in ORDER[ORDER.index(name) :]:
            if above in self._actors:
                self._renderer.RemoveViewProp(self._actors[above])
                self._renderer.AddViewProp(self._actors[above])

    def show(self, on: bool, *names: str) -> None:
        """Show or hide some images, all when none is named."""
        for name in names or ORDER:
            if name in self._actors:
                self._actors[name].SetVisibility(on)


def _actor(image: Image.Image, place: tuple[int, int]) -> vtkActor2D:
    pixels = np.ascontiguousarray(np.asarray(image.convert("RGB"))[::-1])
    data = vtkImageData()
    data.SetDimensions(image.width, image.height, 1)
    data.GetPointData().SetScalars(numpy_to_vtk(pixels.reshape(-1, 3), deep=True))  # type: ignore[no-untyped-call]
    mapper = vtkImageMapper()
    mapper.SetInputData(data)
    mapper.SetColorWindow(255)
    mapper.SetColorLevel(127.5)
    actor = vtkActor2D()
    actor.SetMapper(mapper)
    actor.SetPosition(*place)
    return actor
