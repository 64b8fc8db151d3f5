"""What to tape, in walking order: each measure once, each face beside one before, and enough to know the roof."""

import numpy as np
import pytest
from crooked import crooked
from zoo import SCENES

from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.read import read_scene
from trimwright.model.scene.survey import SurveySpec
from trimwright.model.survey.assumed import assumed
from trimwright.model.survey.fit import untold
from trimwright.model.survey.quantities import every_size, measurable, under_the_roof
from trimwright.model.survey.survey import standard_errors, surveyed
from trimwright.model.survey.telling import telling
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
    faces = [visit for visit in visits if visit.face is not None]
    assert sorted(visit.face for visit in faces) == list(range(len(roof.faces)))
    assert visits[: len(faces)] == tuple(faces) and len(visits) <= len(faces) + 1
    for k, visit in enumerate(faces[1:], 1):
        before = {corner for earlier in visits[:k] for corner in earlier.ring}
        assert before & set(visit.ring)


def test_the_walk_tells_all_of_the_roof(roof: Roof) -> None:
    measures = [stop.quantity for visit in walk(roof, SPEC) for stop in visit.stops]
    assert not len(untold(measures, standard_errors(measures, SPEC), assumed(roof)))


def test_a_visit_begins_at_the_left_end_of_an_eave(roof: Roof) -> None:
    for visit in (one for one in walk(roof, SPEC) if one.face is not None):
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


@pytest.mark.parametrize("name", ["boat-shed", "net-loft"])
def test_what_a_gables_form_asks_for_tells_every_blunder_from_every_other(name: str) -> None:
    """Two inches or two degrees in each measure of the form: from the deck alone, one in three of them is named."""
    roof = build_roof(read_scene(next(path for path in SCENES if path.stem == name)).roof)
    random = np.random.default_rng(5)
    points = crooked(roof, random)
    visits = walk(roof, SPEC)
    named = {}
    for which in ("the deck alone", "all of the form"):
        stops = [
            stop for visit in visits for stop in visit.stops if which[0] == "a" or visit.face is not None
        ]
        exact = {stop.quantity.name: stop.quantity.value(points) for stop in stops}
        kinds = {stop.quantity.name: stop.quantity.kind for stop in stops}
        found = [
            surveyed(roof, exact | {one: read + (np.radians(2) if kinds[one] == "pitch" else 2.0)}, SPEC)[
                1
            ].doubts
            for one, read in exact.items()
        ]
        told = [doubts[0].tapes if doubts else () for doubts in found]
        named[which] = sum(tapes == (one,) for tapes, one in zip(told, exact, strict=True)) / len(exact)
    assert named["the deck alone"] < 0.5 and named["all of the form"] == 1.0


def test_no_measure_of_a_gables_form_has_to_be_taken_twice() -> None:
    roof = build_roof(read_scene(next(path for path in SCENES if path.stem == "boat-shed")).roof)
    assert not any(stop.twice for visit in walk(roof, SPEC) for stop in visit.stops)


def test_what_would_tell_is_what_is_asked_for_and_does_tell() -> None:
    """On the deck alone a front eave looks like its face's diagonals; the ways between plumb marks tell them apart."""
    roof = build_roof(read_scene(next(path for path in SCENES if path.stem == "boat-shed")).roof)
    deck = [one.name for one in measurable(roof)]
    alike = ("front eave", "front diagonal 1", "front diagonal 2")
    more = telling(roof, deck, alike, SPEC)
    assert more and set(more) <= {one.name for one in under_the_roof(roof)}
    assert telling(roof, [*deck, *more], alike, SPEC) == ()
    known = every_size(roof)
    exact = {name: known[name].value(roof.vertices) for name in (*deck, *more)}
    for one in alike:
        _, survey = surveyed(roof, exact | {one: exact[one] + 2}, SPEC)
        assert survey is not None and [doubt.tapes for doubt in survey.doubts] == [(one,)]
