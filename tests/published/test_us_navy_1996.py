"""US Navy, *Steelworker*, vol. 2 (NAVEDTRA 14251, 1996), ch. 2: metal in a hem. Trust: pub.

Number and year are from memory.
"""

import pytest

from trimwright.model.metals import METALS
from trimwright.model.profiles.section import bend_section
from trimwright.model.scene.schema import LegSpec, ProfileSpec

TAPE_MARK = 1 / 32
"""Half of the sixteenth that a hem is marked out to; the print's rule leaves out the bend itself."""


def _width(*hems: float) -> float:
    """Return the developed width of a 4 in angle with ``hems`` folded one after the other, inches."""
    legs = (
        LegSpec(name="top", width=2.0, direction="deck", fastened=True),
        LegSpec(name="face", width=2.0, direction="plumb"),
        *(LegSpec(name=f"hem {i}", width=hem, turn=180) for i, hem in enumerate(hems)),
    )
    profile = ProfileSpec(legs=legs, edges=("eave",), anchor="face")
    directions = {"deck": 0.0, "plumb": 1.5707963267948966}
    return bend_section("hemmed", profile, directions, METALS["galvanized"], 0.0217, 0.0, 0.0, 0.0).width


@pytest.mark.parametrize("hem", [1 / 4, 3 / 8, 1 / 2])
def test_a_single_hem_takes_its_width(hem: float) -> None:
    assert _width(hem) - _width() == pytest.approx(hem, abs=TAPE_MARK)


@pytest.mark.parametrize("hem", [1 / 4, 3 / 8, 1 / 2])
def test_a_double_hem_takes_twice_its_width(hem: float) -> None:
    assert _width(hem, hem) - _width() == pytest.approx(2 * hem, abs=2 * TAPE_MARK)
