"""Daylight: as usual while the sun is up, warm and dim when it is low, and the same in the browser as in pictures."""

import pytest
from playwright.sync_api import Browser

from tests.viewer.page.scripts import called, importing
from trimwright.viewer.display.daylight import DAY, GOLDEN, HEIGHTS, USUAL, daylight_at, daylights


def test_at_its_usual_height_the_sun_gives_the_light_of_day() -> None:
    assert daylight_at(USUAL) == DAY


@pytest.mark.parametrize("height", HEIGHTS)
def test_the_lower_the_sun_the_warmer_it_is_and_the_darker_the_meadow(height: float) -> None:
    here, lower = daylight_at(height), daylight_at(max(3.0, height - 5))
    assert lower.sun[0] / lower.sun[2] >= here.sun[0] / here.sun[2]
    assert sum(lower.near) <= sum(here.near)
    if height >= GOLDEN:
        assert here.sun == DAY.sun


def test_the_browser_takes_what_lies_between_the_heights_that_it_is_handed(chromium: Browser) -> None:
    page = importing(chromium)
    for height in (1.0, *HEIGHTS, 8.0, 12.0, 50.0):
        got = called(page, "trimwright/seen/daylight.js", "daylightAt", daylights(), height)
        meant = daylight_at(max(height, HEIGHTS[0]))
        for name in ("sun", "zenith", "haze", "near"):
            assert got[name] == pytest.approx(getattr(meant, name), abs=0.02), (height, name)
    page.close()
