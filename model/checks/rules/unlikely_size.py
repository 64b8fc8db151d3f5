"""A size of the scene is far from what such a thing has.

**Finds** sizes that are read but can hardly be meant: outside of what houses, decks, panels, screws and trim usually
have. Where another unit would make an ordinary size of it, that is said.

**Fix** Look at the drawing again; write the unit beside the number. Where the size is right, accept the finding with
the reason, or set the limit.

**Source** Common practice, no source: the bands are the project's own, drawn wide.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...errors import Key
from ...message import Message, message
from ...scene.draft import Change
from ...units import is_whole
from ..facts import Facts
from ..record import Finding, Severity
from ..scene_place import as_meant, at_key, size

RULE = "unlikely-size"
USUAL: dict[tuple[str, ...], str] = {
    ("roof", "length"): "usual-length",
    ("roof", "outline"): "usual-length",
    ("roof", "faces"): "usual-length",
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

SELDOM = {"usual-wall": "common-wall", "usual-overhang": "common-overhang"}
"""By band, the narrower one outside of which a size is told as a note: houses have it, but few do."""

LIMITS = (*dict.fromkeys(USUAL.values()), *SELDOM.values())
SEVERITY: Severity = "warning"
WHY = message(
    "A number with the wrong unit or a slipped digit makes a whole roof of metal that fits nowhere."
)

SLIPS = (1 / 12, 12.0, 1 / 25.4, 25.4, 1 / 10, 10.0, 0.3048, 1 / 0.3048)
"""By how much a size is off when its unit is wrong, or its point slipped: feet, millimeters, a digit, meters."""

CORNERS = ("outline", "faces")
"""Forms of roofs that are given by their corners; how far these reach is at no key but theirs."""


def find(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each size out of its band."""
    limits = facts.layout.limits
    for key, inches in _sizes(facts):
        usual = next((limit for kind, limit in USUAL.items() if _is_like(key, kind)), None)
        if usual is None:
            continue
        if not _within(inches, limits.band(usual)):
            yield _found(facts, SEVERITY, key, inches, usual)
        elif usual in SELDOM and not (_within(inches, limits.band(SELDOM[usual])) or _is_board(inches)):
            yield _found(facts, "note", key, inches, SELDOM[usual])


def _found(facts: Facts, severity: Severity, key: Key, inches: float, limit: str) -> Finding:
    """Return the finding of one size, and what may have been meant."""
    scene = facts.layout.scene
    least, most = facts.layout.limits.band(limit)
    told = message(
        "{size} is read here, and {least} to {most} is usual",
        size=size(inches),
        least=size(least),
        most=size(most),
    )
    by_corners = key[-1] in CORNERS
    meant = None if by_corners else _meant(inches, least, most)
    ways = list(() if meant is None else as_meant(scene, key, meant))
    if key[0] in ("screws", "panels", "trim", "run"):
        ways.append((Change(key, None),))
    return at_key(
        facts,
        RULE,
        severity,
        key,
        told,
        _of_corners(inches, least, most) if by_corners else _remedy(inches, meant),
        measured=inches,
        limit=facts.limit(limit),
        proposals=ways,
    )


def _within(inches: float, band: tuple[float, float]) -> bool:
    return band[0] - 1e-6 <= inches <= band[1] + 1e-6


def _is_board(inches: float) -> bool:
    """Return whether a small size is nothing or the thickness of a board, which no whole inches are."""
    return inches < 2.5 and (inches == 0 or inches % 1 > 1e-6)


def _sizes(facts: Facts) -> Iterator[tuple[Key, float]]:
    """Yield every length that the scene says; of a roof that is given by corners, how far it reaches."""
    scene = facts.layout.scene
    yield from facts.lengths
    if scene.roof.form in CORNERS:
        yield ("roof", scene.roof.form), max(scene.roof.length, scene.roof.width)


def _is_like(key: Key, kind: tuple[str, ...]) -> bool:
    """Return whether ``key`` is one of a kind of keys."""
    return len(key) == len(kind) and all(one in ("*", part) for part, one in zip(key, kind, strict=True))


def _meant(inches: float, least: float, most: float) -> float | None:
    """Return what may have been meant: the first slip that makes an ordinary size of it, on a sixteenth, inches."""
    for slip in SLIPS:
        meant = inches * slip
        if least <= meant <= most and is_whole(meant * 16):
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


def _of_corners(inches: float, least: float, most: float) -> Message:
    """Return what to do about corners that lie too near together or too far apart: the unit is that of all of them."""
    meant = _meant(inches, least, most)
    if meant is None:
        return message(
            "Look at its corners again; if {size} from end to end is right, accept it with the reason.",
            size=size(inches),
        )
    return message(
        "Write the corners in the unit that makes {meant} of it if that is meant; if {size} from end to end is right, "
        "accept it with the reason.",
        meant=size(meant),
        size=size(inches),
    )
