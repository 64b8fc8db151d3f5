"""Units that lengths are written in, and the tape that a scene wants them on. Inches and radians inside."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Unit = Literal["in", "ft", "mm", "cm", "m"]
Style = Literal["feet", "mm"]

INCHES: dict[str, Fraction] = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "mm": Fraction(5, 127),
    "cm": Fraction(50, 127),
    "m": Fraction(5000, 127),
}
"""Inches in one of each unit, exactly: an inch is 25.4 mm by definition."""


def tape(inches: float, denominator: int = 16) -> str:
    """Return a length as a tape reads it: feet, inches and a fraction; a half goes up.

    Feet and a fraction have a 0 between them: ``7' 11/16"`` would be read as 7' 11".

    Args:
        inches: The length; a negative one is written as its opposite with a minus before it.
        denominator: The finest fraction: 2, 4, 8, 16, 32 or 64.

    Source:
        NAVEDTRA 14044, *Builder 3&2 Vol. 2*, ch. 2: decimals of an inch x 16, a half goes up, and a full
        twelve inches become the next foot.

    Example:
        >>> tape(150.375), tape(11.98)
        ('12\\' 6 3/8"', '1\\' 0"')
    """
    parts = _half_up(abs(inches) * denominator)
    feet, parts = divmod(parts, 12 * denominator)
    whole, parts = divmod(parts, denominator)
    fraction = Fraction(parts, denominator)
    words = [f"{feet}'"] if feet else []
    if whole or feet or not fraction:
        words.append(str(whole))
    if fraction:
        words.append(f"{fraction.numerator}/{fraction.denominator}")
    minus = "-" if inches < 0 and (feet or whole or fraction) else ""
    return minus + " ".join(words) + '"'


def millimeters(inches: float) -> str:
    """Return a length in whole millimeters; a half goes up, away from zero.

    Example:
        >>> millimeters(150)
        '3810 mm'
    """
    whole = _half_up(abs(inches) * 25.4)
    return f"{'-' if inches < 0 and whole else ''}{whole} mm"


@dataclass(frozen=True, slots=True)
class Tape:
    """The way a scene wants its lengths written; call it with inches.

    Attributes:
        style: Feet, inches and fractions, or millimeters.
        denominator: The finest fraction of an inch.
    """

    style: Style = "feet"
    denominator: int = 16

    def __call__(self, inches: float) -> str:
        """Return a length as this tape reads it."""
        return tape(inches, self.denominator) if self.style == "feet" else millimeters(inches)

    def fine(self, inches: float) -> str:
        """Return a length too small for a tape, such as a thickness or a gap: ``0.024"`` or ``0.61 mm``."""
        return f'{inches:.3f}"' if self.style == "feet" else f"{inches * 25.4:.2f} mm"

    def rough(self, inches: float) -> str:
        """Return a length that is bought by the foot or the meter, rounded up: ``161 ft`` or ``49 m``."""
        return f"{math.ceil(inches / 12)} ft" if self.style == "feet" else f"{math.ceil(inches * 0.0254)} m"

    def up(self, inches: float) -> float:
        """Return the next mark of the tape that is not below ``inches``."""
        return math.ceil(inches / self.mark - 1e-6) * self.mark

    def down(self, inches: float) -> float:
        """Return the last mark of the tape that is not above ``inches``."""
        return math.floor(inches / self.mark + 1e-6) * self.mark

    @property
    def mark(self) -> float:
        """From one mark of the tape to the next, inches."""
        return 1 / self.denominator if self.style == "feet" else 1 / 25.4

    def typed(self, inches: float) -> str:
        """Return a length on a mark as a person types it into a scene: ``7' 2 3/8 in``, ``7'`` or ``2194 mm``."""
        read = self(inches)
        return read.removesuffix(' 0"') if read.endswith("' 0\"") else read.replace('"', " in")

    def pitch(self, slope: float) -> str:
        """Return a slope, radians, as its rise in 12 or, beside millimeters, as its angle: ``6/12`` or ``26.57°``."""
        if self.style == "feet":
            return f"{round(12 * math.tan(slope), 2):g}/12"
        return f"{round(math.degrees(slope), 2):g}°"


def is_whole(number: float) -> bool:
    """Return whether a number is whole, but for rounding noise."""
    return abs(number - round(number)) < 1e-6


def _half_up(number: float) -> int:
    """Return the nearest whole number; a half goes up, also when rounding noise hides that it is one."""
    return math.floor(number + 0.5 + 1e-9)
