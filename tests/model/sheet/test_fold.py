"""Folding and unfolding are inverse, keep every area, and follow a bend worked out by hand."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from profiles import section_of
from zoo import NAMES, layout

from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.sheet.cut import path, plane_cut, square_cut
from trimwright.model.sheet.fold import facets
from trimwright.model.sheet.sheet import Cut, Sheet, Tab


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    section = section_of(draw(st.sampled_from(sorted(catalogue()))), draw(st.floats(0.05, 1.1)))
    length = draw(st.floats(20, 200))
    lean = [draw(st.floats(-0.8, 0.8)) for _ in range(4)]
    ends = [
        plane_cut(section, np.eye(4), np.array([at, 0, 0]), np.array([1.0, *pair]))
        for at, pair in ((0.0, lean[:2]), (length, lean[2:]))
    ]
    face = section.legs[len(section.legs) // 2].strip
    u0, u1 = ends[1][face]
    v0, v1 = section.v[face], section.v[face + 1]
    share = np.array([0.3, 0.7])
    hinge = np.stack([u0 + (u1 - u0) * share, v0 + (v1 - v0) * share], axis=1)
    along = (hinge[1] - hinge[0]) / np.linalg.norm(hinge[1] - hinge[0])
    away = np.array([along[1], -along[0]])
    away = away if away[0] > 0 else -away
    flap = np.array([hinge[1] + 0.4 * away, hinge[0] + 0.4 * away])
    tab = Tab(face, hinge, flap, draw(st.floats(-2.5, 2.5)))
    inside = {face: [tuple(hinge[0]), tuple(hinge[1])]}
    return Sheet(section, Cut(path(section, ends[0])), Cut(path(section, ends[1], inside), (tab,)))


def area(ring: np.ndarray) -> float:
    u, v = ring.T
    return abs(float((u * np.roll(v, -1) - v * np.roll(u, -1)).sum())) / 2


def area_in_space(ring: np.ndarray) -> float:
    return (
        float(np.linalg.norm(sum(np.cross(a, b) for a, b in zip(ring, np.roll(ring, -1, 0), strict=True))))
        / 2
    )


@given(sheets())
def test_a_fold_moves_a_facet_as_it_is(sheet: Sheet) -> None:
    """Two unit vectors square to each other: distances on the sheet are those in space."""
    for facet in facets(sheet):
        assert np.allclose(facet.fold[:, :2].T @ facet.fold[:, :2], np.eye(2), atol=1e-9)


@given(sheets())
def test_folding_keeps_every_facet_its_area(sheet: Sheet) -> None:
    for facet in facets(sheet):
        assert area_in_space(facet.to_space(facet.ring)) == pytest.approx(area(facet.ring), abs=1e-9)


@given(sheets())
def test_facets_make_up_the_flat_pattern(sheet: Sheet) -> None:
    assert sum(area(facet.ring) for facet in facets(sheet)) == pytest.approx(sheet.area, abs=1e-8)


@given(sheets())
def test_neighboring_facets_meet_on_their_bend_line(sheet: Sheet) -> None:
    strips = [facet for facet in facets(sheet) if not facet.tab]
    for before, after in itertools.pairwise(strips):
        v = sheet.section.v[after.strip]
        line = np.array([[0.0, v], [10.0, v]])
        assert np.allclose(before.to_space(line), after.to_space(line), atol=1e-9)


@given(sheets())
def test_a_tab_stays_on_its_fold_line_and_turns_by_its_angle(sheet: Sheet) -> None:
    tab = next(facet for facet in facets(sheet) if facet.tab)
    parent = facets(sheet)[tab.strip]
    hinge = sheet.tabs[0].hinge
    assert np.allclose(tab.to_space(hinge), parent.to_space(hinge), atol=1e-9)
    assert parent.normal @ tab.normal == pytest.approx(math.cos(sheet.tabs[0].angle), abs=1e-9)


def test_by_hand_a_right_angle_leaves_the_flat_by_its_bend_length() -> None:
    """Plain drip, T 0.024, R 1/32: setback R + T = 0.05525, bend 0.64 T + 1.57 R = 0.0644225.

    Top 3 in less one setback; the face turns by 90 degrees less the pitch's angle, here 0: level deck.
    """
    section = section_of("plain drip", 1e-9, thickness=0.024)
    assert section.v[1] == pytest.approx(3 - 0.05525, abs=1e-6)
    assert section.v[2] - section.v[1] == pytest.approx(0.0644225, abs=1e-5)


def test_a_square_cut_is_a_straight_line() -> None:
    section = section_of("hook eave", 0.4)
    cut = path(section, square_cut(section, 7.0))
    assert (cut[:, 0] == 7.0).all()
    assert cut[0, 1] == 0
    assert cut[-1, 1] == section.width


@pytest.mark.parametrize("name", NAMES)
def test_every_flat_pattern_of_the_zoo_is_one_simple_piece(name: str) -> None:
    for part in layout(name).parts:
        assert part.sheet.pattern.is_valid
        assert part.sheet.area > 0
