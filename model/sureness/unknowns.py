"""What a roof was measured by, how far each measure may be off, and where the corners are when it is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from ..errors import TrimwrightError
from ..geometry.arrays import Array
from ..roof.build import build_roof
from ..roof.moved import moved
from ..roof.record import Roof
from ..scene.roof import GableSpec, HipSpec, ShedSpec
from ..scene.schema import Scene, SurveySpec
from ..survey.assumed import Assumed, assumed
from ..survey.fit import fitted
from ..survey.record import Survey
from ..survey.survey import standard_errors
from ..survey.walk import walk

STEP = 1e-3
"""By how much a size of the form is changed to see where the corners go, inches or radians."""


@dataclass(frozen=True, slots=True, eq=False)
class Unknowns:
    """Measures, each off by an unknown amount.

    Attributes:
        roof: As it was measured.
        most: ``(m,)`` how far each may be off either way, inches or radians: two standard errors.
        gain: ``(3 n, m)`` how far the corners move for what each is off.
        taken: What holds of the roof whatever was measured.
    """

    roof: Roof
    most: Array
    gain: Array
    taken: Assumed

    def roof_at(self, off: Array) -> Roof:
        """Return the roof as it is when the measures are off by so much, ``(m,)`` of `most`, -1 to 1.

        Its faces are made plane and its eaves level again; where on the ground it stands does not matter.
        """
        from scipy.linalg import lstsq

        points = self.roof.vertices + (self.gain @ (off * self.most)).reshape(-1, 3)
        for _ in range(4):
            back = lstsq(self.taken.changes(points), -self.taken.off(points), cond=1e-9)[0]
            points = points + back.reshape(-1, 3)
        return moved(self.roof, points)


def unknowns_of(scene: Scene, roof: Roof, survey: Survey | None) -> Unknowns | None:
    """Return what a roof was measured by; None where the scene does not say how well.

    A taped roof was measured by its tapes, a gable, hip or shed by its sizes. Of any other roof each edge and each
    pitch is taken to be known as well as a tape would tell it.
    """
    if scene.survey is None:
        return None
    roof = replace(roof, walls=())
    taken = assumed(roof).without_place()
    if survey is not None:
        own = {tape.name: tape.kind for tape in survey.tapes if not tape.left_out}
        most = np.array([_most(kind == "pitch", scene.survey) for kind in own.values()])
        return Unknowns(roof, most, survey.gain, taken)
    by_size = _by_sizes(scene, roof, scene.survey)
    most, gain = _by_walk(roof, scene.survey) if by_size is None else by_size
    return Unknowns(roof, most, gain, taken)


def _most(pitch: bool, spec: SurveySpec) -> float:
    return spec.pitch if pitch else spec.tape


def _by_walk(roof: Roof, spec: SurveySpec) -> tuple[Array, Array]:
    """Return how far every measure of a whole survey may be off, and where corners go for it."""
    measures = [stop.quantity for visit in walk(roof, spec) if visit.face is not None for stop in visit.stops]
    errors = standard_errors(measures, spec)
    read = np.array([one.value(roof.vertices) for one in measures])
    return 2 * errors, fitted(measures, read, errors, assumed(roof)).gain


def _by_sizes(scene: Scene, roof: Roof, spec: SurveySpec) -> tuple[Array, Array] | None:
    """Return the same of a form's own sizes; None for a form that has none, or changes its shape at a touch."""
    if not isinstance(scene.roof, GableSpec | HipSpec | ShedSpec):
        return None
    most, gain = [], []
    for pitch, other in _changed(scene.roof):
        try:
            near = build_roof(other)
        except TrimwrightError:
            return None
        if [edge.name for edge in near.edges] != [edge.name for edge in roof.edges]:
            return None
        most.append(_most(pitch, spec))
        gain.append((near.vertices - roof.vertices).ravel() / STEP)
    return np.array(most), np.array(gain).T


def _changed(
    spec: GableSpec | HipSpec | ShedSpec,
) -> Iterator[tuple[bool, GableSpec | HipSpec | ShedSpec]]:
    """Yield a form with each of its sizes a little larger, and whether that is a pitch."""
    for name in ("length", "width", "far_wall_height", "pitch", "far_pitch", "end_pitch"):
        value = getattr(spec, name, None)
        if value is not None:
            yield name.endswith("pitch"), spec.model_copy(update={name: value + STEP})
    for name in ("eave", "rake", "high"):
        over = spec.overhang.model_copy(update={name: getattr(spec.overhang, name) + STEP})
        if not (isinstance(spec, HipSpec) and name != "eave") and not math.isclose(
            getattr(spec.overhang, name), 0.0
        ):
            yield False, spec.model_copy(update={"overhang": over})
