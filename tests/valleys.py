"""The valley of an L whose two slopes at the inside corner have any pitch, and what is measured on it."""

import math
from dataclasses import dataclass

import numpy as np

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Edge
from trimwright.model.scene.outline import OutlineSpec


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
