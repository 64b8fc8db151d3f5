"""A scene dressed in one of its looks."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel

from ..metals import METALS
from .look import LookSpec
from .schema import Colors, MetalSpec, Scene, ScrewSpec

Model = TypeVar("Model", bound=BaseModel)

OF_THE_KIND = ("thickness", "color", "radius")
"""Keys of the metal that another kind of metal does not take over."""


def dressed(scene: Scene, look: LookSpec) -> Scene:
    """Return ``scene`` as ``look`` has it, with no looks of its own.

    Another kind of metal comes in its usual thickness and color, with the screws that suit it, unless the look says
    otherwise.

    Raises:
        ValidationError: The look has a key or a value that its table does not know.
    """
    metal = _metal(scene, look)
    same = (metal.kind, metal.color) == (scene.metal.kind, scene.metal.color)
    colors = (
        scene.colors.model_dump()
        if same
        else {"trim": metal.color, "panels": metal.color, "walls": scene.colors.walls}
    )
    return scene.model_copy(
        update={
            "metal": metal,
            "colors": Colors.model_validate({**colors, **look.colors}),
            "panels": _changed(scene.panels, look.panels, scene.unit),
            "screws": _screws(scene, metal),
            "look": (),
        }
    )


def _metal(scene: Scene, look: LookSpec) -> MetalSpec:
    """Return the look's metal: its own keys, and of the scene's those that still hold."""
    kind = look.metal.get("kind", scene.metal.kind)
    kept = scene.metal.model_dump(include=scene.metal.model_fields_set)
    if kind != scene.metal.kind:
        kept = {key: value for key, value in kept.items() if key not in OF_THE_KIND}
    own = MetalSpec.model_validate({"kind": kind, **look.metal}, context={"unit": scene.unit})
    given = own.model_dump(include={"kind", *look.metal})
    return MetalSpec.model_validate({**kept, **given}, context={"unit": "in"})


def _changed(spec: Model, keys: dict[str, Any], unit: str) -> Model:
    """Return a table with other values for some of its keys."""
    own = type(spec).model_validate({**keys}, context={"unit": unit})
    return spec.model_copy(update={key: getattr(own, key) for key in keys})


def _screws(scene: Scene, metal: MetalSpec) -> ScrewSpec:
    """Return the scene's screws, in the metal that suits the look's where they suited the scene's."""
    if scene.screws.kind in METALS[metal.kind].fasteners:
        return scene.screws
    return scene.screws.model_copy(update={"kind": METALS[metal.kind].fasteners[0]})
