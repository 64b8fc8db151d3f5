"""Valleys between unequal slopes: worked examples of private roof-framing mathematics pages (pub, titles as given).

*Irregular valley roof*, 12/12 and 8/12; *backed valley sections*, 12/12 and 19.83593 deg; *valley intercepts beam*,
10/12 and 3/12. All at square corners. Tolerance: half of the last printed digit.
"""

import math

import pytest
from valleys import cut_to_the_valley, from_seam, laid_out, steps_of, valley


def test_12_and_8_in_12() -> None:
    edge, steep, flat = valley(wing="8/12", main="12/12")
    assert math.degrees(edge.slope) == pytest.approx(29.01714, abs=5e-6)
    assert steep.plan == pytest.approx(33.69007, abs=5e-6)
    assert steep.foot == pytest.approx(43.31386, abs=5e-6)
    assert steep.seam == pytest.approx(46.68614, abs=5e-6)
    assert flat.plan == pytest.approx(56.30993, abs=5e-6)
    assert flat.foot == pytest.approx(60.98286, abs=5e-6)
    assert flat.seam == pytest.approx(29.01714, abs=5e-6)
    assert steep.backing == pytest.approx(36.03989, abs=5e-6)
    assert flat.backing == pytest.approx(17.92021, abs=5e-6)
    assert math.degrees(edge.dihedral) - 180 == pytest.approx(36.03989 + 17.92021, abs=1e-5)


def test_panels_beside_12_and_8_in_12_change_by_the_same_length_a_seam() -> None:
    _, steep, flat = valley(wing="8/12", main="12/12")
    assert steep.longer(16) == pytest.approx(15.08495, abs=1e-5)  # the page adds up rounded steps
    assert flat.longer(16) == pytest.approx(28.84441, abs=5e-6)


def test_sheets_of_panels_are_cut_so_beside_12_and_8_in_12() -> None:
    """The cut of each panel's sheet, and how much longer it is than the one beside it, 16 in from seam to seam."""
    layout = laid_out(wing="8/12", main="12/12", cover=16)
    for face, angle, longer in (("side 3", 46.68614, 15.08495), ("side 4", 29.01714, 28.84441)):
        panels = cut_to_the_valley(layout, face)
        assert len(panels) > 2
        assert [from_seam(panel) for panel in panels] == pytest.approx([angle] * len(panels), abs=5e-6)
        assert steps_of(panels) == pytest.approx([longer] * (len(panels) - 1), abs=1e-5)


def test_12_in_12_and_a_shed_of_19_83593_deg() -> None:
    edge, steep, flat = valley(wing="19.83593 deg", main="12/12", half_span=60)
    assert (steep.plan, flat.plan) == pytest.approx((19.83593, 70.16407), abs=1e-5)
    assert (steep.backing, flat.backing) == pytest.approx((41.69405, 6.61190), abs=1e-5)
    assert math.degrees(edge.dihedral) - 180 == pytest.approx(48.306, abs=5e-4)


def test_10_and_3_in_12() -> None:
    edge, _, flat = valley(wing="3/12", main="10/12", half_span=60)
    assert math.degrees(edge.slope) == pytest.approx(13.4663, abs=5e-5)
    assert flat.plan == pytest.approx(73.30076, abs=5e-6)
    assert flat.foot == pytest.approx(73.77275, abs=5e-6)
    assert flat.seam == pytest.approx(16.2273, abs=5e-5)
    panels = cut_to_the_valley(laid_out(wing="3/12", main="10/12", cover=12, half_span=90), "side 4")
    assert panels
    assert [from_seam(panel) for panel in panels] == pytest.approx([16.2273] * len(panels), abs=5e-5)
