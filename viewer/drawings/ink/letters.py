"""Letters: how wide a line of text runs, where it is broken, and which signs the standard fonts can set."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from reportlab.pdfbase.pdfmetrics import stringWidth

REGULAR = "Helvetica"
BOLD = "Helvetica-Bold"

ASCENT = 0.75
"""How high the tallest letters stand over the base line, as a share of the size."""

DESCENT = 0.22
"""How far the deepest letters hang below the base line, as a share of the size."""

_PLAIN = {
    "\N{NO-BREAK SPACE}": " ",
    "→": "->",
    "←": "<-",
    "≤": "<=",
    "≥": ">=",
    "−": "-",
    "′": "'",
    "″": '"',
    "ł": "l",
    "Ł": "L",
    "đ": "d",
    "Đ": "D",
    "ı": "i",
}
"""Signs that the standard fonts lack, by what stands for them in any language."""


def plain(text: str) -> str:
    """Return ``text`` in the signs that the standard fonts have: accents go before whole letters do."""
    return "".join(_sign(letter) for letter in text)


@lru_cache(maxsize=4096)
def width_of(text: str, size: float, bold: bool = False) -> float:
    """Return how far a line of text runs.

    Args:
        text: The line.
        size: Of its letters, inches.
        bold: Set in bold.

    Returns:
        Inches.
    """
    return float(stringWidth(plain(text), BOLD if bold else REGULAR, 1000.0)) * size / 1000.0


@lru_cache(maxsize=4096)
def wrapped(text: str, size: float, room: float, bold: bool = False) -> tuple[str, ...]:
    """Break ``text`` between words into lines no wider than ``room``; a longer word is broken, too.

    Args:
        text: What it says; line breaks in it stay, and no line ends at a no-break space.
        size: Of its letters, inches.
        room: Width to fill, inches.
        bold: Set in bold.
    """
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in filter(None, paragraph.split(" ")):
            longer = f"{line} {word}".lstrip()
            if width_of(longer, size, bold) <= room:
                line = longer
                continue
            if line:
                lines.append(line)
            while len(word) > 1 and width_of(word, size, bold) > room:
                fits = next(
                    (n for n in range(len(word) - 1, 1, -1) if width_of(word[:n], size, bold) <= room), 1
                )
                lines.append(word[:fits])
                word = word[fits:]
            line = word
        lines.append(line)
    return tuple(lines)


def shortened(text: str, size: float, room: float, bold: bool = False) -> str:
    """Return ``text``, its end left out and marked so where it is wider than ``room`` inches."""
    if width_of(text, size, bold) <= room:
        return text
    for n in range(len(text) - 1, 0, -1):
        short = f"{text[:n].rstrip()}..."
        if width_of(short, size, bold) <= room:
            return short
    return ""


@lru_cache(maxsize=1024)
def _sign(letter: str) -> str:
    if letter in _PLAIN:
        return _PLAIN[letter]
    try:
        letter.encode("cp1252")
    except UnicodeEncodeError:
        base = unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode("ascii")
        return base or ("" if unicodedata.combining(letter) else "?")
    return letter if letter.isprintable() else " "
