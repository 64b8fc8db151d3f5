"""Sources: where a number comes from, and how far that can be trusted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from .message import Message, message

Trust: TypeAlias = Literal["pub", "pub2", "practice", "memory", "scene"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a number comes from.

    Attributes:
        title: Title, edition and section of a publication, as it stands in docs/sources.md; a message where
            nothing is published.
        trust: ``pub`` read in the published source, ``pub2`` read in another page's copy of it, ``practice``
            common practice of the trade or the project's own, from ``memory``, or set by the ``scene`` itself.
        note: What it says there, or why the number is what it is; None where the title says enough.
    """

    title: str | Message
    trust: Trust
    note: Message | None = None

    @property
    def whole(self) -> Message:
        """The title, and what it says there."""
        if self.note is None:
            return message("{source}", source=self.title)
        return message("{source}: {note}", source=self.title, note=self.note)


def source_of(source: str, trust: str, note: str | None = None) -> Source:
    """Return the source that a data file tells of; what nobody has published is told in words, not by a title."""
    published = trust in ("pub", "pub2")
    return Source(
        source if published else Message(source),
        trust,  # type: ignore[arg-type]
        Message(note) if note else None,
    )
