"""The valley of an L whose two slopes at the inside corner have any pitch, and what is measured on it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from trimwright.model.layout import Layout
from trimwright.model.panels.record import Panel
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Edge
from trimwright.model.scene.outline import OutlineSpec
from trimwright.model.scene.read import scene_of


@dataclass(frozen=True, slots=True)
class Beside:
    """One slope beside a valley; angles in degrees.

    Attributes:
        plan: Between the valley and the slope's eave, in plan.
        foot: The same in the plane of the slope: at this angle the pan's foot is cut.
        seam: Between the valley and a seam: at this angle the panels are cut.
        backing: How far the slope rises from level square to the valley.
    """

    plan: float
    foot: float
    seam: float
    backing: float

    def longer(self, spacing: float) -> float:
        """How much longer a panel is than the one beside it, inches."""
        return spacing / math.tan(math.radians(self.seam))


def valley(wing: str, main: str, half_span: float = 120.0) -> tuple[Edge, Beside, Beside]:
    """Return the valley between the main roof's slope and its wing's, and what is on the main and the wing's side."""
    wide, deep = 8 * half_span, 4 * half_span
    outline = [
        [0, 0],
        [wide, 0],
        [wide, deep],
        [2 * half_span, deep],
        [2 * half_span, 2 * deep],
        [0, 2 * deep],
    ]
    sides = {
        2: {"edge": "gable"},
        3: {"pitch": main},
        4: {"pitch": wing},
        5: {"edge": "gable"},
        6: {"pitch": wing},
    }
    roof = build_roof(
        OutlineSpec(form="outline", outline=outline, pitch=main, sides=sides, overhang={"eave": 0, "rake": 0})
    )
    edge = next(edge for edge in roof.edges if edge.name == "valley 3-4")
    found = []
    for number in (3, 4):
        eave = next(one for one in roof.edges if one.name == f"eave {number}")
        face = roof.faces[eave.faces[0]]
        level, up = edge.direction[:2] / np.linalg.norm(edge.direction[:2]), edge.direction
        along = eave.direction if eave.direction @ up < 0 else -eave.direction
        square = np.array([level[1], -level[0], 0.0])
        square = square if square @ face.normal < 0 else -square
        into = square - (square @ face.normal) / face.normal[2] * np.array([0.0, 0.0, 1.0])
        into -= (into @ up) * up
        found.append(
            Beside(
                plan=math.degrees(math.acos(abs(level @ along[:2]))),
                foot=math.degrees(math.acos(abs(up @ along))),
                seam=math.degrees(math.asin(abs(up @ along))),
                backing=math.degrees(math.atan2(*_rise_and_run(into, up))),
            )
        )
    return edge, found[0], found[1]


def _rise_and_run(into: np.ndarray, up: np.ndarray) -> tuple[float, float]:
    """Return how far a line square to the valley rises in the plane that is level and square to it."""
    level = np.cross(up, np.cross([0.0, 0.0, 1.0], up))
    across = np.cross(level, up)
    return float(into @ level / np.linalg.norm(level)), abs(float(into @ across / np.linalg.norm(across)))


def laid_out(wing: str, main: str, cover: float, half_span: float = 120.0) -> Layout:
    """Return an L with trim and panels, ``cover`` inches from seam to seam; its valley is ``valley 3-4``."""
    wide, deep, end = 8 * half_span, 4 * half_span, 6 * half_span
    roof = {
        "form": "outline",
        "outline": [[0, 0], [wide, 0], [wide, deep], [2 * half_span, deep], [2 * half_span, end], [0, end]],
        "pitch": main,
        "sides": {2: {"edge": "gable"}, 4: {"pitch": wing}, 5: {"edge": "gable"}, 6: {"pitch": wing}},
        "overhang": {"eave": 0, "rake": 0},
        "wall_height": 240,
    }
    return build(scene_of({"title": "Ell", "roof": roof, "panels": {"cover": cover}}))


def cut_to_the_valley(layout: Layout, face: str) -> list[Panel]:
    """Return the whole panels of a face that are cut to the valley from seam to seam, from the left."""
    index = next(i for i, one in enumerate(layout.roof.faces) if one.name == face)
    return [
        panel
        for panel in layout.panels_of(index)
        if panel.ripped is None and [end.border for end in panel.ends if end.at == "low"] == ["valley 3-4"]
    ]


def from_seam(panel: Panel) -> float:
    """Return the angle between a panel's seams and its cut along the valley, degrees."""
    (cut,) = (end for end in panel.ends if end.border == "valley 3-4")
    return 90 - math.degrees(abs(cut.bevel))


def steps_of(panels: Sequence[Panel]) -> list[float]:
    """Return how much farther down the slope each of these panels' seams begins than the one beside it, inches."""
    low, high = panels[0].seams[0]
    up = (high - low) / np.linalg.norm(high - low)
    return [abs(float((two.seams[0][0] - one.seams[0][0]) @ up)) for one, two in pairwise(panels)]
