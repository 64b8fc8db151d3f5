"""Lengths and pitches as people write them, and lengths as a tape reads them. Inches and radians inside."""

from __future__ import annotations

import math
import re
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

LONGEST_TEXT = 60
"""Characters; a longer text is no measurement."""

LARGEST = 1e12
"""A bare number beyond this, in any unit, is no measurement."""

_NAMES = {
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "in.": "in",
    "ft": "ft",
    "foot": "ft",
    "feet": "ft",
    "'": "ft",
    "ft.": "ft",
    "mm": "mm",
    "cm": "cm",
    "m": "m",
}
_PLURALS = {"in": "inches", "ft": "feet", "mm": "millimetres", "cm": "centimetres", "m": "metres"}
_MARKS = str.maketrans(
    {"′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "−": "-", "⁄": "/", "º": "°"}
)
_VULGAR = dict(zip("½¼¾⅛⅜⅝⅞⅓⅔", ("1/2", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8", "1/3", "2/3"), strict=True))

_DECIMAL = r"\d+\.?\d*|\.\d+"
_MIXED = rf"(?:\d+[ -]+\d+/\d+|{_DECIMAL})"
_NUMBER = rf"(?:\d+/\d+|{_MIXED})"
_LENGTH = re.compile(
    rf"(?P<sign>-?)\s*(?:(?P<feet>{_NUMBER})\s*(?:'|ft\.?|foot|feet)\s*-?\s*"
    rf"(?P<rest>{_NUMBER})\s*(?:\"|in\.?|inch|inches)?"
    rf"|(?P<number>{_NUMBER})\s*(?P<unit>[a-z]+\.?|'|\")?)",
    re.ASCII,
)
_RATIO = re.compile(rf"(?P<rise>{_MIXED})\s*(?:/|:|in)\s*(?P<run>{_DECIMAL})", re.ASCII)
_ANGLE = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>°|deg|degs|degree|degrees|%|percent)", re.ASCII)


def parse_length(value: object, unit: Unit = "in") -> float:
    """Return the length written as ``value``, in inches.

    Args:
        value: A text such as ``12' 6 3/8"``, ``6-3/8 in``, ``3810 mm``, ``318 cm``, ``3.2 m`` or ``2 ft``,
            or a bare number, as a number or as text.
        unit: What a bare number is in.

    Raises:
        ValueError: It is no finite length; the message says what came and what is accepted.

    Example:
        >>> parse_length("12' 6 3/8\\"")
        150.375
    """
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise ValueError(_no_length(value, unit))
    if not isinstance(value, str):
        if not abs(value) <= LARGEST:
            raise ValueError(_no_length(value, unit))
        return float(Fraction(repr(value)) * INCHES[unit])
    match = _LENGTH.fullmatch(_plain(value))
    if match is None:
        raise ValueError(_no_length(value, unit))
    try:
        if match["feet"]:
            inches = _number(match["feet"]) * 12 + _number(match["rest"])
        else:
            inches = _number(match["number"]) * INCHES[_NAMES[match["unit"]] if match["unit"] else unit]
    except (KeyError, ZeroDivisionError):
        raise ValueError(_no_length(value, unit)) from None
    return float(-inches if match["sign"] else inches)


def parse_pitch(value: object) -> float:
    """Return the slope written as ``value``, as an angle from level in radians.

    Args:
        value: ``6/12``, ``6:12``, ``6 in 12``, ``26.57 deg``, ``26.57°`` or ``50 %``.

    Raises:
        ValueError: It is no pitch, or a bare number, which could mean any of the three.

    Example:
        >>> round(math.degrees(parse_pitch("6/12")), 2)
        26.57
    """
    accepted = "write 6/12, 26.57 deg or 50 %"
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise ValueError(f"{bare(value)} alone could be inches in 12, degrees or percent; {accepted}")
    if not isinstance(value, str):
        raise ValueError(f"{bare(value)} is not a pitch; {accepted}")
    text = _plain(value)
    try:
        if match := _RATIO.fullmatch(text):
            return math.atan(_number(match["rise"]) / _number(match["run"]))
        if match := _ANGLE.fullmatch(text):
            number = _number(match["number"])
            return math.atan(number / 100) if match["unit"] in ("%", "percent") else math.radians(number)
    except ZeroDivisionError:
        pass
    if re.fullmatch(_MIXED, text, re.ASCII):
        raise ValueError(f"{bare(value)} alone could be inches in 12, degrees or percent; {accepted}")
    raise ValueError(f"{bare(value)} is not a pitch; {accepted}")


def tape(inches: float, denominator: int = 16) -> str:
    """Return a length as a tape reads it: feet, inches and a fraction; a half goes up.

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
    if whole or not fraction:
        words.append(str(whole))
    if fraction:
        words.append(f"{fraction.numerator}/{fraction.denominator}")
    minus = "-" if inches < 0 and (feet or whole or fraction) else ""
    return minus + " ".join(words) + '"'


def millimetres(inches: float) -> str:
    """Return a length in whole millimetres; a half goes up, away from zero.

    Example:
        >>> millimetres(150)
        '3810 mm'
    """
    whole = _half_up(abs(inches) * 25.4)
    return f"{'-' if inches < 0 and whole else ''}{whole} mm"


@dataclass(frozen=True, slots=True)
class Tape:
    """The way a scene wants its lengths written; call it with inches.

    Attributes:
        style: Feet, inches and fractions, or millimetres.
        denominator: The finest fraction of an inch.
    """

    style: Style = "feet"
    denominator: int = 16

    def __call__(self, inches: float) -> str:
        """Return a length as this tape reads it."""
        return tape(inches, self.denominator) if self.style == "feet" else millimetres(inches)

    def fine(self, inches: float) -> str:
        """Return a length too small for a tape, such as a thickness or a gap: ``0.024"`` or ``0.61 mm``."""
        return f'{inches:.3f}"' if self.style == "feet" else f"{inches * 25.4:.2f} mm"

    def rough(self, inches: float) -> str:
        """Return a length that is bought by the foot or the metre, rounded up: ``161 ft`` or ``49 m``."""
        return f"{math.ceil(inches / 12)} ft" if self.style == "feet" else f"{math.ceil(inches * 0.0254)} m"

    def pitch(self, slope: float) -> str:
        """Return a slope, radians, as its rise in 12 or, beside millimetres, as its angle: ``6/12`` or ``26.57°``."""
        if self.style == "feet":
            return f"{round(12 * math.tan(slope), 2):g}/12"
        return f"{round(math.degrees(slope), 2):g}°"


def shorten(value: object) -> str:
    """Return what came, as an error message quotes it: the way a scene writes it, on one line, not long."""
    if isinstance(value, bool):
        text = str(value).lower()
    elif isinstance(value, str):
        text = f'"{value}"' if value.isprintable() and '"' not in value else repr(value)
    elif isinstance(value, int) and abs(value) > LARGEST:
        text = "a huge number"
    else:
        text = str(value).replace("'", '"')
    return text if len(text) <= 48 else f"{text[:44]}..."


def bare(value: object) -> str:
    """Return what came without quotation marks where a reader can do without: ``12' 6 in``, ``-4``."""
    plain = isinstance(value, str) and value.isprintable() and value == value.strip() != ""
    return value if plain and isinstance(value, str) and len(value) <= 48 else shorten(value)


def _plain(text: str) -> str:
    """Return ``text`` in plain characters, lower case; too long a text becomes one that nothing matches."""
    if len(text) > LONGEST_TEXT:
        return "?"
    for sign, fraction in _VULGAR.items():
        text = text.replace(sign, f" {fraction}")
    return " ".join(text.translate(_MARKS).replace("''", '"').lower().split())


def _number(text: str) -> Fraction:
    """Return the number written as a decimal, a fraction or a whole number and a fraction."""
    return sum((Fraction(part) for part in re.split(r"[ -]+", text)), Fraction(0))


def _half_up(number: float) -> int:
    """Return the nearest whole number; a half goes up, also when rounding noise hides that it is one."""
    return math.floor(number + 0.5 + 1e-9)


def _no_length(value: object, unit: Unit) -> str:
    """Return the sentence that refuses ``value``."""
    return (
        f"{bare(value)} is not a length; write 12' 6 3/8\", 6 3/8 in, 3810 mm, 3.2 m, 2 ft "
        f"or a bare number ({_PLURALS[unit]})"
    )
