"""The stage: one description of what is seen, which pictures, windows and pages share."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from trimwright.model.checks.record import Finding
from trimwright.model.errors import TrimwrightError
from trimwright.model.layout import Layout
from trimwright.model.scene.schema import Scene
from trimwright.model.screws import Screw

from .body import Body
from .cladding import panel_bodies
from .closeups import screw_views, short_views
from .corners import corner_views, lap_views, signature
from .house import house_bodies
from .metal import RANK, install_order, trim_bodies
from .notes import Label, Pin
from .view import ViewPoint
from .whole import mark_label, whole_views

Array = NDArray[np.float64]


class ViewError(TrimwrightError):
    """A view that this roof does not have."""


@dataclass(frozen=True, slots=True, eq=False)
class Stage:
    """All that is seen.

    Attributes:
        scene: For its title, colors and metal.
        bodies: House, panels and pieces.
        screws: Every screw.
        labels: The mark of every piece.
        pins: Every finding.
        short: Marks of the pieces that are cut to what was left.
        ground: Height of the ground, inches.
        viewpoints: By name, in the order of the album.
        album: Names of the views that are drawn when all are asked for: corners made alike are drawn once.
    """

    scene: Scene
    bodies: tuple[Body, ...]
    screws: tuple[Screw, ...]
    labels: tuple[Label, ...]
    pins: tuple[Pin, ...]
    short: frozenset[str]
    ground: float
    viewpoints: Mapping[str, ViewPoint]
    album: tuple[str, ...]

    def view(self, name: str) -> ViewPoint:
        """Return the view called ``name``, or the first whose name has all of its words.

        Raises:
            ViewError: this roof has no such view; lists those that it has.
        """
        if name in self.viewpoints:
            return self.viewpoints[name]
        words = set(name.lower().split())
        for known, view in self.viewpoints.items():
            has = set(known.lower().split())
            if (
                words
                and all(any(one.startswith(word) for one in has) for word in words)
                and ("apart" in words) == ("apart" in has)
            ):
                return view
        near = difflib.get_close_matches(name, self.viewpoints, 1)
        hint = f"did you mean {near[0]!r}? " if near else ""
        known = ", ".join(self.album)
        raise ViewError(f"view {name!r}: this roof has no such view; {hint}it has: {known}")


def stage_of(layout: Layout, findings: Sequence[Finding] = ()) -> Stage:
    """Return what is seen of a layout and its findings."""
    order = install_order(layout)
    below = [order[part.mark] for part in layout.parts if RANK[part.run.trim] < RANK["panels"]]
    bodies = (
        *house_bodies(layout.roof),
        *panel_bodies(layout, max(below, default=0)),
        *trim_bodies(layout.parts, order),
    )
    corners = (*corner_views(layout, order), *lap_views(layout, order))
    screws = tuple(screw_views(layout))
    views = (*whole_views(layout), *short_views(layout), *corners, *screws)
    alike: set[tuple[object, ...]] = set()
    album = []
    for view in views:
        if view in corners:
            kind = signature(view, layout)
            if kind in alike:
                continue
            alike.add(kind)
        elif view in screws and not _shown(view, layout, alike):
            continue
        album.append(view.name)
    return Stage(
        layout.scene,
        bodies,
        layout.screws,
        tuple(mark_label(layout, part) for part in layout.parts),
        tuple(_pin(number, finding) for number, finding in enumerate(findings, 1)),
        frozenset(part.mark for part in layout.parts if part.piece.short),
        float(min((wall[:, 2].min() for wall in layout.roof.walls), default=0.0)),
        MappingProxyType({view.name: view for view in views}),
        tuple(album),
    )


def _shown(view: ViewPoint, layout: Layout, alike: set[tuple[object, ...]]) -> bool:
    """Return whether a run is the first of its kind and hand and length."""
    run = next(run for run in layout.runs if view.name == f"screws {run.code}")
    kind = ("screws", run.trim, run.hand, round(run.length, 2))
    if kind in alike:
        return False
    alike.add(kind)
    return True


def _pin(number: int, finding: Finding) -> Pin:
    text = ", ".join([f"{finding.rule}: {finding.where}", *finding.pieces[:2]])
    return Pin(number, finding.severity, finding.point, text, finding.pieces[0] if finding.pieces else None)
