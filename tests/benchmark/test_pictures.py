"""How much pictures cost, as ratios to fixed pieces of work in the same run. Nothing here asserts a time.

Run with ``pytest -m benchmark -s``. Processor time of all threads is counted, so that other work on the machine
matters little.
"""

import resource
import statistics
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
import pyvista
from zoo import SCENES, layout

from tests.benchmark.house import HOUSE
from tests.benchmark.timing import cost
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.film.frames import pictures_of as frames_of
from trimwright.viewer.page.stills import stills_of
from trimwright.viewer.render.compile_ahead import warm
from trimwright.viewer.render.meshes import pieces_of
from trimwright.viewer.render.picture import SIZE, pictures_of
from trimwright.viewer.render.surface import surface_of

pytestmark = pytest.mark.benchmark


def in_numpy() -> None:
    """A fixed piece of work: ten million numbers made, sorted and summed up."""
    numbers = np.random.default_rng(1).random(10_000_000)
    numbers.sort()
    numbers.cumsum()


def frame_in_vtk() -> None:
    """A fixed piece of work: one frame of the finished boat shed by VTK, as large as a picture is drawn, read back."""
    stage = stage_of(layout("boat-shed"))
    view = stage.view("finish")
    surface = surface_of(pieces_of(stage, view))
    mesh = pyvista.PolyData.from_regular_faces(surface.vertices, surface.faces)
    plotter = pyvista.Plotter(off_screen=True, window_size=[2 * SIZE[0], 2 * SIZE[1]])
    plotter.add_mesh(mesh)
    plotter.screenshot(return_img=True)
    plotter.close()


def children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def process(*words: str) -> float:
    """Return the processor time of another process, seconds: the median of three."""
    times = []
    for _ in range(3):
        start = children()
        subprocess.run([sys.executable, *words], check=True, capture_output=True)
        times.append(children() - start)
    return statistics.median(times)


def test_an_album_a_film_and_the_pages_pictures() -> None:
    warm()
    numpy_s, vtk_s = cost(in_numpy, 3), cost(frame_in_vtk, 3)
    shed, house = layout("boat-shed"), build(scene_from(HOUSE, "house.toml"))
    stage = stage_of(shed)
    album = cost(lambda: list(pictures_of(stage, stage.album, lambda *_: None)))
    film = cost(lambda: list(frames_of(shed, stage, (1280, 666))))
    stills = cost(lambda: stills_of(stage_of(house)))
    print(f"\nnumpy sorting ten million numbers {numpy_s:6.2f} s, a frame by VTK {vtk_s:.2f} s")
    print(f"album of {len(stage.album)} / numpy's work      {album / numpy_s:6.1f}   ({album:.1f} s)")
    print(f"one of its pictures / VTK's frame {album / len(stage.album) / vtk_s:6.2f}")
    print(f"film / numpy's work               {film / numpy_s:6.1f}   ({film:.1f} s)")
    print(f"pictures of a house's page / numpy's work {stills / numpy_s:.1f}   ({stills:.1f} s)")


def test_the_first_picture_against_importing_the_libraries(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    scene = next(path for path in SCENES if path.stem == "boat-shed")
    libraries = process("-c", "import numpy, shapely, pydantic")
    arguments = ["picture", str(scene), "--view", "street", "-o", "street.png"]
    command = f"import sys; from trimwright.viewer.cli import main; sys.argv[1:] = {arguments!r}; main()"
    process("-c", command)
    picture = process("-c", command)
    print(
        f"\nfirst picture / importing numpy, shapely and pydantic {picture / libraries:.1f}   ({picture:.2f} s)"
    )
