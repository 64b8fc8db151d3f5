"""The catalogues of panel profiles and of closures: the project's own, and those that a scene brings along."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from ..data_files import tables_beside
from ..errors import Key, Problem, SceneError
from ..message import Listed, message
from ..scene.panels import ClosureSpec, PanelProfileSpec


@cache
def panel_catalogue() -> Mapping[str, PanelProfileSpec]:
    """Return the project's own panel profiles by name."""
    tables = tables_beside(__file__, "catalogue.toml")
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


@cache
def closure_catalogue() -> Mapping[str, ClosureSpec]:
    """Return the project's own kinds of closure by name."""
    tables = tables_beside(__file__, "closures.toml")
    return MappingProxyType({name: ClosureSpec.model_validate(table) for name, table in tables.items()})


def closure_called(name: str, own: Mapping[str, ClosureSpec], key: Key) -> ClosureSpec:
    """Return the kind of closure called ``name``; a scene's own wins over the catalogue's.

    Args:
        name: What it is called.
        own: The scene's own.
        key: Where the scene asks for it.

    Raises:
        SceneError: there is none.
    """
    known = {**closure_catalogue(), **own}
    if name not in known:
        told = message(
            "there is no closure '{name}'; there are: {known}", name=name, known=Listed(tuple(known), "comma")
        )
        raise SceneError(Problem(told, key))
    return known[name]
