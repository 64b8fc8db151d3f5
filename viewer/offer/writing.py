"""The pages of an offer as PDF, with a picture of each look."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path

from trimwright.model.message import message

from ..display.stage import stage_of
from ..drawings.ink.pdf import pdf_of
from ..render.picture import render
from ..words.progress import Progress, nobody
from .choice import Choice
from .pages import Sight, offer_pages

PICTURE = (1200, 760)
"""Width and height of a picture on the offer, pixels."""


def offer_pdf(choices: Sequence[Choice], folder: Path, day: str, progress: Progress = nobody) -> bytes:
    """Return the offer's pages as PDF.

    Args:
        choices: What is offered.
        folder: Where the shop's logo is.
        day: Of the offer, as ``2026-05-31``.
        progress: Told of each picture.

    Raises:
        OSError: A picture cannot be read or written.
    """
    shop = choices[0].layout.scene.shop
    with tempfile.TemporaryDirectory() as drafts:
        sights = []
        for number, choice in enumerate(choices, 1):
            progress(message("pictures"), number, len(choices))
            file = Path(drafts, f"look-{number}.png")
            render(stage_of(choice.layout, ()), "finish", file, PICTURE)
            sights.append(Sight(file, choice.name))
        pages = offer_pages(choices, sights, folder / shop.logo if shop.logo else None, day)
        return pdf_of(pages, pages[0].title)
