"""The form to fill in on the roof: every measure has a row and a number in a figure, and nothing leaves the paper."""

from collections import Counter
from dataclasses import replace

import pytest
from zoo import NAMES, SCENES

from trimwright.model.roof.build import build_roof
from trimwright.model.scene.read import read_scene
from trimwright.model.scene.survey import SurveySpec
from trimwright.model.survey.walk import walk
from trimwright.viewer.drawings.ink.drawing import Drawing, Words
from trimwright.viewer.drawings.ink.letters import plain, width_of
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.drawings.paper.sizes import Paper
from trimwright.viewer.drawings.roof.taping_form import taping_form

SPEC = SurveySpec()


def pages(name: str, paper: Paper = "letter") -> list[Drawing]:
    scene = read_scene(next(path for path in SCENES if path.stem == name))
    imprint = replace(imprint_of(scene, "2026-11-20"), title="A title of the scene")
    return taping_form(build_roof(scene.roof), SPEC, scene.roof.taped, imprint, paper)


def words(name: str, paper: Paper = "letter") -> list[Words]:
    return [item for page in pages(name, paper) for item in page.items if isinstance(item, Words)]


@pytest.mark.parametrize("name", NAMES)
def test_each_measure_is_in_the_table_and_in_a_figure(name: str) -> None:
    roof = build_roof(read_scene(next(path for path in SCENES if path.stem == name)).roof)
    said = Counter(item.text for item in words(name))
    stops = [stop for visit in walk(roof, SPEC) for stop in visit.stops]
    for stop in stops:
        assert said[str(stop.number)] >= 2
        shown = f"{stop.quantity.name}, twice" if stop.twice else stop.quantity.name
        assert all(part in " ".join(said) for part in shown.split())


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_nothing_leaves_the_paper(name: str, paper: Paper) -> None:
    for page in pages(name, paper):
        for item in page.items:
            if isinstance(item, Words):
                wide = width_of(item.text, item.size, bold=item.bold)
                left = item.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[item.anchor]
                assert left > 0.3 and left + wide < page.size[0] - 0.3, item.text
                assert 0.3 < item.at[1] < page.size[1] - 0.3


def test_it_says_how_to_stay_alive() -> None:
    said = " ".join(item.text for item in words("boat-shed"))
    assert "Tie off" in said and "power lines" in said


def test_what_was_read_is_filled_in() -> None:
    assert "33' 4 3/8\"" in {plain(item.text) for item in words("cooperage")}
