"""The history of a text: what it was, is, and was before a change was taken back."""

from __future__ import annotations

from dataclasses import dataclass, replace

DEEPEST = 200
"""Changes that can be taken back."""


@dataclass(frozen=True, slots=True)
class History:
    """A text and its neighbors in time.

    Attributes:
        text: As it is.
        past: As it was, the latest last.
        future: As it was before changes were taken back, the next one last.
        touch: What the latest change was made with; a further change with the same replaces it.
    """

    text: str
    past: tuple[str, ...] = ()
    future: tuple[str, ...] = ()
    touch: str | None = None

    def changed(self, text: str, touch: str | None = None) -> History:
        """Return the history after ``text`` took the place of what there was."""
        if text == self.text:
            return self
        if touch is not None and touch == self.touch:
            return replace(self, text=text, future=())
        return History(text, (*self.past, self.text)[-DEEPEST:], (), touch)

    def undone(self) -> History:
        """Return the history with the latest change taken back; itself where there is none."""
        if not self.past:
            return self
        return History(self.past[-1], self.past[:-1], (*self.future, self.text))

    def redone(self) -> History:
        """Return the history with the change made again that was taken back last; itself where there is none."""
        if not self.future:
            return self
        return History(self.future[-1], (*self.past, self.text), self.future[:-1])
