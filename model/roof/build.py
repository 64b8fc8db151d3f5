"""From what the scene says of a roof to its faces and edges."""

from __future__ import annotations

import math

from ..errors import GeometryError
from ..scene.schema import GableSpec, HipSpec, RoofSpec, ShedSpec
from . import forms
from .edges import roof_from_faces
from .record import Roof

FLATTEST = math.atan2(1 / 16, 12)
"""Slopes below 1/16 in 12 are refused: water lies on them, and hip and ridge cannot be told apart."""

SHORTEST = 6.0
"""Edges below 6 in are refused: their corners' cuts, each about 3 in long, would meet."""


def build_roof(spec: RoofSpec) -> Roof:
    """Return the roof that the scene asks for.

    Raises:
        GeometryError: Sizes that make no roof: an eave in the ground, a slope too flat, an edge too short.
    """
    _refuse_flat(spec)
    form = form_of(spec)
    low = min(float(plane.moved(-spec.deck).lift(form.deck)[:, 2].min()) for plane in form.planes)
    if low <= 0:
        raise GeometryError(
            f"roof: the eave comes out {-low:.2f} in below the ground. "
            "Give more roof.wall_height, or less roof.overhang.eave, roof.pitch or roof.deck."
        )
    roof = roof_from_faces(forms.faces(form), spec.deck, forms.walls(form, spec.deck))
    short = min(roof.edges, key=lambda edge: edge.length)
    if short.length < SHORTEST:
        square = " or make length and width equal for a roof without a ridge" if short.kind == "ridge" else ""
        raise GeometryError(
            f"roof: the {short.name} comes out {short.length:.3f} in long, "
            f"and trim needs {SHORTEST:g} in or more. Change roof.length, roof.width or the pitches{square}."
        )
    return roof


def form_of(spec: RoofSpec) -> forms.Form:
    """Return the planes and plan of the roof that the scene asks for."""
    over = spec.overhang
    match spec:
        case GableSpec():
            pitches = (spec.pitch, spec.pitch if spec.far_pitch is None else spec.far_pitch)
            return forms.gable(spec.length, spec.width, pitches, spec.wall_height, over.eave, over.rake)
        case HipSpec():
            pitches = (spec.pitch, spec.pitch if spec.end_pitch is None else spec.end_pitch)
            return forms.hip(spec.length, spec.width, pitches, spec.wall_height, over.eave)
        case ShedSpec():
            return forms.shed(
                spec.length, spec.width, spec.pitch, spec.wall_height, over.eave, over.rake, over.high
            )


def _refuse_flat(spec: RoofSpec) -> None:
    """Refuse slopes that are all but level."""
    for key in ("pitch", "far_pitch", "end_pitch"):
        slope = getattr(spec, key, None)
        if slope is not None and slope < FLATTEST:
            raise GeometryError(
                f"roof.{key}: {12 * math.tan(slope):.4f} in 12 is too flat to drain. Give 1/16 in 12 or more."
            )
