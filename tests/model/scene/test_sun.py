"""Where the sun stands by day, hour and latitude."""

import pytest
from pydantic import ValidationError

from trimwright.model.scene.sun import SunSpec


@pytest.mark.parametrize(
    ("month", "day", "hour", "latitude", "bearing", "height"),
    [
        (3, 22, 12.0, 50.0, 180.0, 40.0),
        (6, 21, 12.0, 50.0, 180.0, 63.45),
        (3, 22, 7.0, 0.0, 90.0, 15.0),
        (12, 21, 12.0, -50.0, 0.0, 63.45),
    ],
)
def test_the_sun_stands_where_the_sky_has_it(
    month: int, day: int, hour: float, latitude: float, bearing: float, height: float
) -> None:
    """At noon it is as high as 90 degrees less the latitude plus the tilt; an hour is 15 degrees at the equator."""
    found = SunSpec(month=month, day=day, hour=hour, latitude=latitude).place
    assert found[1] == pytest.approx(height, abs=0.1), "a day more or less at the equinox is 0.4 degrees"
    assert (found[0] - bearing + 180) % 360 - 180 == pytest.approx(0.0, abs=1.0)


def test_the_afternoon_is_the_morning_in_a_mirror() -> None:
    """As far west of north as it was east, and as high."""
    morning, evening = (SunSpec(month=8, day=9, hour=hour, latitude=44.0).place for hour in (8.5, 15.5))
    assert (360.0 - evening[0], evening[1]) == pytest.approx(morning)


def test_the_night_and_a_day_that_is_none_are_refused() -> None:
    with pytest.raises(ValidationError, match="such as 15"):
        SunSpec(month=1, day=5, hour=22.0, latitude=50.0)
    with pytest.raises(ValidationError, match="no such day"):
        SunSpec(month=2, day=30, latitude=50.0)
