"""FAA-H-8083-31, *Aviation Maintenance Technician Handbook: Airframe*, vol. 1, ch. 4: setbacks (pub).

The year is from memory.
"""

import numpy as np
import pytest

from trimwright.model.metals import METALS
from trimwright.model.profiles.section import bend_section
from trimwright.model.scene.schema import LegSpec, ProfileSpec

CHANNEL = ProfileSpec(
    legs=(
        LegSpec(name="left", width=1.0, direction="deck", fastened=True),
        LegSpec(name="base", width=2.0, turn=90),
        LegSpec(name="right", width=1.0, turn=90),
    ),
    edges=("eave",),
    anchor="base",
)


def test_flats_of_the_worked_channel() -> None:
    section = bend_section("channel", CHANNEL, {"deck": 0.0}, METALS["aluminum"], 0.040, 0.16, 0.0, 0.0)
    widths = np.diff(section.v)
    flats = [widths[leg.strip] for leg in section.legs]
    assert flats == pytest.approx([0.80, 1.60, 0.80], abs=0.005)
    assert [leg.width - flat for leg, flat in zip(CHANNEL.legs, flats, strict=True)] == pytest.approx(
        [0.20, 0.40, 0.20], abs=0.005
    )
