"""Find the limits in force for a scene: its rule set, and what the scene itself overrides."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from types import MappingProxyType
from typing import Any

from ..data_files import tables_beside
from ..errors import Problem, SceneError
from ..message import Listed, Message, message
from ..scene.schema import LimitSpec, RulesSpec
from ..source import Source, source_of
from .record import Limit, Limits

Value = float | tuple[float, float]

BRAKE = "piece-over-brake"
"""The limit that a shop's own brake sets."""

BY_SCENE = Source(message("set by the scene"), "scene")
"""Where a limit comes from that a scene overrides."""


@dataclass(frozen=True, slots=True)
class RuleSet:
    """A named set of limits.

    Attributes:
        name: What a scene calls it.
        about: One sentence on whom it is for.
        limits: Every limit by name, those of the set that it inherits included.
        own: Names of the limits that it does not inherit.
    """

    name: str
    about: str
    limits: Mapping[str, Limit]
    own: frozenset[str]


@cache
def rule_sets() -> Mapping[str, RuleSet]:
    """Return all rule sets by name, common practice first."""
    tables = tables_beside(__file__, "sets.toml")
    sets: dict[str, RuleSet] = {}
    for name, table in tables.items():
        own = {rule: _limit(rule, entry) for rule, entry in table["limits"].items()}
        base = sets[table["inherits"]].limits if "inherits" in table else {}
        sets[name] = RuleSet(name, table["about"], MappingProxyType({**base, **own}), frozenset(own))
    return MappingProxyType(sets)


def limits_for(rules: RulesSpec, brake: float | None = None) -> Limits:
    """Return the limits of the scene's rule set, with its overrides and their reasons.

    Args:
        rules: The set and what is set otherwise.
        brake: The longest piece that the shop's brake forms, inches; the limit, where no other is set.

    An override has the scene for its source, and keeps the rule set's limit beside it, so that a reader sees both
    what was set and what it departs from.

    Raises:
        SceneError: An override names no limit, or gives a number for a band or the reverse.
    """
    chosen = rule_sets()[rules.set]
    limits = dict(chosen.limits)
    problems = []
    for name, override in rules.limits.items():
        refusal = _refusal(limits, name, override)
        if refusal:
            problems.append(Problem(refusal, ("rules", "limits", name)))
        else:
            value = override.inches if limits[name].unit == "in" else override.value
            limits[name] = Limit(name, value, limits[name].unit, BY_SCENE, override.reason, limits[name])
    if problems:
        raise SceneError(*problems)
    if brake is not None and BRAKE not in rules.limits:
        limits[BRAKE] = Limit(BRAKE, brake, "in", BY_SCENE, "shop.brake", limits[BRAKE])
    return Limits(chosen.name, MappingProxyType(limits))


def _limit(rule: str, entry: Mapping[str, Any]) -> Limit:
    """Return the limit that one line of the file describes."""
    value = entry["value"]
    number: Value = (float(value[0]), float(value[1])) if isinstance(value, list) else float(value)
    source = source_of(entry["source"], entry["trust"], entry.get("note"))
    return Limit(rule, number, entry["unit"], source)


def _refusal(limits: Mapping[str, Limit], name: str, override: LimitSpec) -> Message | None:
    """Return why ``override`` cannot stand for the limit called ``name``, or None when it can."""
    if name not in limits:
        near = get_close_matches(name, limits, n=1)
        if near:
            return message("there is no limit of this name; did you mean {near}?", near=near[0])
        known = Listed(tuple(limits), "comma")
        return message("there is no limit of this name; the limits are {known}", known=known)
    standing, value = limits[name].value, override.value
    if isinstance(standing, tuple) and not isinstance(value, tuple):
        band = f"[{standing[0]:g}, {standing[1]:g}]"
        return message("{number} is one number; give a band, such as {band}", number=f"{value:g}", band=band)
    if isinstance(value, tuple) and not isinstance(standing, tuple):
        band = f"[{value[0]:g}, {value[1]:g}]"
        return message(
            "{band} is a band; give one number, such as {number}", number=f"{standing:g}", band=band
        )
    return None
