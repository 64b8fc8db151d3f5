"""Metals: every one has what later stages need, and bends in proportion."""

import math
import re
import typing

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimwright.model.metals import METALS, Metal, bend_length
from trimwright.model.scene.metal import MetalKind
from trimwright.model.scene.schema import FastenerMetal
from trimwright.model.source import Trust


def test_there_is_a_metal_for_every_kind_a_scene_can_ask_for() -> None:
    assert set(METALS) == set(typing.get_args(MetalKind))


@pytest.mark.parametrize("metal", METALS.values(), ids=METALS)
def test_each_metal_is_complete(metal: Metal) -> None:
    assert 0.5 <= metal.bend <= 0.75
    assert 5e-6 < metal.expansion < 15e-6
    assert set(metal.fasteners) <= set(typing.get_args(FastenerMetal))
    assert metal.fasteners
    for color in (metal.color, *metal.patina):
        assert re.fullmatch("#[0-9a-f]{6}", color)
    for cited in (
        metal.thickness_source,
        metal.bend_source,
        metal.expansion_source,
        metal.labels_source,
        metal.fasteners_source,
    ):
        assert str(cited.title)
        assert cited.trust in typing.get_args(Trust)


@pytest.mark.parametrize("metal", METALS.values(), ids=METALS)
def test_the_usual_thickness_is_enough_for_flashing(metal: Metal) -> None:
    assert metal.thickness >= 0.019


def test_a_thickness_has_its_label_or_none() -> None:
    assert METALS["steel"].label(0.0239) == "24 ga"
    assert METALS["galvanized"].label(0.0276) == "24 ga"
    assert METALS["copper"].label(0.0216) == "16 oz"
    assert METALS["steel"].label(0.0276) is None


@given(st.sampled_from(sorted(METALS)), st.floats(0.005, 0.25), st.floats(0, 0.5), st.floats(0, math.pi))
def test_a_bend_takes_metal_in_proportion_to_its_angle(
    kind: str, thickness: float, radius: float, angle: float
) -> None:
    quarter = bend_length(METALS[kind], thickness, radius, math.pi / 2)
    assert bend_length(METALS[kind], thickness, radius, angle) == pytest.approx(
        quarter * angle / (math.pi / 2)
    )
    assert bend_length(METALS[kind], thickness, radius, -angle) == bend_length(
        METALS[kind], thickness, radius, angle
    )


def test_the_middle_of_a_bend_lies_within_the_metal() -> None:
    for metal in METALS.values():
        for radius in (0.0, 0.03125, 0.2):
            inside, outside = radius * math.pi / 2, (radius + metal.thickness) * math.pi / 2
            assert inside - 0.001 <= bend_length(metal, metal.thickness, radius, math.pi / 2) <= outside
