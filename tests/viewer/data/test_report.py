"""The report: it keeps to its schema, says what the layout says, and nothing that JSON cannot hold."""

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from jsonschema import Draft202012Validator
from zoo import NAMES, OTHERS, layout

from trimwright.model.checks.run import check
from trimwright.viewer.data.plain_values import plain
from trimwright.viewer.data.report import report_of, written

SCHEMA = json.loads(
    Path(__file__, "..", "..", "..", "..", "docs", "report.schema.json").resolve().read_text()
)
ALL = [*NAMES, *OTHERS]


def report(name: str) -> dict[str, Any]:
    whole: dict[str, Any] = json.loads(written(report_of(layout(name), check(layout(name)))))
    return whole


def test_the_schema_is_one_and_every_key_of_it_is_described() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    for name, part in {"report": SCHEMA, **SCHEMA["$defs"]}.items():
        if part.get("type") == "object" and "properties" in part:
            assert part["additionalProperties"] is False, name
            assert sorted(part["required"]) == sorted(part["properties"]), name
        assert part.get("description"), name


@pytest.mark.parametrize("name", ALL)
def test_every_scene_keeps_to_the_schema(name: str) -> None:
    problems = [
        f"{list(error.absolute_path)}: {error.message[:200]}"
        for error in Draft202012Validator(SCHEMA).iter_errors(report(name))
    ]
    assert problems == []


def test_the_schema_refuses_what_is_not_in_it() -> None:
    whole = report(NAMES[0])
    whole["pieces"][0]["colour"] = "red"
    assert list(Draft202012Validator(SCHEMA).iter_errors(whole))


@pytest.mark.parametrize("name", ALL)
def test_pieces_are_those_of_the_layout(name: str) -> None:
    whole, there = report(name), layout(name)
    assert [piece["name"] for piece in whole["pieces"]] == [part.mark for part in there.parts]
    for piece, part in zip(whole["pieces"], there.parts, strict=True):
        assert piece["to"] - piece["from"] == pytest.approx(piece["length"], abs=2e-6)
        assert piece["from"] == pytest.approx(part.sheet.extent[0], abs=1e-6)
        flat = piece["flat"]
        metal = shapely.Polygon(flat["outline"], flat["holes"])
        assert metal.area == pytest.approx(flat["area"], abs=1e-3)
        assert metal.bounds[0] == pytest.approx(0, abs=1e-6)
        assert metal.bounds[2] == pytest.approx(piece["length"], abs=2e-6)


@pytest.mark.parametrize("name", ALL)
def test_runs_pieces_and_screws_name_each_other(name: str) -> None:
    whole = report(name)
    marks = [piece["name"] for piece in whole["pieces"]]
    assert [mark for run in whole["runs"] for mark in run["pieces"]] == marks
    names = {run["name"] for run in whole["runs"]}
    for piece in whole["pieces"]:
        assert piece["run"] in names
        of_it = sorted(screw["at"] for screw in whole["screws"] if screw["piece"] == piece["name"])
        assert piece["screws"] == of_it
        for lap in piece["laps"]:
            other = next(one for one in whole["pieces"] if one["name"] == lap["with"])
            back = next(one for one in other["laps"] if one["with"] == piece["name"])
            assert {lap["lies"], back["lies"]} == {"over", "under"}
            assert {lap["at"], back["at"]} == {"low", "high"}
        for joint in piece["joints"]:
            assert set(joint["with"]) <= set(marks)
    for screw in whole["screws"]:
        assert screw["piece"] in marks


@pytest.mark.parametrize("name", ALL)
def test_bends_lie_on_the_metal_and_turn_as_the_section_does(name: str) -> None:
    for piece, part in zip(report(name)["pieces"], layout(name).parts, strict=True):
        metal = shapely.Polygon(piece["flat"]["outline"]).buffer(1e-4)
        brakes = [bend for bend in piece["flat"]["bends"] if bend["fold"] == "brake"]
        folds = [bend for bend in piece["flat"]["bends"] if bend["fold"] == "tab"]
        assert len(folds) == len(part.sheet.tabs)
        for bend in brakes + folds:
            assert metal.intersects(shapely.LineString(bend["line"]))
        turned = [bend.angle for bend in part.run.section.bends if bend.last > bend.first]
        assert [bend["angle"] for bend in brakes] == pytest.approx(
            [math.degrees(a) for a in turned], abs=1e-5
        )


@pytest.mark.parametrize("name", ALL)
def test_every_piece_comes_out_of_exactly_one_length_that_holds_it(name: str) -> None:
    whole = report(name)
    lengths = {one["name"]: one["length"] for one in (*whole["pieces"], *whole["cleats"])}
    rows = whole["takeoff"]["stock"]
    assert sorted(mark for row in rows for mark in row["pieces"]) == sorted(lengths)
    profiles = {piece["name"]: piece["profile"] for piece in whole["pieces"]}
    profiles |= {cleat["name"]: "cleat" for cleat in whole["cleats"]}
    for row in rows:
        used = sum(lengths[mark] for mark in row["pieces"])
        assert used <= row["length"] + len(row["pieces"]) / 64
        assert {profiles[mark] for mark in row["pieces"]} == {row["profile"]}


def test_the_roof_is_in_degrees_and_inches() -> None:
    whole = report("boat-shed")
    front = next(face for face in whole["roof"]["faces"] if face["name"] == "front")
    assert front["slope"] == pytest.approx(26.565051, abs=1e-6)
    assert front["azimuth"] == pytest.approx(180)
    assert front["area"] == pytest.approx(400 * math.hypot(132, 66), abs=1e-3)
    ridge = next(edge for edge in whole["roof"]["edges"] if edge["kind"] == "ridge")
    assert ridge["dihedral"] == pytest.approx(180 - 2 * 26.565051, abs=1e-5)
    assert sorted(ridge["faces"]) == ["back", "front"]


def test_a_report_is_the_same_twice_and_its_numbers_are_a_line_each() -> None:
    text = written(report_of(layout("boat-shed"), ()))
    assert text == written(report_of(layout("boat-shed"), ()))
    assert '"title": "Boat shed on the north shore"' in text
    assert all(
        line.count("[") == line.count("]") or line.rstrip().endswith("[") or line.strip() in ("]", "],")
        for line in text.splitlines()
    )


def test_brackets_in_a_title_stay_as_they_are() -> None:
    text = written({"title": "a [ 1,  2 ] b"})
    assert json.loads(text) == {"title": "a [ 1,  2 ] b"}


def test_plain_values_know_numpy_and_nothing_strange() -> None:
    assert plain({"a": (np.float64(1 / 3), np.int64(2), -0.0, None, True)}) == {
        "a": [0.333333, 2, 0.0, None, True]
    }
    assert math.copysign(1, plain(-1e-9)) == 1
    assert plain(np.array([[1.0, 2.0]])) == [[1.0, 2.0]]
    with pytest.raises(ValueError, match="nan"):
        plain(float("nan"))
    with pytest.raises(TypeError, match="set"):
        plain({"a": {1}})
