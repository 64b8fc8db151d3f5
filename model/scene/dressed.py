"""A scene dressed in one of its looks."""

from __future__ import annotations

from ..metals import METALS
from .colors import chart_of
from .fields import Spec
from .look import LookSpec
from .schema import Colors, MetalSpec, PanelSpec, Scene, ScrewSpec

OF_THE_KIND = ("thickness", "color", "radius")
"""Keys of the metal that another kind of metal does not take over."""


class _Outfit(Spec):
    """The tables that a look has, each whole."""

    metal: MetalSpec
    colors: Colors
    panels: PanelSpec


def dressed(scene: Scene, look: LookSpec) -> Scene:
    """Return ``scene`` as ``look`` has it, with no looks of its own.

    Another kind of metal comes in its usual thickness and color, with the screws that suit it, unless the look says
    otherwise.

    Raises:
        ValidationError: The look has a key or a value that its table does not know.
    """
    kind = look.metal.get("kind", scene.metal.kind)
    worn = scene.colors.model_dump(exclude=None if kind == scene.metal.kind else {"coat"})
    said = {"metal": {"kind": kind, **look.metal}, "colors": {**worn, **look.colors}}
    context = {"unit": scene.unit, "chart": chart_of(scene.shop.model_dump(mode="json"))}
    own = _Outfit.model_validate({**said, "panels": look.panels}, context=context)
    metal = _metal(scene, own.metal, {"kind", *look.metal})
    colors = own.colors
    if (metal.kind, metal.color) != (scene.metal.kind, scene.metal.color):
        unsaid = {"trim", "panels"} - look.colors.keys()
        colors = colors.model_copy(update=dict.fromkeys(unsaid, metal.color))
    panels = {key: getattr(own.panels, key) for key in look.panels}
    changes = {"metal": metal, "colors": colors, "panels": scene.panels.model_copy(update=panels)}
    return scene.model_copy(update={**changes, "screws": _screws(scene, metal), "look": ()})


def _metal(scene: Scene, own: MetalSpec, said: set[str]) -> MetalSpec:
    """Return the look's metal: the keys that it says, and of the scene's those that still hold."""
    kept = scene.metal.model_dump(include=scene.metal.model_fields_set)
    if own.kind != scene.metal.kind:
        kept = {key: value for key, value in kept.items() if key not in OF_THE_KIND}
    return MetalSpec.model_validate({**kept, **own.model_dump(include=said)}, context={"unit": "in"})


def _screws(scene: Scene, metal: MetalSpec) -> ScrewSpec:
    """Return the scene's screws, in a metal that suits the look's."""
    if scene.screws.kind in METALS[metal.kind].fasteners:
        return scene.screws
    return scene.screws.model_copy(update={"kind": METALS[metal.kind].fasteners[0]})
