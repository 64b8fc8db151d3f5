"""*Audels Carpenters and Builders Guide* vol. 3 p. 975: jack rafters (pub)."""

import numpy as np
import pytest

from trimwright.model.roof.build import build_roof
from trimwright.model.scene.roof import HipSpec


def test_common_difference_of_hip_jacks_at_16_in_centres_at_rise_10() -> None:
    spec = HipSpec(form="hip", length=480, width=240, pitch="10/12", overhang={"eave": 0})
    edges = {edge.name: edge for edge in build_roof(spec).edges}
    hip, eave = edges["front-left hip"], edges["front eave"]
    points = [hip.direction * x / (hip.direction @ eave.direction) for x in (16, 32, 48)]
    jacks = [np.linalg.norm(p - (p @ eave.direction) * eave.direction) for p in points]
    assert np.diff([0, *jacks]) == pytest.approx([20.83] * 3, abs=0.005)
