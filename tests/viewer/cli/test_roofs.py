"""The list of a file's buildings: which can be laid out, and why others cannot."""

import json
from pathlib import Path

import cities
import pytest
from typer.testing import CliRunner

from trimwright.viewer.cli.commands import app_of

LEVEL = {
    "type": "CityJSONFeature",
    "id": "garage",
    "vertices": [[0, 0, 0], [4000, 0, 0], [4000, 4000, 0], [0, 4000, 0]],
    "CityObjects": {
        "garage": {
            "type": "Building",
            "geometry": [
                {
                    "type": "MultiSurface",
                    "lod": "2",
                    "boundaries": [[[0, 1, 2, 3]]],
                    "semantics": {"surfaces": [{"type": "RoofSurface"}], "values": [0]},
                }
            ],
        }
    },
}


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(app_of(), list(arguments))
    return result.exit_code, result.output


@pytest.fixture
def file(tmp_path: Path) -> str:
    path = tmp_path / "block.city.json"
    path.write_text(cities.sequence() + json.dumps(LEVEL) + "\n", encoding="utf-8")
    return str(path)


def test_every_building_is_listed_with_what_its_roof_is_made_of(file: str) -> None:
    status, text = run("roofs", file, "--json")
    assert status == 0
    found = json.loads(text)
    assert [one["building"] for one in found] == ["house-0", "house-1", "house-2", "house-3", "garage"]
    assert [one["ready"] for one in found] == [True, True, True, True, False]
    assert "less than can be told from level" in found[4]["why"]
    assert found[1]["edges"] == {"eave": 2, "rake": 4, "ridge": 1}
    assert all(one["area"] > 0 and len(one["slopes"]) == one["faces"] for one in found[:4])


def test_the_table_says_first_of_all_which_can_be_laid_out(file: str) -> None:
    status, text = run("roofs", file)
    assert status == 0
    assert "can be laid out" in text
    assert "no: A roof face" in text


def test_areas_and_slopes_are_told_in_feet_or_in_metres_and_the_rest_in_the_language(file: str) -> None:
    _, told = run("roofs", file, "--json")
    first = json.loads(told)[0]
    feet, metric = (run("roofs", file, *more)[1] for more in ([], ["--metric", "--language", "es"]))
    assert f"{first['area']:,.0f} sq ft" in feet
    assert "/12" in feet
    assert f"{first['area'] * 0.3048**2:,.1f} m²" in metric
    assert "°" in metric
    assert "/12" not in metric
    assert "alero" in metric
    assert "eave" not in metric


def test_a_file_that_is_no_cityjson_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "no.json"
    path.write_text("{}")
    status, text = run("roofs", str(path))
    assert status == 2
    assert "is no CityJSON" in text
