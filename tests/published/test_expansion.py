"""Growth with heat. Sources beside each check."""

from dataclasses import replace

import pytest

from trimwright.model.metals import METALS


def test_forty_feet_of_steel_over_160_degrees() -> None:
    """Article after *The NRCA Roofing Manual* (2016): 0.51 in. Trust: pub."""
    assert METALS["steel"].growth(40 * 12, 160) == pytest.approx(0.51, abs=0.005)


def test_thirty_meters_over_60_kelvin() -> None:
    """NZ *Metal Roof and Wall Cladding Code of Practice*: 12 x 60 x 30 / 1000 = 21.6 mm. Trust: pub."""
    steel = replace(METALS["steel"], expansion=12e-6 / 1.8)
    grown = steel.growth(30_000 / 25.4, 60 * 1.8) * 25.4
    assert grown == pytest.approx(21.6, abs=0.05)
    assert grown / 2 == pytest.approx(10.8, abs=0.05), "half at each end when fixed in the middle"


@pytest.mark.parametrize(
    ("kind", "printed"),
    [("steel", 6.7e-6), ("copper", 9.8e-6), ("stainless", 9.6e-6), ("aluminum", 12.9e-6), ("zinc", 12.2e-6)],
)
def test_growth_of_each_metal(kind: str, printed: float) -> None:
    """Copper: Copper Development Association handbook, table 1.1A, pub; the last three are from memory."""
    assert METALS[kind].expansion == pytest.approx(printed, abs=0.05e-6)
    assert METALS[kind].expansion_source.trust == ("pub" if kind in ("steel", "copper") else "memory")
