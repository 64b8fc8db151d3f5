"""A sheet that records what would be written on it: the double that labels are tested with."""

from dataclasses import dataclass, field

from trimwright.viewer.display.placing import Box


@dataclass
class Recorder:
    """Takes what a sheet takes and keeps its texts and boxes."""

    texts: list[str] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    lines: list[tuple[tuple[float, float], ...]] = field(default_factory=list)
    dots: list[tuple[float, float]] = field(default_factory=list)

    def measure(self, text: str, size: float, bold: bool = False) -> tuple[float, float]:
        rows = text.split("\n")
        return max(map(len, rows)) * size * (0.66 if bold else 0.58), len(rows) * size * 1.25

    def text(self, place, text, size, bold=False, color=None, anchor="la") -> None:  # type: ignore[no-untyped-def]
        self.texts.append(text)

    def box(self, left, top, right, bottom, *rest, **more) -> None:  # type: ignore[no-untyped-def]
        self.boxes.append(Box(left, top, right, bottom))

    def line(self, points, *rest, **more) -> None:  # type: ignore[no-untyped-def]
        self.lines.append(tuple(points))

    def dot(self, place, *rest, **more) -> None:  # type: ignore[no-untyped-def]
        self.dots.append(place)

    def shape(self, points, *rest, **more) -> None:  # type: ignore[no-untyped-def]
        self.lines.append(tuple(points))

    def ring(self, place, *rest, **more) -> None:  # type: ignore[no-untyped-def]
        self.dots.append(place)
