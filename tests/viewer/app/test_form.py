"""The form: what a scene says has a field or is left to the text on purpose; problems stand beside fields."""

import tomllib
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from pydantic import BaseModel
from zoo import NAMES, OTHERS, SCENES, layout

from trimwright.model.edge_kinds import KINDS
from trimwright.model.errors import SceneError, TrimwrightError
from trimwright.model.message import message
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import Scene
from trimwright.model.scene.trim import TrimSpec
from trimwright.viewer.app.fields import Field, shown, written
from trimwright.viewer.app.form import form_of, sections_of
from trimwright.viewer.app.scene_text import value_at, with_value
from trimwright.viewer.words.speaker import Speaker

BY_TEXT = {
    "profile",
    "screws.placed",
    "rules.accept",
    "rules.off",
    "buy.stock",
    "look",
    "shop.contact",
    "shop.color",
    "shop.terms",
    "photo.point",
    "photo.sun",
    "street",
    "cut",
    *(f"trim.{kind}.{key}" for kind in KINDS for key in ("pieces", "over")),
    *(f"trim.{kind}.closure" for kind in KINDS if "under" not in (KINDS[kind].panels, KINDS[kind].lower)),
    "panel_profile",
    "closure",
    *(f"roof.{key}" for key in ("building", "faces", "file", "tolerance", "walls")),
}
"""What has tables of its own kind, and is written as text."""

FORMS = {
    "gable": "boat-shed",
    "hip": "harbor-office",
    "shed": "oar-store",
    "cross gable": "chandlery",
    "outline": "rope-store",
}


def text_of(name: str) -> str:
    if name in OTHERS:
        return OTHERS[name]
    return next(path for path in SCENES if path.stem == name).read_text(encoding="utf-8")


def fields_of(name: str) -> list[Field]:
    return [field for section in sections_of(text_of(name), layout(name)) for field in section.fields]


def field(form: dict[str, Any], *path: str) -> dict[str, Any]:
    return next(one for section in form["sections"] for one in section["fields"] if one["path"] == list(path))


def keys(model: type[BaseModel], place: str = "") -> Iterator[str]:
    """Yield every key of a scene that is no table of fixed keys."""
    for name, info in model.model_fields.items():
        inner = _models(info.annotation)
        if f"{place}{name}" == "trim":
            for kind in KINDS:
                yield from keys(TrimSpec, f"trim.{kind}.")
        elif inner and "dict" not in str(info.annotation) and "tuple" not in str(info.annotation):
            for one in inner:
                yield from keys(one, f"{place}{name}.")
        else:
            yield f"{place}{name}"


def _models(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models(part)]


COURT = """
title = "A yard and a porch"
[roof]
form = "outline"
outline = [["0", "0"], ["48'", "0"], ["48'", "36'"], ["0", "36'"]]
holes = [[["18'", "12'"], ["18'", "24'"], ["30'", "24'"], ["30'", "12'"]]]
porch = [{ side = 1, from = "10'", to = "20'", depth = "6'" }]
pitch = "6/12"
[[house.opening]]
wall = "front"
at = "8'"
"""


def test_every_key_has_a_field_or_is_left_to_the_text() -> None:
    paths = {".".join(map(str, one.path)) for name in FORMS.values() for one in fields_of(name)}
    court = [one for section in sections_of(COURT, None) for one in section.fields]
    paths |= {".".join(map(str, one.path)) for one in court}
    inside = {key for key in keys(Scene) if any(path.startswith(f"{key}.") for path in paths)}
    assert set(keys(Scene)) - paths - inside == BY_TEXT


FACES = """
title = "Two slopes, measured"
[roof]
form = "faces"
faces = [
    [[0, 0, 96], ["24'", 0, 96], ["24'", "8'", "12'"], [0, "8'", "12'"]],
    [[0, "8'", "12'"], ["24'", "8'", "12'"], ["24'", "16'", 96], [0, "16'", 96]],
]
"""


