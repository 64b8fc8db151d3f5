"""From the form's roof and what was taped on the real one to the roof as it is."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from ..errors import GeometryError, Problem, SceneError
from ..geometry.arrays import Array
from ..message import Listed, Message, message
from ..roof.moved import moved
from ..roof.record import Roof
from ..scene.survey import SurveySpec
from .assumed import assumed
from .crooked import crooked_faces
from .doubts import scores, twins, without_mistakes
from .fit import Fit, untold
from .quantities import Kind, Quantity, every_size, measurable, tilts
from .record import Survey, Taped, Untold

SHARE = 0.01
"""A size that changes by less than this share of what it could along the directions that no tape tells is told."""

ORDER: tuple[Kind, ...] = ("pitch", "length", "diagonal")
"""Which size stands for a direction that no tape tells: the one that is easiest to measure."""


def surveyed(roof: Roof, taped: Mapping[str, float], spec: SurveySpec) -> tuple[Roof, Survey | None]:
    """Return the roof as the tape says it is, and how far that can be trusted; no survey where nothing was taped.

    Args:
        roof: As the form has it.
        taped: What was read, by name of an edge, a diagonal or a pitch; inches or radians.
        spec: How well.

    Raises:
        SceneError: Names of what is not on this roof.
        GeometryError: What was taped makes no roof.
    """
    if not taped:
        return roof, None
    measures = _named(roof, tuple(taped))
    read = np.array(list(taped.values()))
    errors = standard_errors(measures, spec)
    taken = assumed(roof)
    fit, kept, doubts = without_mistakes(measures, read, errors, taken)
    try:
        true = moved(roof, fit.points)
    except GeometryError as error:
        raise GeometryError(*(Problem(one.message, ("roof", "taped")) for one in error.problems)) from None
    survey = Survey(
        tapes=tuple(_tapes(measures, read, roof, fit, kept, errors)),
        untold=tuple(_untold(roof, [measures[k] for k in kept], errors[kept], fit.points)),
        doubts=doubts,
        crooked=tuple(crooked_faces(roof, true)),
        spread=fit.spread,
        gain=fit.gain,
        loose=_loose(roof, [measures[k] for k in kept], errors[kept]),
    )
    return true, survey


def standard_errors(measures: Sequence[Quantity], spec: SurveySpec) -> Array:
    """Return the standard error of each measure, inches or radians."""
    return np.array([(spec.pitch if one.kind == "pitch" else spec.tape) / 2 for one in measures])


def _named(roof: Roof, names: Sequence[str]) -> list[Quantity]:
    """Return what each name stands for.

    Raises:
        SceneError: Something is not on this roof.
    """
    known = every_size(roof)
    problems = [
        Problem(_not_there(name, list(known)), ("roof", "taped", name)) for name in names if name not in known
    ]
    if problems:
        raise SceneError(*problems)
    return [known[name] for name in names]


def _not_there(name: str, known: list[str]) -> Message:
    near = difflib.get_close_matches(name, known, n=1)
    if near:
        return message("there is nothing of this name to tape; did you mean {near}?", near=near[0])
    return message(
        "there is nothing of this name to tape; there are {known}", known=Listed(tuple(known), "comma")
    )


def _tapes(
    measures: Sequence[Quantity], read: Array, form: Roof, fit: Fit, kept: Sequence[int], errors: Array
) -> Iterator[Taped]:
    """Yield how each measure agrees; of what was left out, how far it is off."""
    told = dict(zip(kept, zip(fit.sure, scores(fit, errors[kept]), strict=True), strict=True))
    alike = twins(fit.leaning)
    like = {
        k: tuple(measures[kept[other]].name for other in np.flatnonzero(alike[at]).tolist())
        for at, k in enumerate(kept)
    }
    for k, one in enumerate(measures):
        now = one.value(fit.points)
        sure, score = told.get(k, (1.0, (read[k] - now) / errors[k]))
        yield Taped(
            one.name,
            one.kind,
            float(read[k]),
            one.value(form.vertices),
            now,
            float(sure),
            float(score),
            k not in told,
            like.get(k, ()),
        )


def _untold(roof: Roof, measures: Sequence[Quantity], errors: Array, points: Array) -> Iterator[Untold]:
    """Yield a size for each direction that no tape tells, as few as stand for all of them."""
    ways = untold(measures, errors, assumed(roof, level=False))
    still = untold(measures, errors, assumed(roof))
    ordered = sorted(measurable(roof), key=lambda one: ORDER.index(one.kind))
    for one in (*ordered, *tilts(roof)):
        if not len(ways):
            return
        change = one.gradient(roof.vertices).ravel()
        along = ways @ change
        size = float(np.linalg.norm(along))
        if size <= SHARE * np.linalg.norm(change):
            continue
        by_level = bool(np.linalg.norm(still @ change) <= SHARE * np.linalg.norm(change))
        yield Untold(one.name, one.kind, one.value(roof.vertices), one.value(points), by_level)
        ways = _rest(ways, along / size)


def _loose(roof: Roof, measures: Sequence[Quantity], errors: Array) -> frozenset[str]:
    """Return the edges whose length changes along a direction that neither a tape nor the level eaves tell."""
    still = untold(measures, errors, assumed(roof))
    found = set()
    for one in measurable(roof):
        change = one.gradient(roof.vertices).ravel()
        if one.kind == "length" and np.linalg.norm(still @ change) > SHARE * np.linalg.norm(change):
            found.add(one.name)
    return frozenset(found)


def _rest(ways: Array, told: Array) -> Array:
    """Return the directions that are left once one of them, given by its shares of all, is told.

    They are turned so that the told one comes first, by a reflection, and it is left out.
    """
    mirror = told.copy()
    mirror[0] += np.copysign(1.0, told[0])
    mirror /= np.linalg.norm(mirror)
    return np.asarray((ways - 2 * np.outer(mirror, mirror @ ways))[1:])
