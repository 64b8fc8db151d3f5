"""Pins: findings on a drawing, by the number that they have in the list of findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trimwright.model.checks.record import Finding, Severity
from trimwright.model.layout import Layout
from trimwright.model.runs import Run

from ..ink.drawing import Area, Item, Point, Stroke, Words
from ..ink.letters import width_of
from ..ink.shapes import circle
from ..ink.style import INK, SMALL

FILLS: dict[Severity, tuple[str, str]] = {
    "error": ("#9c1421", "#ffffff"),
    "warning": ("#ffd479", "#111111"),
    "note": ("#ffffff", "#111111"),
}
"""Disc and number: dark, gray and white without color."""

HEIGHT = 0.17
"""Of a pin, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class FindingPin:
    """A finding with its number.

    Attributes:
        number: Its place in the list of findings, from 1.
        finding: What was found.
    """

    number: int
    finding: Finding


def pins_of(findings: Sequence[Finding]) -> tuple[FindingPin, ...]:
    """Return a pin for each finding, in their order."""
    return tuple(FindingPin(number, finding) for number, finding in enumerate(findings, 1))


def pins_on(run: Run, pins: Sequence[FindingPin], layout: Layout) -> tuple[FindingPin, ...]:
    """Return the pins that concern ``run`` or one of its pieces."""
    marks = {part.mark for part in layout.parts_of(run.name)}
    return tuple(
        pin
        for pin in pins
        if pin.finding.where in (run.name, run.code) or marks.intersection(pin.finding.pieces)
    )


def along(run: Run, pin: FindingPin) -> float:
    """Return the run distance of a pin's point, kept on the run, inches."""
    u = (pin.finding.point - run.edge.start) @ run.edge.direction
    return float(np.clip(u, 0.0, run.length))


def pin_width(text: str) -> float:
    """Return how wide a pin is that says ``text``, inches."""
    return max(HEIGHT, width_of(text, SMALL, bold=True) + 0.1)


def draw_pin(text: str, center: Point, severity: Severity) -> list[Item]:
    """Return a pin: a dark or light disc, longer where it names several findings, with its number."""
    x, y = center
    fill, number = FILLS[severity]
    half, r = pin_width(text) / 2, HEIGHT / 2
    right = circle((x + half - r, y), r)
    left = circle((x - half + r, y), r)
    ring = (*right[:7], *left[6:19], *right[18:])
    return [
        Area((ring,), fill, "pin"),
        Stroke(ring, 0.01, INK, closed=True, name="pin"),
        Words(text, (x, y - SMALL * 0.36), SMALL, "middle", bold=True, color=number, name="pin"),
    ]


def numbers(pins: Sequence[FindingPin]) -> str:
    """Return the numbers of pins that share a place: ``3``, ``3, 5``, ``3-7``."""
    runs: list[list[int]] = []
    for number in sorted(pin.number for pin in pins):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [
        f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(str(number) for number in run) for run in runs
    ]
    return ", ".join(parts)


def worst(pins: Sequence[FindingPin]) -> Severity:
    """Return the severity that matters most among ``pins``."""
    order: tuple[Severity, ...] = ("error", "warning", "note")
    return min((pin.finding.severity for pin in pins), key=order.index)
