"""What was taped on the roof: a field for each size in walking order, and each tape's misfit beside it."""

from typing import Any

from zoo import SCENES, layout

from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.survey.quantities import every_size
from trimwright.viewer.app.form import form_of, sections_of
from trimwright.viewer.app.scene_text import with_value
from trimwright.viewer.app.taped_fields import walk_of
from trimwright.viewer.words.speaker import Speaker

TEXT = next(path for path in SCENES if path.stem == "cooperage").read_text(encoding="utf-8")


def readings(text: str) -> dict[str, dict[str, Any]]:
    form = form_of(text, build(scene_from(text, "")), (), Speaker())
    fields = [one for section in form["sections"] for one in section["fields"]]
    return {one["path"][2]: one for one in fields if one["path"][:2] == ["roof", "taped"] and one["reading"]}


def test_every_size_has_a_field_in_walking_order_with_what_the_plan_has() -> None:
    plan = layout("rope-store")
    text = next(path for path in SCENES if path.stem == "rope-store").read_text(encoding="utf-8")
    sections = [one for one in sections_of(text, plan) if one.group == "taped"]
    names = [field.path[2] for one in sections for field in one.fields if field.path[0] == "roof"]
    assert names == [stop.quantity.name for visit in walk_of(plan) for stop in visit.stops]
    assert set(names) <= set(every_size(plan.roof))
    form = form_of(text, plan, (), Speaker())
    eave = next(f for s in form["sections"] for f in s["fields"] if f["path"] == ["roof", "taped", "eave 6"])
    assert (eave["blank"], eave["value"]) == ("41' 8\"", ""), "40 ft of wall, 8 in and 12 in of overhang"


def test_tapes_that_agree_say_so_and_a_blunder_is_flagged_beside_its_field() -> None:
    fine = readings(TEXT)
    assert all(not one["reading"].get("doubt") for one in fine.values())
    for name, written, named in (
        ("ridge", "33' 8 3/8\"", {"ridge"}),
        ("front eave", "33' 7 3/8\"", {"front eave", "front diagonal 1", "front diagonal 2"}),
    ):
        told = readings(with_value(TEXT, ("roof", "taped", name), written))
        assert {one for one, field in told.items() if field["reading"].get("doubt")} == named
        assert ("left out" in told[name]["reading"]["says"]) == (len(named) == 1)


def test_what_is_no_size_of_the_roof_keeps_its_field_and_its_problem() -> None:
    text = with_value(TEXT, ("roof", "taped", "sidde eave"), "12'")
    sections = sections_of(text, layout("cooperage"))
    assert [one.path[2] for one in sections if one.name == "taped" for one in one.fields] == ["sidde eave"]
