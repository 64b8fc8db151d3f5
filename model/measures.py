"""Lengths and pitches as people write them, read into inches and radians; and what came, as an error quotes it."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from .message import Message, message
from .units import INCHES, Unit

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
    "millimeter": "mm",
    "millimeters": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "cm": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "m": "m",
    "meter": "m",
    "meters": "m",
    "metre": "m",
    "metres": "m",
}
_PLURALS = {
    "in": message("inches"),
    "ft": message("feet"),
    "mm": message("millimeters"),
    "cm": message("centimeters"),
    "m": message("meters"),
}
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
_RATIO = re.compile(rf"(?P<rise>{_MIXED})\s*(?:/|:|in|on)\s*(?P<run>{_DECIMAL})(?: pitch)?", re.ASCII)
_ANGLE = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>°|deg|degs|degree|degrees|%|percent)", re.ASCII)


class MeasureError(ValueError):
    """What came is no measure; its message says what is accepted."""

    def __init__(self, message: Message) -> None:
        """Keep ``message``."""
        super().__init__(message)
        self.message = message


def parse_length(value: object, unit: Unit = "in") -> float:
    """Return the length written as ``value``, in inches.

    Args:
        value: A text such as ``12' 6 3/8"``, ``6-3/8 in``, ``3810 mm``, ``318 cm``, ``3.2 m`` or ``2 ft``,
            or a bare number, as a number or as text.
        unit: What a bare number is in.

    Raises:
        MeasureError: It is no finite length; the message says what came and what is accepted.

    Example:
        >>> parse_length("12' 6 3/8\\"")
        150.375
    """
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise MeasureError(_no_length(value, unit))
    if not isinstance(value, str):
        if not abs(value) <= LARGEST:
            raise MeasureError(_no_length(value, unit))
        return float(Fraction(repr(value)) * INCHES[unit])
    match = _LENGTH.fullmatch(_plain(value))
    if match is None:
        raise MeasureError(_no_length(value, unit))
    try:
        if match["feet"]:
            rest = _number(match["rest"])
            if rest >= 12:
                raise MeasureError(_no_rest(value))
            inches = _number(match["feet"]) * 12 + rest
        else:
            inches = _number(match["number"]) * INCHES[_NAMES[match["unit"]] if match["unit"] else unit]
    except (KeyError, ZeroDivisionError):
        raise MeasureError(_no_length(value, unit)) from None
    return float(-inches if match["sign"] else inches)


def parse_pitch(value: object) -> float:
    """Return the slope written as ``value``, as an angle from level in radians.

    Args:
        value: ``6/12``, ``6:12``, ``6 in 12``, ``6 on 12``, ``26.57 deg``, ``26.57°`` or ``50 %``.

    Raises:
        MeasureError: It is no pitch, or a bare number, which could mean any of the three.

    Example:
        >>> round(math.degrees(parse_pitch("6/12")), 2)
        26.57
    """
    if isinstance(value, int | float) and not isinstance(value, bool):
        raise MeasureError(_bare_pitch(value))
    if not isinstance(value, str):
        raise MeasureError(_no_pitch(value))
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
        raise MeasureError(_bare_pitch(value))
    raise MeasureError(_no_pitch(value))


def shorten(value: object) -> str:
    """Return what came, as an error message quotes it: the way a scene writes it, on one line, not long."""
    if isinstance(value, bool):
        text = str(value).lower()
    elif isinstance(value, str):
        text = f'"{value}"' if value.isprintable() and '"' not in value else repr(value)
    elif isinstance(value, int) and abs(value) > LARGEST:
        power = math.log10(abs(value))
        text = f"{'-' if value < 0 else ''}{10 ** (power % 1):.3g}e{math.floor(power)}"
    else:
        text = str(value).replace("'", '"')
    return text if len(text) <= 48 else f"{text[:44]}..."


def printable(text: str) -> str:
    """Return a text for one line: what cannot be printed, as the name of a file may hold, is written as escapes."""
    if text.isprintable():
        return text
    return "".join(one if one.isprintable() else one.encode("unicode_escape").decode() for one in text)


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


def _no_length(value: object, unit: Unit) -> Message:
    """Return what refuses ``value`` as a length."""
    return message(
        "{came} is not a length; write 12' 6 3/8\", 6 3/8 in, 3810 mm, 3.2 m, 2 ft or a bare number ({unit})",
        came=bare(value),
        unit=_PLURALS[unit],
    )


def _no_rest(value: object) -> Message:
    """Return what refuses a foot or more of inches beside feet."""
    return message(
        "{came} has a foot or more of inches beside its feet; give less than 12 in there", came=bare(value)
    )


def _no_pitch(value: object) -> Message:
    """Return what refuses ``value`` as a pitch."""
    return message("{came} is not a pitch; write 6/12, 26.57 deg or 50 %", came=bare(value))


def _bare_pitch(value: object) -> Message:
    """Return what refuses a number that nobody knows the meaning of."""
    return message(
        "{came} alone could be inches in 12, degrees or percent; write 6/12, 26.57 deg or 50 %",
        came=bare(value),
    )
