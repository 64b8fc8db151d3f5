"""The layout: every piece cut, folded and set in its place, and every screw and panel with it."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from .fitting import Fitted
from .limits.record import Limits
from .panels.cleats import Cleat
from .panels.closures import Closure
from .panels.lay import stuff_of
from .panels.lips import lip_of
from .panels.record import Panel
from .panels.sealed import Sealed, sealed_places
from .panels.venting import Vent, vents_of
from .roof.record import Roof
from .runs import Run, pan_height
from .scene.schema import Scene
from .screws import Screw
from .setting_order import Setting
from .sheet.solid import Solid
from .sureness.record import Sureness
from .survey.record import Survey

Thing = TypeVar("Thing")
Key = TypeVar("Key", bound=Hashable)


@dataclass(frozen=True, slots=True, eq=False)
class Part(Fitted):
    """A piece as it is cut, drilled, folded and set.

    Attributes:
        solid: The folded, thickened sheet in the scene frame.
    """

    solid: Solid

    @property
    def mark(self) -> str:
        """The piece's mark, as written on the metal."""
        return self.piece.mark

    @property
    def low(self) -> float:
        """Run distance of the metal's lowest point: where the tape hooks on, inches."""
        return self.sheet.extent[0]

    @property
    def high(self) -> float:
        """Run distance of the metal's highest point, inches."""
        return self.sheet.extent[1]

    @property
    def length(self) -> float:
        """Length of the blank it is cut from: laps and allowances included, inches."""
        return self.sheet.length


@dataclass(frozen=True, eq=False)  # without slots: what is looked up is sorted once
class Layout:
    """All of it, placed.

    Attributes:
        scene: What was asked for.
        limits: Limits in force.
        roof: Faces and edges.
        survey: How its sizes agree with what was taped; None where nothing was.
        runs: One trim along one edge each.
        parts: Every piece, run by run, low end first.
        screws: Every screw, piece by piece.
        panels: Every panel, face by face.
        closures: Every closure between the seams, face by face.
        cleats: Every continuous cleat that panels hook, run by run.
        untrimmed: Names of edges that the scene leaves without trim.
        order: All of it in the order in which it goes on, each with what it lies on.
    """

    scene: Scene
    limits: Limits
    roof: Roof
    survey: Survey | None
    runs: tuple[Run, ...]
    parts: tuple[Part, ...]
    screws: tuple[Screw, ...]
    panels: tuple[Panel, ...]
    closures: tuple[Closure, ...]
    cleats: tuple[Cleat, ...]
    untrimmed: tuple[str, ...]
    order: tuple[Setting, ...]

    def run(self, name: str) -> Run:
        """Return the run of this name."""
        return self._runs[name]

    def part(self, mark: str) -> Part:
        """Return the piece of this mark."""
        return self._parts[mark]

    def cleat(self, mark: str) -> Cleat | None:
        """Return the continuous cleat of this mark, or None."""
        return self._cleats.get(mark)

    def parts_of(self, run: str) -> tuple[Part, ...]:
        """Return the pieces of the run of this name, low end first."""
        return self._parts_of.get(run, ())

    def screws_of(self, mark: str) -> tuple[Screw, ...]:
        """Return the screws of the piece of this mark, row by row, from its low end."""
        return self._screws_of.get(mark, ())

    def panels_of(self, face: int) -> tuple[Panel, ...]:
        """Return the panels of the face of this index, from its left."""
        return self._panels_of.get(face, ())

    def setting(self, name: str) -> Setting:
        """Return what sets the piece or cleat of this mark, or the panel or closure of this name."""
        return self._settings[name]

    @cached_property
    def sureness(self) -> Sureness | None:
        """How sure lengths and miters are; None where the scene does not say how well its roof was measured."""
        if self.scene.survey is None:
            return None
        from .sureness.sureness import sureness_of

        return sureness_of(self.scene, self.limits, self.roof, self.survey, self.parts)

    @cached_property
    def sealed(self) -> tuple[Sealed, ...]:
        """Where sealant closes what the metal of panels and closures leaves open."""
        scene = self.scene
        stuff = stuff_of(scene, pan_height(self.roof, scene))
        lips = {run.name: lip for run in self.runs if (lip := lip_of(run, scene)) is not None}
        return sealed_places(self.closures, self.panels, self.runs, lips, stuff)

    @cached_property
    def vents(self) -> tuple[Vent, ...]:
        """How much of each run with vented closures is free for air."""
        return vents_of(self.closures, self.panels, self.runs)

    @cached_property
    def _runs(self) -> dict[str, Run]:
        return {run.name: run for run in self.runs}

    @cached_property
    def _parts(self) -> dict[str, Part]:
        return {part.mark: part for part in self.parts}

    @cached_property
    def _cleats(self) -> dict[str, Cleat]:
        return {cleat.mark: cleat for cleat in self.cleats}

    @cached_property
    def _parts_of(self) -> dict[str, tuple[Part, ...]]:
        return _sorted_by(self.parts, lambda part: part.run.name)

    @cached_property
    def _screws_of(self) -> dict[str, tuple[Screw, ...]]:
        return _sorted_by(self.screws, lambda screw: screw.mark)

    @cached_property
    def _panels_of(self) -> dict[int, tuple[Panel, ...]]:
        return _sorted_by(self.panels, lambda panel: panel.face)

    @cached_property
    def _settings(self) -> dict[str, Setting]:
        return {setting.name: setting for setting in self.order}


def _sorted_by(things: Iterable[Thing], key: Callable[[Thing], Key]) -> dict[Key, tuple[Thing, ...]]:
    """Return things by what they belong to, each lot in its order."""
    found: dict[Key, list[Thing]] = {}
    for thing in things:
        found.setdefault(key(thing), []).append(thing)
    return {owner: tuple(own) for owner, own in found.items()}
