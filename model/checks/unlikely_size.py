"""A size of the scene is far from what such a thing has.

**Finds** sizes that are read but can hardly be meant: outside of what houses, decks, panels, screws and trim usually
have. Where another unit would make an ordinary size of it, that is said.

**Fix** Look at the drawing again; write the unit beside the number. Where the size is right, accept the finding with
the reason, or set the limit.

**Source** Common practice, no source: the bands are the project's own, drawn wide.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..errors import Key
from ..message import Message, message
from ..scene.lengths import lengths_in
from .facts import Facts
from .record import Finding, Severity
from .scene_place import as_meant, at_key, size

RULE = "unlikely-size"
USUAL: dict[tuple[str, ...], str] = {
    ("roof", "length"): "usual-length",
    ("roof", "width"): "usual-width",
    ("roof", "wall_height"): "usual-wall",
    ("roof", "far_wall_height"): "usual-wall",
    ("roof", "overhang", "*"): "usual-overhang",
    ("roof", "sides", "*", "overhang"): "usual-overhang",
    ("roof", "deck"): "usual-deck",
    ("metal", "thickness"): "usual-thickness",
    ("metal", "stock", "*"): "usual-stock",
    ("buy", "stock", "*", "length"): "usual-stock",
    ("trim", "*", "tab"): "usual-tab",
    ("run", "*", "tab"): "usual-tab",
    ("trim", "*", "face"): "usual-leg",
    ("run", "*", "face"): "usual-leg",
    ("profile", "*", "legs", "*", "width"): "usual-leg",
    ("screws", "spacing"): "usual-spacing",
    ("screws", "head"): "usual-head",
    ("panels", "cover"): "usual-cover",
    ("panels", "seam"): "usual-seam",
}
"""By key, the band that the size there is compared with; ``*`` stands for any key or number."""

LIMITS = tuple(dict.fromkeys(USUAL.values()))
SEVERITY: Severity = "warning"
WHY = message(
    "A number with the wrong unit or a slipped digit makes a whole roof of metal that fits nowhere."
)

SLIPS = (1 / 12, 12.0, 1 / 25.4, 25.4, 1 / 10, 10.0)
"""By how much a size is off when its unit is the wrong one, or its point slipped: feet, millimeters, a digit."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each size out of its band."""
    for key, inches in _sizes(facts):
        limit = next((limit for kind, limit in USUAL.items() if _is_like(key, kind)), None)
        if limit is None:
            continue
        least, most = facts.layout.limits.band(limit)
        if not least - 1e-6 <= inches <= most + 1e-6:
            told = message(
                "{size} is read here, and {least} to {most} is usual",
                size=size(inches),
                least=size(least),
                most=size(most),
            )
            meant = _meant(inches, least, most)
            yield at_key(
                facts,
                RULE,
                SEVERITY,
                key,
                told,
                _remedy(inches, meant),
                measured=inches,
                limit=facts.limit(limit),
                proposals=() if meant is None else as_meant(facts.layout.scene, key, meant),
            )


def _sizes(facts: Facts) -> Iterator[tuple[Key, float]]:
    """Yield every length of the scene; of a roof that is given by corners, how far it reaches."""
    scene = facts.layout.scene
    yield from lengths_in(scene)
    if scene.roof.form in ("outline", "faces"):
        yield ("roof", "length"), max(scene.roof.length, scene.roof.width)


def _is_like(key: Key, kind: tuple[str, ...]) -> bool:
    """Return whether ``key`` is one of a kind of keys."""
    return len(key) == len(kind) and all(one in ("*", part) for part, one in zip(key, kind, strict=True))


def _meant(inches: float, least: float, most: float) -> float | None:
    """Return what may have been meant: the first slip that makes an ordinary size of it, on a sixteenth, inches."""
    for slip in SLIPS:
        meant = inches * slip
        if least <= meant <= most and abs(meant * 16 - round(meant * 16)) < 1e-6:
            return meant
    return None


def _remedy(inches: float, meant: float | None) -> Message:
    if meant is None:
        return message("Measure again; if {size} is right, accept it with the reason.", size=size(inches))
    return message(
        "Write {meant} if that is meant; if {size} is right, accept it with the reason.",
        meant=size(meant),
        size=size(inches),
    )
