"""Progress: who works for long says what begins."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from trimwright.model.message import Message

Progress: TypeAlias = Callable[[Message, int, int], None]
"""Told what begins, its number from 1, and of how many."""


def nobody(_what: Message, _number: int, _of: int) -> None:
    """Tell nobody."""