@pytest.mark.parametrize("text", [FACES, *map(text_of, FORMS.values())])
def test_a_roof_is_asked_for_nothing_that_it_cannot_have(text: str) -> None:
    """The form of each roof is among its choices, and every size that it must have is one that it has."""
    built = build(scene_from(text, ""))
    roof = sections_of(text, built)[0]
    form = next(one for one in roof.fields if one.path == ("roof", "form"))
    assert built.scene.roof.form in dict(form.choices)
    spec = built.scene.roof
    assert all(one.path[1] in type(spec).model_fields for one in roof.fields if one.path[0] == "roof")


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_what_holds_where_a_field_is_empty_can_be_written_there(name: str) -> None:
    """Putting every blank into its field changes no piece by more than its rounding to the tape."""
    text = text_of(name)
    form = form_of(text, layout(name), (), Speaker())
    for one in fields_of(name):
        state = field(form, *one.path)
        if one.path[0] in ("run", "rules") or not state["blank"] or state["value"] not in ("", None):
            continue
        if one.path[:2] in (("roof", "taped"), ("roof", "sides")):
            continue  # what the plan has, and what the other sides have
        changed = scene_from(with_value(text, one.path, written(one, state["blank"])))
        at, old = changed, layout(name).scene
        for step in one.path:
            at, old = (one[step] if isinstance(step, int) else getattr(one, step) for one in (at, old))
        if isinstance(old, float):
            assert at == pytest.approx(old, abs=1 / 32), one.path
        elif old is not None:
            assert at == old, one.path


@pytest.mark.parametrize("name", NAMES)
def test_writing_what_a_field_shows_changes_nothing(name: str) -> None:
    text = text_of(name)
    tables = tomllib.loads(text)
    for one in fields_of(name):
        value = value_at(tables, one.path)
        if one.kind != "here" and value is not None and shown(value) is not None:
            assert scene_from(with_value(text, one.path, written(one, shown(value)))) == scene_from(text), (
                one.path
            )


@pytest.mark.parametrize(
    ("path", "came"),
    [
        (("roof", "pitch"), "6/1x"),
        (("roof", "overhang", "eave"), "far"),
        (("metal", "stock"), "10', 12 feed"),
        (("trim", "rake", "lap"), "0"),
        (("screws", "ends"), "8 in, 6 in"),
        (("run", "front eave", "lap"), "1 parsec"),
        (("rules", "limits", "short-end-piece", "value"), "-3"),
        (("rules", "limits", "end-screw", "value"), "3"),
        (("metal", "color"), "reddish"),
        (("trim", "rake", "profile"), "nonesuch"),
        (("title",), ""),
    ],
)
def test_a_problem_stands_beside_its_field(path: tuple[str, ...], came: str) -> None:
    one = next(one for one in fields_of("boat-shed") if one.path == path)
    text = with_value(text_of("boat-shed"), path, written(one, came))
    with pytest.raises(TrimwrightError) as caught:
        build(scene_from(text, ""))
    form = form_of(text, layout("boat-shed"), caught.value.problems, Speaker())
    assert field(form, *path)["problem"]
    assert form["loose"] == []


def test_a_problem_of_no_field_is_told_all_the_same() -> None:
    text = text_of("boat-shed") + "\n[colour]\nx = 1\n"
    with pytest.raises(SceneError) as caught:
        scene_from(text, "")
    form = form_of(text, layout("boat-shed"), caught.value.problems, Speaker())
    assert len(form["loose"]) == 1 and "colour" in form["loose"][0]


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [
        ("length", "12", 12),
        ("length", "12.5", 12.5),
        ("length", "12' 6", "12' 6"),
        ("length", "", None),
        ("length", "007", "007"),
        ("lengths", "10, 12 ft", [10, "12 ft"]),
        ("check", "no", False),
        ("here", "no", False),
        ("here", "yes", None),
        ("text", " 6/12 ", "6/12"),
        ("count", "8", 8),
        ("number", "1e5", "1e5"),
        ("number", "nan", "nan"),
        ("number", "٣", "٣"),
    ],
)
def test_what_is_written_becomes_a_value_of_the_scene(kind: Any, text: str, value: object) -> None:
    came = written(Field(("x",), message("x"), kind), text)
    assert came == value and type(came) is type(value)


@pytest.mark.parametrize("text", ["6, 9", "[6, 9]", " [6,9] "])
def test_a_band_is_read_with_and_without_the_brackets_of_its_hint(text: str) -> None:
    (band,) = (one for one in fields_of("boat-shed") if one.path == ("screws", "ends"))
    assert written(band, text) == [6, 9]
