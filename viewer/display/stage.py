"""The stage: one description of what is seen, which pictures, windows and pages share."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

from trimwright.model.checks.record import Finding
from trimwright.model.errors import TrimwrightError
from trimwright.model.layout import Layout, Part
from trimwright.model.message import Listed, Message, message
from trimwright.model.scene.schema import Scene
from trimwright.model.screws import Screw

from .body import Body
from .cladding import panel_bodies
from .cleat_views import cleat_views
from .closeups import screw_views, short_views
from .corners import corner_views, lap_views
from .gutter_bodies import gutter_bodies
from .house import house_bodies
from .notes import Label, Pin
from .outside import outside_bodies
from .panel_views import panel_views
from .setting_steps import places_of
from .trim_bodies import trim_bodies
from .view import ViewPoint, file_name
from .whole_roof import mark_label, whole_views


class ViewError(TrimwrightError):
    """A view that this roof does not have."""


@dataclass(frozen=True, eq=False)
class Stage:
    """All that is seen. View points are worked out when they are first asked for.

    Attributes:
        layout: What it was made from.
        bodies: House, panels and pieces.
        screws: Every screw.
        labels: The mark of every piece.
        pins: Every finding.
        short: Marks of the pieces that are cut to what was left.
        ground: Height of the ground, inches.
    """

    layout: Layout
    bodies: tuple[Body, ...]
    screws: tuple[Screw, ...]
    labels: tuple[Label, ...]
    pins: tuple[Pin, ...]
    short: frozenset[str]
    ground: float

    @property
    def scene(self) -> Scene:
        """For its title, colors and metal."""
        return self.layout.scene

    @cached_property
    def whole(self) -> tuple[ViewPoint, ...]:
        """Views of the whole roof."""
        return tuple(whole_views(self.layout, self.labels))

    @cached_property
    def close(self) -> tuple[ViewPoint, ...]:
        """Where the short pieces land, every corner, and a lap of each kind of trim."""
        layout, order = self.layout, places_of(self.layout)
        return (*short_views(layout), *corner_views(layout, order), *lap_views(layout, order))

    @cached_property
    def viewpoints(self) -> Mapping[str, ViewPoint]:
        """By name, in the order of the album."""
        views = (
            *self.whole,
            *self.close,
            *panel_views(self.layout),
            *cleat_views(self.layout),
            *screw_views(self.layout),
        )
        return MappingProxyType({view.name: view for view in views})

    @cached_property
    def album(self) -> tuple[str, ...]:
        """Names of the views that are drawn when all are asked for: corners made alike are drawn once."""
        first: dict[tuple[object, ...], str] = {}
        for view in self.viewpoints.values():
            if self.pins or not view.pins:
                first.setdefault(_signature(view, self.layout), view.name)
        return tuple(first.values())

    @cached_property
    def few(self) -> tuple[str, ...]:
        """Names of the views that are drawn when a few are asked for: those of the whole roof."""
        whole = {view.name for view in self.whole}
        return tuple(name for name in self.album if name in whole)

    def view(self, name: str) -> ViewPoint:
        """Return a view by its name or its picture's file, or the first whose name has all of the words.

        Raises:
            ViewError: this roof has no such view; lists those that it has.
        """
        found = self._called(name) or self._filed(name) or self._worded(name)
        if found is None:
            raise ViewError(_no_view(name, list(self.viewpoints), self.album))
        return found

    def _called(self, name: str) -> ViewPoint | None:
        """Return the view of that name."""
        return self.viewpoints.get(name)

    def _filed(self, name: str) -> ViewPoint | None:
        """Return the view whose picture goes to a file of that name, which may begin with the scene's name."""
        stem = name.removesuffix(".png").rsplit("/", 1)[-1]
        files = {file_name(view).removesuffix(".png"): view for view in self.viewpoints}
        if stem not in files and name.endswith(".png"):
            stem = max((file for file in files if stem.endswith(f"-{file}")), key=len, default=stem)
        return self._called(files.get(stem, ""))

    def _worded(self, name: str) -> ViewPoint | None:
        """Return the first view whose name has words that begin like those of ``name``."""
        words = set(name.lower().split())
        for known, view in self.viewpoints.items():
            has = set(known.lower().split())
            if (
                words
                and all(any(one.startswith(word) for one in has) for word in words)
                and ("apart" in words) == ("apart" in has)
            ):
                return view
        return None


def _no_view(name: str, views: Sequence[str], album: tuple[str, ...]) -> Message:
    """Return that there is no view called ``name``, which is meant, and which are to be had."""
    names, known = {view.lower(): view for view in views}, Listed(album, "comma")
    near = difflib.get_close_matches(name.lower(), names, 1, 0.4)
    if near:
        return message(
            "view '{name}': this roof has no such view; did you mean '{near}'? it has: {known}",
            name=name,
            near=names[near[0]],
            known=known,
        )
    return message("view '{name}': this roof has no such view; it has: {known}", name=name, known=known)


def stage_of(layout: Layout, findings: Sequence[Finding] = ()) -> Stage:
    """Return what is seen of a layout and its findings."""
    order = places_of(layout)
    bodies = (
        *house_bodies(layout.roof),
        *outside_bodies(layout.roof, layout.scene.house),
        *gutter_bodies(layout.roof, layout.scene.house),
        *panel_bodies(layout, order),
        *trim_bodies(layout.parts, order),
    )
    return Stage(
        layout,
        bodies,
        layout.screws,
        tuple(mark_label(part) for part in layout.parts),
        tuple(_pin(number, finding) for number, finding in enumerate(findings, 1)),
        frozenset(part.mark for part in layout.parts if part.piece.short),
        float(min((wall[:, 2].min() for wall in layout.roof.walls), default=0.0)),
    )


def _signature(view: ViewPoint, layout: Layout) -> tuple[object, ...]:
    """Return what two views that show the same work have in common: kind of view, trim, hand, slope and length."""
    if view.subject == "roof":
        return (view.name,)
    told = [
        (part.run.trim, part.run.hand, round(part.run.edge.slope, 4), *_measures(part, view))
        for part in layout.parts
        if part.mark in view.focus
    ]
    return (view.subject, view.joint, bool(view.apart), *sorted(told, key=str))


def _measures(part: Part, view: ViewPoint) -> tuple[float, ...]:
    """Return the lengths that a view of a piece depends on, to the tenth of an inch."""
    if view.subject == "short piece" and part.mark in view.highlight:
        return (round(part.length, 1),)
    return (round(part.run.length, 1),) if view.subject == "tape marks" else ()


def _pin(number: int, finding: Finding) -> Pin:
    text = ", ".join([f"{finding.rule}: {finding.where}", *finding.pieces[:2]])
    return Pin(
        number,
        finding.severity,
        finding.point,
        text,
        finding.pieces[0] if finding.pieces else None,
        finding.group,
    )
