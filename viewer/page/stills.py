"""A few pictures for browsers that cannot draw in three dimensions."""

from __future__ import annotations

import io

from ..display.stage import Stage

SIZE = (1000, 625)
"""Width and height, pixels."""

QUALITY = 72
"""Of the JPEG."""

NAMES = ("street", "bare", "bare back")
"""Views that a person without the view itself needs most."""


def stills_of(stage: Stage) -> dict[str, bytes]:
    """Return JPEG pictures of the roof by their titles.

    Raises:
        PictureError: this machine cannot draw.
    """
    from ..render.picture import drawn

    stills = {}
    for view in (stage.viewpoints[name] for name in NAMES):
        file = io.BytesIO()
        drawn(stage, view, SIZE).convert("RGB").save(file, "JPEG", quality=QUALITY, optimize=True)
        stills[view.title] = file.getvalue()
    return stills
