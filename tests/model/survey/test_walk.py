"""What to tape, in walking order: each measure once, each face beside one before, and enough to know the roof."""

import numpy as np
import pytest
from zoo import SCENES

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.read import read_scene
from trimwright.model.scene.survey import SurveySpec
from trimwright.model.survey.assumed import assumed
from trimwright.model.survey.fit import untold
from trimwright.model.survey.survey import standard_errors
from trimwright.model.survey.walk import letters, walk

FORMS = [path for path in SCENES if path.stem != "cooperage"]
SPEC = SurveySpec()


@pytest.fixture(params=FORMS, ids=lambda path: path.stem)
def roof(request: pytest.FixtureRequest) -> Roof:
    return build_roof(read_scene(request.param).roof)


def test_each_measure_comes_once_and_numbers_go_up(roof: Roof) -> None:
    stops = [stop for visit in walk(roof, SPEC) for stop in visit.stops]
    assert [stop.number for stop in stops] == list(range(1, len(stops) + 1))
    names = [stop.quantity.name for stop in stops]
    assert len(set(names)) == len(names)
    assert {edge.name for edge in roof.edges} <= set(names)
    assert {f"{face.name} pitch" for face in roof.faces} <= set(names)


def test_each_face_is_beside_one_that_was_visited(roof: Roof) -> None:
    visits = walk(roof, SPEC)
    assert sorted(visit.face for visit in visits) == list(range(len(roof.faces)))
    for k, visit in enumerate(visits[1:], 1):
        before = {corner for earlier in visits[:k] for corner in earlier.ring}
        assert before & set(visit.ring)


def test_the_walk_tells_all_of_the_roof(roof: Roof) -> None:
    measures = [stop.quantity for visit in walk(roof, SPEC) for stop in visit.stops]
    assert not len(untold(measures, standard_errors(measures, SPEC), assumed(roof)))


def test_a_visit_begins_at_the_left_end_of_an_eave(roof: Roof) -> None:
    for visit in walk(roof, SPEC):
        a, b = roof.vertices[list(visit.ring[:2])]
        assert a[2] == pytest.approx(min(roof.vertices[list(visit.ring), 2]), abs=1e-6)
        inward = np.array([a[1] - b[1], b[0] - a[0]])
        assert (roof.vertices[list(visit.ring[2:]), :2] - a[:2]) @ inward == pytest.approx(
            np.abs((roof.vertices[list(visit.ring[2:]), :2] - a[:2]) @ inward)
        )


def test_every_corner_has_a_letter_of_its_own(roof: Roof) -> None:
    named = letters(walk(roof, SPEC))
    assert len(set(named.values())) == len(named) == len(roof.vertices)
    assert next(iter(named.values())) == "A"
