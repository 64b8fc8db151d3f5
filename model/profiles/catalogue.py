"""The catalogue of profiles: the project's own, and those that a scene brings along."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from ..errors import SceneError
from ..scene.schema import ProfileSpec
from ..trim_kinds import KINDS, EdgeKind


@cache
def catalogue() -> Mapping[str, ProfileSpec]:
    """Return the project's own profiles by name."""
    tables = tomllib.loads(files(__package__).joinpath("catalogue.toml").read_text(encoding="utf-8"))
    return MappingProxyType({name: ProfileSpec.model_validate(table) for name, table in tables.items()})


def profile_called(name: str, own: Mapping[str, ProfileSpec], kind: EdgeKind, place: str) -> ProfileSpec:
    """Return the profile called ``name`` for an edge of ``kind``; a scene's own wins over the catalogue's.

    Raises:
        SceneError: there is none, or it does not suit that kind of edge, or it lacks the legs that joints need.
    """
    known = {**catalogue(), **own}
    if name not in known:
        near = get_close_matches(name, known, n=1)
        hint = f"did you mean {near[0]!r}?" if near else f"there are: {', '.join(known)}"
        raise SceneError([f"{place}.profile: there is no profile {name!r}; {hint}"])
    profile = known[name]
    if kind not in profile.edges:
        fitting = ", ".join(repr(other) for other, spec in known.items() if kind in spec.edges)
        raise SceneError(
            [
                f"{place}.profile: {name!r} is for {' and '.join(profile.edges)} edges; for {kind} take {fitting}"
            ]
        )
    names = [leg.name for leg in profile.legs]
    missing = [leg for leg in KINDS[kind].legs if leg not in names]
    if missing:
        raise SceneError(
            [
                f"profile.{name}.legs: no leg is called {' or '.join(missing)}; corners of {kind} trim are cut by it"
            ]
        )
    return profile
