"""Findings about what a scene says, at a key of it rather than at a piece of metal."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..errors import Key, key_said
from ..limits.record import Limit
from ..message import Fine, Length, Message
from ..scene.draft import Change, Changes
from ..scene.schema import Scene
from ..units import is_whole
from .facts import Facts, at_place
from .record import Finding, Severity


def at_key(
    facts: Facts,
    rule: str,
    severity: Severity,
    key: Key,
    problem: Message,
    remedy: Message,
    *,
    measured: float | None = None,
    limit: Limit | None = None,
    proposals: Sequence[Changes] = (),
) -> Finding:
    """Return a finding at ``key`` of the scene, which is where it is accepted; its point is the highest of the roof.

    Args:
        facts: The layout.
        rule: Name of the rule, and of the limit unless that is given.
        severity: How much it matters.
        key: Where in the scene.
        problem: What was found: a sentence that begins in lower case, without the place and without a full stop.
        remedy: A sentence.
        measured: The number found.
        limit: What it was compared with.
        proposals: Changes of the scene that may remove it, the best first.
    """
    where = key_said(key)
    vertices = facts.layout.roof.vertices
    return Finding(
        rule,
        severity,
        where,
        at_place(where, problem),
        (),
        vertices[int(np.argmax(vertices[:, 2]))],
        measured,
        limit or facts.limit(rule),
        remedy,
        proposals=tuple(proposals),
    )


def size(inches: float) -> Length:
    """Return a length as it is best read: on the tape, or as decimals of an inch where it is too small for one."""
    return Length(inches) if inches >= 1 or is_whole(inches * 64) else Fine(inches)


def as_meant(scene: Scene, key: Key, inches: float) -> tuple[Changes, ...]:
    """Return the change that writes a length as it may be meant; none for one of a list, whose place may be another."""
    if any(isinstance(part, int) for part in key):
        return ()
    on_tape = is_whole(inches / scene.tape.mark)
    return ((Change(key, scene.tape.typed(inches) if on_tape else f"{inches:g} in"),),)
