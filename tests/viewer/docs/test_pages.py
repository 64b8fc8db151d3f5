"""The generated pages say what the code does: they are up to date, and leave no key, profile or scene out."""

import types
from itertools import combinations
from pathlib import Path
from typing import Any, get_args

import pytest
from PIL import Image
from pydantic import BaseModel
from zoo import NAMES, SCENES, layout

from trimwright.model.checks.run import check
from trimwright.model.errors import SceneError
from trimwright.model.pipeline import build
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import Scene
from trimwright.model.scene.trim import TrimOverride, TrimSpec
from trimwright.viewer.display.stage import stage_of
from trimwright.viewer.docs.__main__ import pages
from trimwright.viewer.docs.gallery import LARGEST, SHOWN, pictures_of, scenes_in
from trimwright.viewer.docs.profiles import section_drawing
from trimwright.viewer.docs.scene_format import (
    EXAMPLES,
    example_text,
    keys_of,
    scene_format_page,
    value_in_examples,
)
from trimwright.viewer.docs.scene_tables import DEFAULTS, TABLES, WORDS
from trimwright.viewer.drawings.ink.drawing import Words
from trimwright.viewer.drawings.ink.letters import width_of

ROOT = Path(__file__).parents[3]
DOCS = ROOT / "docs"
MADE = pages(ROOT)
"""Every page that the code makes, by its name."""


@pytest.mark.parametrize("name", sorted(MADE))
def test_a_page_on_disk_is_the_one_that_the_code_makes(name: str) -> None:
    assert (DOCS / name).read_text(encoding="utf-8") == MADE[name], "run python -m trimwright.viewer.docs"


# The scene format.


def models_in(kind: Any) -> set[type[BaseModel]]:
    """Return every model that a type is made of, itself and its keys included."""
    found: set[type[BaseModel]] = set()
    waiting = [kind]
    while waiting:
        one = waiting.pop()
        if isinstance(one, type) and not isinstance(one, types.GenericAlias) and issubclass(one, BaseModel):
            if one not in found:
                found.add(one)
                waiting += [field.annotation for field in one.model_fields.values()]
        else:
            waiting += get_args(one)
    return found


def test_every_model_of_a_scene_has_its_part_of_the_page() -> None:
    told = {model for table in TABLES for model in table.models}
    assert models_in(Scene) - told == {TrimOverride}
    assert TrimOverride.model_fields.keys() == TrimSpec.model_fields.keys()


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.heading)
def test_every_key_has_an_example_and_a_meaning(table: Any) -> None:
    page = scene_format_page()
    for key, _, field in keys_of(table):
        name = field.alias or key
        assert value_in_examples((*table.example, name)) is not None, name
        row = next(line for line in page.splitlines() if line.startswith(f"| `{name}` |"))
        assert all(cell.strip() for cell in row.strip("|").split(" | ")), row


def test_words_and_defaults_of_the_page_speak_of_keys_that_exist() -> None:
    for model, name in [*WORDS, *DEFAULTS]:
        assert name in model.model_fields


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_example_scenes_can_be_built(name: str) -> None:
    assert build(scene_from(example_text(name), name, SCENES[0].parent)).parts


@pytest.mark.parametrize(
    ("written", "allowed"),
    [
        ('pitch = "0.24 deg"', False),
        ('pitch = "0.25 deg"', True),
        ('pitch = "85 deg"', True),
        ('pitch = "85.1 deg"', False),
        ("pitch = 6", False),
    ],
)
def test_pitches_are_bounded_as_the_page_says(written: str, allowed: bool) -> None:
    text = f'title = "Shed"\n[roof]\nform = "shed"\nlength = "30\'"\nwidth = "20\'"\n{written}\n'
    if allowed:
        assert scene_from(text).roof.pitch
    else:
        with pytest.raises(SceneError, match="pitch"):
            scene_from(text)


def test_the_refusal_that_the_page_shows_is_the_one_that_comes() -> None:
    shown = next(line for line in scene_format_page().splitlines() if line.startswith("boat-shed.toml: "))
    text = (ROOT / "scenes" / "boat-shed.toml").read_text(encoding="utf-8") + "\n[trim.rake]\nlap = -4\n"
    with pytest.raises(SceneError) as caught:
        scene_from(text, "boat-shed.toml")
    assert str(caught.value) == shown


# Profiles.


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_a_profile_has_its_chapter_and_its_legs(name: str) -> None:
    page = MADE["profiles.md"]
    chapter = page.split(f"## {name}\n")[1].split("\n## ")[0]
    assert f"profiles/{name.replace(' ', '-')}.svg" in chapter
    for leg in catalogue()[name].legs:
        assert f"\n| {leg.name} | " in chapter


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_labels_of_a_section_lie_on_the_paper_and_on_nothing_else(name: str) -> None:
    drawing = section_drawing(name)
    boxes = []
    for words in (item for item in drawing.items if isinstance(item, Words)):
        wide = width_of(words.text, words.size)
        left = words.at[0] - (wide if words.anchor == "end" else 0)
        boxes.append((left, words.at[1] - 0.2 * words.size, left + wide, words.at[1] + 0.8 * words.size))
        assert boxes[-1][0] >= 0 and boxes[-1][2] <= drawing.size[0]
        assert boxes[-1][1] >= 0 and boxes[-1][3] <= drawing.size[1]
    assert len(boxes) == len(catalogue()[name].legs)
    for one, two in combinations(boxes, 2):
        assert one[2] <= two[0] or two[2] <= one[0] or one[3] <= two[1] or two[3] <= one[1]


# The gallery.


def test_the_gallery_shows_every_scene() -> None:
    assert set(SHOWN) == set(NAMES)
    page = MADE["gallery.md"]
    for path in scenes_in(ROOT):
        assert f"trimwright preview scenes/{path.name}" in page
        for picture in pictures_of(path).values():
            assert f"]({picture})" in page


@pytest.mark.parametrize("name", NAMES)
def test_every_picture_of_the_gallery_is_there_and_small(name: str) -> None:
    for picture in pictures_of(ROOT / "scenes" / f"{name}.toml").values():
        path = DOCS / picture
        assert path.stat().st_size < LARGEST
        with Image.open(path) as image:
            assert image.format == "PNG" and image.width >= 640


def test_no_picture_is_left_over() -> None:
    wanted = {picture for path in scenes_in(ROOT) for picture in pictures_of(path).values()}
    assert {path.relative_to(DOCS).as_posix() for path in DOCS.glob("gallery/*")} == wanted


@pytest.mark.parametrize("name", NAMES)
def test_every_view_of_the_gallery_exists(name: str) -> None:
    plan = layout(name)
    stage = stage_of(plan, check(plan))
    assert [stage.view(view).name for view in SHOWN[name]] == list(SHOWN[name])
