"""A price list to fill in: a row without a price for all that a roof takes."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from trimwright.model.scene.rows import REMARK

from .choice import Choice
from .price_list import COLUMNS

ABOUT = "Write the price of one unit into each row, and take out what you do not price: it is listed then."
"""What the list says of itself, in English as its columns are."""


def blank_list(choices: Iterable[Choice]) -> str:
    """Return a price list as CSV with an empty price for everything that one of ``choices`` has no price for."""
    rows = {
        (one.quantity.items[0], next(iter(one.quantity.measures))): None
        for choice in choices
        for one in choice.offer.unpriced
    }
    file = io.StringIO()
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerow([f"{REMARK} {ABOUT}"])
    writer.writerows([item, unit, "", ""] for item, unit in rows)
    return file.getvalue()
