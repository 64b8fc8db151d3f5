"""Strategies for scenes: every form, profile and starting rule; tiny, huge, steep and nearly flat."""

import math
from typing import Any

from hypothesis import strategies as st

from trimwright.model.edge_kinds import KINDS
from trimwright.model.profiles.catalogue import catalogue

PROFILES = {
    kind: sorted(name for name, profile in catalogue().items() if kind in profile.edges) for kind in KINDS
}
METAL_KINDS = ("steel", "galvanized", "aluminum", "copper", "zinc", "stainless")


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths in inches: those that a tape reads, and any at all."""
    first, last = math.ceil(low * 16), math.floor(high * 16)
    sixteenths = st.integers(first, last).map(lambda n: n / 16) if first <= last else st.nothing()
    return st.one_of(sixteenths, st.floats(low, high))


def sizes() -> st.SearchStrategy[float]:
    """Sides of a building: mostly a house's, sometimes a hutch's or a hangar's."""
    return st.one_of(numbers(96, 720), numbers(12, 96), numbers(720, 3600))


def slopes() -> st.SearchStrategy[str]:
    """Pitches: mostly in 12, sometimes nearly flat or nearly upright."""
    return st.one_of(
        st.integers(1, 24).map(lambda rise: f"{rise}/12"),
        st.floats(0.25, 85).map(lambda degrees: f"{degrees:.4f} deg"),
    )


@st.composite
def roofs(draw: st.DrawFn) -> dict[str, Any]:
    form = draw(st.sampled_from(("gable", "hip", "shed")))
    roof: dict[str, Any] = {
        "form": form,
        "length": draw(sizes()),
        "width": draw(sizes()),
        "pitch": draw(slopes()),
    }
    if form == "hip" and draw(st.booleans()):
        roof["width"] = roof["length"]
    if form != "shed" and draw(st.booleans()):
        roof[{"gable": "far_pitch", "hip": "end_pitch"}[form]] = draw(slopes())
    overhangs = st.dictionaries(st.sampled_from(("eave", "rake", "high")), numbers(0, 36))
    roof |= draw(
        st.fixed_dictionaries(
            {},
            optional={
                "overhang": overhangs,
                "wall_height": numbers(72, 240),
                "deck": numbers(0.375, 2),
            },
        )
    )
    return roof


@st.composite
def trims(draw: st.DrawFn, kind: str, stock: float) -> dict[str, Any] | bool:
    if draw(st.integers(0, 9)) == 0:
        return False
    lap = draw(
        st.one_of(st.just(4.0), numbers(0.5, 24), st.just(stock - 0.25)).filter(lambda lap: lap < stock)
    )
    trim: dict[str, Any] = {"lap": min(lap, 24.0)}
    trim |= draw(
        st.fixed_dictionaries(
            {},
            optional={
                "profile": st.sampled_from(PROFILES[kind]),
                "start": st.sampled_from(("low", "high", "centered", "even", "shared")),
                "tab": numbers(0, 2),
                "fixed": st.booleans(),
                "sealed": st.booleans(),
            },
        )
    )
    if draw(st.integers(0, 5)) == 0:
        trim["pieces"] = draw(st.lists(numbers(trim["lap"] + 1, 240), min_size=1, max_size=4))
    return trim


@st.composite
def screws(draw: st.DrawFn) -> dict[str, Any]:
    ends = sorted(draw(st.tuples(numbers(0.25, 60), numbers(0.25, 60))))
    return draw(
        st.fixed_dictionaries(
            {},
            optional={
                "first": numbers(0.25, ends[1]),
                "ends": st.just(ends),
                "spacing": numbers(1, 120),
                "pilot": numbers(0.03125, 0.3),
            },
        )
    )


@st.composite
def panels(draw: st.DrawFn) -> dict[str, Any]:
    cover = draw(numbers(4, 60))
    return draw(
        st.fixed_dictionaries(
            {"cover": st.just(cover)},
            optional={
                "seam": numbers(0.25, 4),
                "offset": numbers(0, cover - 0.25),
            },
        )
    )


@st.composite
def scenes(draw: st.DrawFn) -> dict[str, Any]:
    """Scenes as the tables of their file; a few contradict themselves, which is to be said and no more."""
    stock = draw(st.one_of(numbers(72, 252), numbers(6, 48), numbers(252, 1200)))
    thickness = st.one_of(numbers(0.012, 0.05), numbers(0.005, 0.25))
    metal = draw(
        st.fixed_dictionaries(
            {"kind": st.sampled_from(METAL_KINDS), "stock": st.just([stock])},
            optional={
                "thickness": thickness,
                "radius": numbers(0, 0.1),
            },
        )
    )
    kinds = draw(st.sets(st.sampled_from(tuple(KINDS))))
    return {
        "title": "Any",
        "roof": draw(roofs()),
        "metal": metal,
        "trim": {kind: draw(trims(kind, stock)) for kind in sorted(kinds)},
        "screws": draw(screws()),
        "panels": draw(panels()),
        "rules": {"set": draw(st.sampled_from(("common practice", "high wind", "code minimum")))},
        "wind": draw(st.sampled_from(("left", "right", "front", "back"))),
    }
