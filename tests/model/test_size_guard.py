"""The guard against too much: what it reckons is near what is laid out, for every rule set, and too much is refused."""

from typing import Any

import pytest
from zoo import NAMES, OTHERS, layout

from trimwright.model.limits.load import limits_for, rule_sets
from trimwright.model.pipeline import build
from trimwright.model.roof.build import build_roof
from trimwright.model.scene.read import scene_of
from trimwright.model.scene.rules import RulesSpec
from trimwright.model.scene.schema import Scene
from trimwright.model.size_guard import MOST, Amount, TooMuchError, amount_of, refuse_much


def reckoned(scene: Scene) -> Amount:
    return amount_of(scene, limits_for(scene.rules), build_roof(scene.roof))


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_it_reckons_about_what_is_laid_out(name: str) -> None:
    plan = layout(name)
    told = reckoned(plan.scene)
    for count, real in zip(told, (len(plan.parts), len(plan.screws), len(plan.panels)), strict=True):
        assert 0.7 * real - 2 <= count <= 1.3 * real + 4, (told, real)


@pytest.mark.parametrize("rule_set", list(rule_sets()))
@pytest.mark.parametrize("name", ["boat-shed", "harbor-office"])
def test_it_reckons_with_the_spacing_and_the_rows_of_the_rule_set(name: str, rule_set: str) -> None:
    """The high-wind set asks for several times as many screws: two rows a side, 6 in apart."""
    scene = layout(name).scene.model_copy(update={"rules": RulesSpec(set=rule_set)})
    real = len(build(scene).screws)
    assert 0.7 * real <= reckoned(scene).screws <= 1.3 * real


def test_too_much_is_refused_before_it_is_laid_out_all_of_it_at_once() -> None:
    tables: dict[str, Any] = {
        "title": "Huge",
        "roof": {"form": "gable", "length": 12000, "width": 12000, "pitch": "6/12"},
        "metal": {"stock": [24.5]},
        "trim": {"ridge": {"lap": 24}},
        "panels": {"cover": 4},
        "screws": {"spacing": 1},
    }
    with pytest.raises(TooMuchError) as caught:
        build(scene_of(tables))
    assert [problem.key for problem in caught.value.problems] == [
        ("metal", "stock"),
        ("screws", "spacing"),
        ("panels", "cover"),
    ]
    assert "makes some" in str(caught.value) and "give longer stock" in str(caught.value)


def test_as_much_as_is_allowed_is_let_pass() -> None:
    refuse_much(MOST)
    for place in range(3):
        more = Amount(*(count + (k == place) for k, count in enumerate(MOST)))
        with pytest.raises(TooMuchError) as caught:
            refuse_much(more)
        assert len(caught.value.problems) == 1
