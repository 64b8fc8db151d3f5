"""Thickness by gauge and by weight. Trust: pub2 for gauges (read in copies), pub for copper.

Copper: Copper Development Association handbook, table 1.1.3.
"""

import pytest

from trimwright.model.metals import METALS

PRINTED = {
    "steel": {"26 ga": 0.0179, "24 ga": 0.0239, "22 ga": 0.0299},
    "galvanized": {"26 ga": 0.0217, "24 ga": 0.0276, "22 ga": 0.0336},
    "aluminum": {"26 ga": 0.0159, "24 ga": 0.0201, "22 ga": 0.0253},
    "stainless": {"26 ga": 0.0187, "24 ga": 0.0250, "22 ga": 0.0312},
    "copper": {"16 oz": 0.0216, "20 oz": 0.0270, "24 oz": 0.0323},
}


@pytest.mark.parametrize("kind", PRINTED)
def test_thickness_by_label(kind: str) -> None:
    assert dict(METALS[kind].labels) == pytest.approx(PRINTED[kind], abs=0.00005)


def test_one_gauge_number_means_four_thicknesses() -> None:
    assert len({METALS[kind].labels["24 ga"] for kind in PRINTED if kind != "copper"}) == 4


@pytest.mark.parametrize(
    ("kind", "label", "psf"),
    [
        *(("steel", label, METALS["steel"].labels[label] * 41.82) for label in ("26 ga", "24 ga", "22 ga")),
        ("galvanized", "26 ga", 0.906),
        ("galvanized", "24 ga", 1.156),
        ("galvanized", "22 ga", 1.406),
    ],
)
def test_pounds_a_square_foot(kind: str, label: str, psf: float) -> None:
    """41.82 lb a square foot for each inch of steel; zinc on both sides adds 0.156 lb and 0.0037 in (pub2)."""
    metal = METALS[kind]
    assert metal.labels[label] * metal.density * 144 == pytest.approx(psf, rel=0.003)
