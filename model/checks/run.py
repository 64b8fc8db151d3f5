"""Ask every rule, and let the scene switch rules off and accept findings, with its reasons."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from difflib import get_close_matches
from typing import Protocol

from ..errors import Key, Problem, SceneError
from ..layout import Layout
from ..message import Listed, Message, message
from ..scene.schema import AcceptSpec, RulesSpec
from .facts import Facts, facts_of
from .groups import grouped
from .record import Finding, Severity
from .rules import (
    clip_travel,
    closure_gap,
    closure_pins_panel,
    corner_without_joint,
    dead_valley,
    decimal_feet,
    drains_to_wall,
    drips_apart,
    edge_without_trim,
    end_screw,
    expansion_joint,
    fastener_metal,
    flat_pitch,
    flat_valley,
    gap_in_run,
    hand_without_side,
    hook_too_short,
    joint_in_sight,
    joint_under_drip,
    kick_inward,
    lap_faces_upslope,
    lap_faces_wind,
    lap_gap,
    lap_head,
    lap_in_corner,
    lap_too_long,
    lap_too_short,
    laps_in_one_place,
    length_in_doubt,
    loose_edge,
    low_slope,
    miter_gap,
    mixed_units,
    narrow_flange,
    narrow_panel,
    narrow_valley,
    no_lip,
    no_room_to_move,
    panel_end_open,
    panel_too_long,
    panel_too_wide,
    panel_unhooked,
    panels_collide,
    piece_cut_back,
    piece_longer_than_stock,
    piece_over_brake,
    pieces_collide,
    profile_unused,
    screw_first,
    screw_in_fold,
    screw_in_lap,
    screw_in_tab,
    screw_in_wrong_leg,
    screw_rows,
    screw_spacing,
    screw_without_hold,
    screws_crowded,
    screws_per_piece,
    seam_too_close,
    short_end_piece,
    short_face,
    short_piece_low,
    sides_swapped,
    steep_pitch,
    stock_for_nothing,
    tab_too_small,
    tape_in_doubt,
    thin_metal,
    too_heavy,
    trim_without_edge,
    unlikely_size,
    valley_lap_too_short,
    valley_without_drip,
    valley_without_rib,
    vent_on_low_slope,
    wide_pilot,
    wrong_hand,
)
from .terms import acceptance_of


class Rule(Protocol):
    """What the module of a rule offers; its docstring is the rule's page."""

    @property
    def RULE(self) -> str:
        """Its name: what it finds."""

    @property
    def LIMITS(self) -> tuple[str, ...]:
        """Names of the limits that it compares with."""

    @property
    def SEVERITY(self) -> Severity:
        """How much its findings matter."""

    @property
    def WHY(self) -> Message:
        """Why they matter: one sentence that is read beside each of them."""

    def find(self, facts: Facts) -> Iterator[Finding]:
        """Yield the findings of this rule."""


RULES: tuple[Rule, ...] = (
    short_end_piece,
    short_piece_low,
    piece_longer_than_stock,
    piece_cut_back,
    piece_over_brake,
    too_heavy,
    gap_in_run,
    edge_without_trim,
    wrong_hand,
    screw_first,
    screw_spacing,
    end_screw,
    screws_crowded,
    screws_per_piece,
    screw_rows,
    screw_in_lap,
    screw_in_fold,
    screw_in_tab,
    screw_in_wrong_leg,
    loose_edge,
    fastener_metal,
    lap_too_short,
    lap_too_long,
    lap_in_corner,
    laps_in_one_place,
    joint_in_sight,
    joint_under_drip,
    lap_faces_upslope,
    lap_faces_wind,
    lap_gap,
    lap_head,
    drips_apart,
    tab_too_small,
    valley_lap_too_short,
    flat_valley,
    valley_without_rib,
    narrow_valley,
    valley_without_drip,
    dead_valley,
    drains_to_wall,
    corner_without_joint,
    miter_gap,
    pieces_collide,
    hook_too_short,
    narrow_flange,
    short_face,
    thin_metal,
    low_slope,
    no_room_to_move,
    expansion_joint,
    seam_too_close,
    narrow_panel,
    panel_too_wide,
    panel_too_long,
    panel_unhooked,
    panels_collide,
    panel_end_open,
    closure_gap,
    screw_without_hold,
    closure_pins_panel,
    vent_on_low_slope,
    clip_travel,
    kick_inward,
    no_lip,
    unlikely_size,
    mixed_units,
    decimal_feet,
    steep_pitch,
    flat_pitch,
    sides_swapped,
    wide_pilot,
    trim_without_edge,
    hand_without_side,
    stock_for_nothing,
    profile_unused,
    tape_in_doubt,
    length_in_doubt,
)
"""Every rule, in the order of the docs: pieces, screws, laps, valleys and corners, metal and slope, panels, what can
hardly be meant, what was taped."""

_WHY = {rule.RULE: rule.WHY for rule in RULES}


def check(layout: Layout) -> tuple[Finding, ...]:
    """Return everything that the rules find, the worst first, alike findings together.

    What follows from another finding stands under its cause; what the scene accepts comes last, as notes.

    Raises:
        SceneError: The scene switches off or accepts a rule that does not exist, or accepts an error everywhere.
    """
    asked = layout.scene.rules
    _refuse(asked)
    facts = facts_of(layout)
    findings = [
        _accepted(finding, asked.accept)
        for rule in RULES
        if rule.RULE not in asked.off
        for finding in rule.find(facts)
    ]
    return grouped(findings, {run.name: run.trim for run in layout.runs})


def why(finding: Finding) -> Message:
    """Return why a finding matters: what its rule says of all that it finds."""
    return _WHY[finding.rule]


def _accepted(finding: Finding, accepts: tuple[AcceptSpec, ...]) -> Finding:
    """Return ``finding`` with the scene's reason when one of ``accepts`` covers it, else as it is."""
    accept = acceptance_of(finding, accepts)
    return replace(finding, severity="note", accepted=accept.reason) if accept else finding


def _refuse(asked: RulesSpec) -> None:
    """Refuse names of rules that do not exist, and errors that are accepted wherever they may be."""
    places: list[tuple[Key, str]] = [(("rules", "off", name), name) for name in asked.off]
    places += [(("rules", "accept", i, "rule"), accept.rule) for i, accept in enumerate(asked.accept)]
    names = [rule.RULE for rule in RULES]
    problems = [Problem(_no_rule(name, names), key) for key, name in places if name not in names]
    errors = {rule.RULE for rule in RULES if rule.SEVERITY == "error"}
    problems += [
        Problem(
            message(
                "where is missing: {rule} is an error, which is accepted in one place only; "
                "give the mark of a piece, the name of a run, or what the finding begins with",
                rule=accept.rule,
            ),
            ("rules", "accept", i),
        )
        for i, accept in enumerate(asked.accept)
        if accept.where is None and accept.rule in errors
    ]
    if problems:
        raise SceneError(*problems)


def _no_rule(name: str, names: list[str]) -> Message:
    """Return that no rule is called ``name``, and which is meant or to be had."""
    near = get_close_matches(name, names, n=1)
    if near:
        return message("'{name}' is no rule; did you mean {near}?", name=name, near=near[0])
    return message(
        "'{name}' is no rule; the rules are {names}", name=name, names=Listed(tuple(names), "comma")
    )
