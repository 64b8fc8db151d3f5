"""Lips: what the turned ends of panels hook at a run of trim."""

from __future__ import annotations

from ..runs import Run
from ..scene.schema import Scene
from .cleats import cleat_section, is_cleated
from .flat import Lip
from .valley_cleats import has_valley_cleats, valley_lip


def lip_of(run: Run, scene: Scene) -> Lip | None:
    """Return what panels hook at a run: its trim's own lip, or that of the cleats on it; None where there is none."""
    if has_valley_cleats(run):
        return valley_lip(run, scene)
    return (cleat_section(run, scene) if is_cleated(run) else run.section).lip
