"""The catalogue of profiles: the project's own, and those that a scene brings along."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from difflib import get_close_matches
from functools import cache
from types import MappingProxyType

from ..data_files import tables_beside
from ..edge_kinds import KINDS, EdgeKind
from ..errors import Key, Problem, SceneError
from ..message import Listed, Message, message
from ..scene.schema import ProfileSpec


@cache
def catalogue() -> Mapping[str, ProfileSpec]:
    """Return the project's own profiles by name."""
    tables = tables_beside(__file__, "catalogue.toml")
    return MappingProxyType({name: ProfileSpec.model_validate(table) for name, table in tables.items()})


def profile_called(name: str, own: Mapping[str, ProfileSpec], kind: EdgeKind, place: Key) -> ProfileSpec:
    """Return the profile called ``name`` for an edge of ``kind``; a scene's own wins over the catalogue's.

    ``place`` is the table of the scene that asks for it.

    Raises:
        SceneError: there is none, or it does not suit that kind of edge, or it lacks the legs that joints need.
    """
    known = {**catalogue(), **own}
    if name not in known:
        raise SceneError(Problem(no_profile(name, known), (*place, "profile")))
    profile = known[name]
    if kind not in profile.edges:
        fitting = tuple(f"'{other}'" for other, spec in known.items() if kind in spec.edges)
        told = message(
            "'{name}' is for {edges} edges; for {kind} take {fitting}",
            name=name,
            edges=Listed(profile.edges),
            kind=kind,
            fitting=Listed(fitting, "comma"),
        )
        raise SceneError(Problem(told, (*place, "profile")))
    names = [leg.name for leg in profile.legs]
    missing = tuple(leg for leg in KINDS[kind].legs if leg not in names)
    if missing:
        told = message(
            "no leg is called {missing}; corners of {kind} trim are cut by it",
            missing=Listed(missing, "or"),
            kind=kind,
        )
        raise SceneError(Problem(told, ("profile", name, "legs")))
    return profile


def no_profile(name: str, known: Collection[str]) -> Message:
    """Return that there is no profile called ``name``, and which is meant or to be had."""
    near = get_close_matches(name, list(known), n=1)
    if near:
        return message("there is no profile '{name}'; did you mean '{near}'?", name=name, near=near[0])
    return message(
        "there is no profile '{name}'; there are: {known}", name=name, known=Listed(tuple(known), "comma")
    )
