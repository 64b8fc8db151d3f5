"""The catalogue: every profile serves its edges, a scene's own wins, and what does not fit is refused with a hint."""

import pytest

from trimwright.model.edge_kinds import KINDS
from trimwright.model.errors import SceneError
from trimwright.model.pipeline import build
from trimwright.model.profiles.catalogue import catalogue, profile_called
from trimwright.model.roof.build import plain_with
from trimwright.model.scene.read import scene_from, scene_of

GABLE = """
title = "Store"
[roof]
form = "gable"
length = "20'"
width = "16'"
pitch = "6/12"
"""


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_of_edge_has_a_profile_that_suits_it(kind: str) -> None:
    name = KINDS[kind].profile
    assert profile_called(name, {}, kind, "trim") is catalogue()[name]


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_every_profile_can_be_bought_for_each_of_its_edges(name: str) -> None:
    """Each is laid on a roof that has such an edge, corners and all."""
    for kind in catalogue()[name].edges:
        plan = build(
            scene_of({"title": "Store", "roof": plain_with(kind), "trim": {kind: {"profile": name}}})
        )
        assert {run.section.profile for run in plan.runs if run.trim == kind} == {name}


def test_a_profile_of_the_scene_wins_over_the_catalogue() -> None:
    own = {"hook rake": catalogue()["box rake"]}
    assert profile_called("hook rake", own, "rake", ("trim", "rake")) is own["hook rake"]


@pytest.mark.parametrize(
    ("name", "kind", "says"),
    [
        ("hook rak", "rake", "trim.rake.profile: there is no profile 'hook rak'; did you mean 'hook rake'?"),
        (
            "gutter",
            "eave",
            "trim.eave.profile: there is no profile 'gutter'; there are: hook eave, hook rake, ",
        ),
        (
            "ridge cap",
            "rake",
            "trim.rake.profile: 'ridge cap' is for ridge edges; for rake take 'hook rake', 'plain drip', 'box rake'",
        ),
    ],
)
def test_a_name_that_does_not_serve_is_refused_with_those_that_do(name: str, kind: str, says: str) -> None:
    with pytest.raises(SceneError) as caught:
        profile_called(name, {}, kind, ("trim", kind))
    assert str(caught.value.problems[0]).startswith(says)


OWN = """
[trim.rake]
profile = "fold"
[profile.fold]
edges = ["rake"]
anchor = "{anchor}"
legs = [
    {{ name = "top", width = 3, direction = "deck", fastened = true }},
    {{ name = "{second}", width = {width}, direction = "square" }},
]
"""


@pytest.mark.parametrize(
    ("second", "width", "says"),
    [
        ("front", 3, "profile.fold.legs: no leg is called face; corners of rake trim are cut by it"),
        ("face", 0.0625, "trim.rake: profile 'fold': leg 'face' is 0.062\" wide, but its bends take "),
    ],
)
def test_a_profile_of_a_scene_that_cannot_be_cut_is_refused(second: str, width: float, says: str) -> None:
    text = GABLE + OWN.format(second=second, width=width, anchor=second)
    with pytest.raises(SceneError) as caught:
        build(scene_from(text))
    assert len(set(caught.value.problems)) == 1
    assert str(caught.value.problems[0]).startswith(says)


def test_a_profile_of_a_scene_is_laid_on_its_runs() -> None:
    plan = build(scene_from(GABLE + OWN.format(second="face", width=4, anchor="face")))
    assert {run.section.profile for run in plan.runs if run.trim == "rake"} == {"fold"}
