"""The catalogue of panel profiles: the project's own, and those that a scene brings along."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from ..errors import Problem, SceneError
from ..message import Listed, message
from ..scene.panels import PanelProfileSpec


@cache
def panel_catalogue() -> Mapping[str, PanelProfileSpec]:
    """Return the project's own panel profiles by name."""
    tables = tomllib.loads(files(__package__).joinpath("catalogue.toml").read_text(encoding="utf-8"))
    return MappingProxyType({name: PanelProfileSpec.model_validate(table) for name, table in tables.items()})


def panel_profile_called(name: str, own: Mapping[str, PanelProfileSpec]) -> PanelProfileSpec:
    """Return the panel profile called ``name``; a scene's own wins over the catalogue's.

    Raises:
        SceneError: there is none.
    """
    known = {**panel_catalogue(), **own}
    if name not in known:
        told = message(
            "there is no panel profile '{name}'; there are: {known}",
            name=name,
            known=Listed(tuple(known), "comma"),
        )
        raise SceneError(Problem(told, ("panels", "profile")))
    return known[name]
