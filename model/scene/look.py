"""Looks: other metals, colors and panels for the same roof, by name, so that a customer can choose among them."""

from __future__ import annotations

from typing import Any

from pydantic import Field

from .fields import Spec, Text


class LookSpec(Spec):
    """One look: what it has otherwise than the scene.

    Attributes:
        name: What it is called.
        metal: Keys of the scene's metal.
        colors: Keys of its colors.
        panels: Keys of its panels.
    """

    name: Text
    metal: dict[str, Any] = Field(default_factory=dict)
    colors: dict[str, Any] = Field(default_factory=dict)
    panels: dict[str, Any] = Field(default_factory=dict)
