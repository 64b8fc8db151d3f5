"""CityJSON: both kinds of file say the same, the level of detail that has roofs counts, and what is none is refused."""

from pathlib import Path

import cities
import numpy as np
import pytest

from trimwright.model import cityjson
from trimwright.model.cityjson import ROOF, read_city
from trimwright.model.errors import SceneError


def read(tmp_path: Path, text: str) -> cityjson.City:
    path = tmp_path / "block.city.json"
    path.write_text(text, encoding="utf-8")
    return read_city(path)


@pytest.mark.parametrize("text", [cities.one_file(), cities.sequence()], ids=["one object", "a sequence"])
def test_surfaces_of_a_building_are_those_of_its_parts_in_meters(tmp_path: Path, text: str) -> None:
    city = read(tmp_path, text)
    assert city.buildings() == ["house-0", "house-1", "house-2", "house-3"]
    for number, roof in enumerate(cities.ROOFS):
        surfaces = list(city.surfaces(f"house-{number}"))
        assert [one.kind for one in surfaces] == [ROOF] * len(roof["faces"])
        for one, face in zip(surfaces, roof["faces"], strict=True):
            moved = np.array(face["ring_mm"]) / 1000 + cities.TRANSFORM["translate"]
            assert one.rings[0] == pytest.approx(moved)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is no CityJSON"),
        ('{"type": "FeatureCollection"}', "is no CityJSON"),
        ('{"type": "CityJSON", "CityObjects": 4}', "is no CityJSON"),
        ("[" * 100000, "is no CityJSON"),
    ],
    ids=["empty", "another format", "wrong shape", "nested too deep"],
)
def test_what_is_no_cityjson_is_refused(tmp_path: Path, text: str, says: str) -> None:
    with pytest.raises(SceneError, match=says):
        read(tmp_path, text)


def test_a_file_that_is_not_there_or_too_large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(SceneError, match="there is no such file"):
        read_city(tmp_path / "none.json")
    monkeypatch.setattr(cityjson, "LARGEST", 100)
    with pytest.raises(SceneError, match="more than 100 bytes"):
        read(tmp_path, cities.one_file())
