"""*Copper Roofings, a Manual* (Copper and Brass Research Association, 1925), standing seams."""

import pytest

from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from

SCENE = """
title = "Copper"
[roof]
form = "gable"
length = 240
width = 120
pitch = "6/12"
[metal]
kind = "copper"
thickness = "20 oz"
[panels]
cover = "21 1/4 in"
seam = "1 in"
profile = "double lock"
"""


def test_a_sheet_of_24_in_makes_double_lock_seams_of_1_in_21_1_4_in_apart() -> None:
    here = build(scene_from(SCENE, "copper.toml"))
    whole = next(panel for panel in here.panels if panel.ripped is None)
    # Printed to the quarter of an inch: edges of 1 1/4 and 1 1/2 in, 2 3/4 in lost a panel.
    assert whole.width == pytest.approx(24, abs=1 / 8)
