"""Drip edges: how high trim ends over a corner of the roof, and faces made so deep that they end alike there.

A rake's face is square to the deck, so it reaches deeper, plumb, the steeper the roof. Where nothing else is asked, the
eave trim gets a face as deep as the rakes that stand on it; trim that hangs less deep than what it meets follows it.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

import numpy as np

from .geometry.arrays import Array
from .profiles.section import Section
from .roof.record import Roof
from .runs import Run, pan_height, section_of
from .scene.schema import Scene

APART = 1 / 16
"""Drip edges this near in height are left as the profiles have them, inches."""

STEP = 1 / 16
"""Faces are made deeper by whole steps, inches: as fine as a brake's stops are set by tape."""


def drip_of(section: Section) -> Array:
    """Return the bend below a section's face, ``(2,) float, inches``, in ``(out, up)`` of its run."""
    return np.asarray(section.points[section.strip_of("face") + 1])


def drip_height(placement: Array, drip: Array, corner: Array) -> float:
    """Return how high a drip edge, gone on straight, is plumb over a corner of the roof; below it less than 0.

    Args:
        placement: ``(4, 4)``: from ``(u, out, up)`` to the scene frame.
        drip: ``(2,) float, inches``: where it runs, in ``(out, up)``.
        corner: ``(3,) float, inches, scene frame``.
    """
    start, along = (placement @ [0.0, *drip, 1.0])[:3], placement[:3, 0]
    plan = float(np.hypot(*along[:2]))
    gone = float((corner[:2] - start[:2]) @ along[:2]) / plan**2
    return float(start[2] + along[2] * gone - corner[2])


def meet_drips(roof: Roof, runs: Sequence[Run], scene: Scene) -> tuple[Run, ...]:
    """Return the runs with faces so deep that their drip edges meet at the corners of eaves and rakes."""
    deeper = deeper_faces(runs, scene.profile)
    return tuple([_deepened(roof, run, scene, deeper.get(run.name, 0.0)) for run in runs])


def _deepened(roof: Roof, run: Run, scene: Scene, deeper: float) -> Run:
    if not deeper:
        return run
    section = section_of(roof, run.edge, run.spec, scene, pan_height(roof, scene), ("run", run.name), deeper)
    return replace(run, section=section)


def deeper_faces(runs: Sequence[Run], own: Collection[str]) -> dict[str, float]:
    """Return by its name how much wider the face of a run must be, inches, for the drip edges to meet.

    Eaves that meet each other at corners all get the face that the deepest of their rakes needs. Faces that a scene
    sets itself, by a width or by a profile of its own, stay, and what meets them follows where it would hang less deep.

    Args:
        runs: The runs, their faces as their profiles have them.
        own: Names of the profiles that a scene brings along.
    """
    said = [run for run in runs if run.spec.face is not None or run.spec.profile in own]
    rakes = [run for run in runs if run.trim == "rake"]
    deeper: dict[str, float] = {}
    for eaves in _joined([run for run in runs if run.trim == "eave"]):
        met = [
            (rake, eave) for rake in rakes for eave in eaves if rake.edge.vertices[0] in eave.edge.vertices
        ]
        if not met:
            continue
        leading = [eave for eave in eaves if eave in said] + [rake for rake, _ in met]
        deepest = max(-_height(run, run.edge.start) for run in leading)
        for eave in eaves:
            if eave not in said:
                deeper[eave.name] = _wider(eave, deepest + _height(eave, eave.edge.start))
        for rake, eave in met:
            if rake not in said:
                down = _height(eave, rake.edge.start) - deeper.get(eave.name, 0.0) * _drop(eave)
                deeper[rake.name] = _wider(rake, _height(rake, rake.edge.start) - down)
    return {name: wider for name, wider in deeper.items() if wider > 0.0}


def _height(run: Run, corner: Array) -> float:
    return drip_height(run.frame, drip_of(run.section), corner)


def _drop(run: Run) -> float:
    """Return how much deeper the drip edge of a run hangs plumb for each inch that its face is wider."""
    drip, face = drip_of(run.section), run.section.strip_of("face")
    way = drip - run.section.points[face]
    return _height(run, run.edge.start) - drip_height(
        run.frame, drip + way / np.linalg.norm(way), run.edge.start
    )


def _wider(run: Run, apart: float) -> float:
    """Return how much wider a face must be, in whole steps, for its drip edge to come down by ``apart`` inches."""
    drop = _drop(run)
    return round(apart / drop / STEP) * STEP if apart > APART and drop > 0.0 else 0.0


def _joined(eaves: Sequence[Run]) -> Iterator[list[Run]]:
    """Yield the eaves that meet each other at corners, group by group."""
    left = list(eaves)
    while left:
        group = [left.pop(0)]
        for one in group:
            near = [other for other in left if set(one.edge.vertices) & set(other.edge.vertices)]
            group += near
            left = [other for other in left if other not in near]
        yield group
