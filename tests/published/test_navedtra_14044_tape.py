"""NAVEDTRA 14044, *Builder 3&2 Vol. 2*, ch. 2: decimals of an inch to a tape. Trust: pub."""

import pytest

from trimwright.model.units import tape


def test_the_gable_example_reads_as_printed() -> None:
    assert tape(111.12) == "9' 3 1/8\""


def test_nearly_twelve_inches_become_the_next_foot() -> None:
    assert tape(11.98) == "1' 0\""


@pytest.mark.parametrize("sixteenths", range(0, 192, 7))
def test_a_half_goes_up(sixteenths: int) -> None:
    half = (sixteenths + 0.5) / 16
    assert tape(half) == tape((sixteenths + 1) / 16)
