"""The survey: exact tapes give the exact roof, noise gives the errors that were said, and a blunder is named."""

import math
from typing import Any

import numpy as np
import pytest
from crooked import crooked, read_off
from zoo import SCENES

from trimwright.model.errors import GeometryError, SceneError
from trimwright.model.geometry.arrays import Array
from trimwright.model.roof.build import build_roof
from trimwright.model.roof.record import Roof
from trimwright.model.scene.read import read_scene, scene_of
from trimwright.model.scene.schema import SurveySpec
from trimwright.model.survey.assumed import assumed
from trimwright.model.survey.fit import fitted
from trimwright.model.survey.quantities import Kind, measurable, tilts
from trimwright.model.survey.record import Untold
from trimwright.model.survey.survey import standard_errors, surveyed

FORMS = ("boat-shed", "harbor-office", "bakehouse", "oar-store", "rope-store")
SPEC = SurveySpec()
GABLE = {"form": "gable", "length": "32'", "width": "20'", "pitch": "6/12", "wall_height": "9'"}


def form(name: str) -> Roof:
    return build_roof(read_scene(next(path for path in SCENES if path.stem == name)).roof)


@pytest.mark.parametrize("name", FORMS)
def test_gradients_are_those_of_the_sizes(name: str) -> None:
    """Against differences of two values, at corners that are not plane."""
    roof, random = form(name), np.random.default_rng(3)
    points = roof.vertices + random.normal(size=roof.vertices.shape)
    move = random.normal(size=roof.vertices.shape)
    taken, step = assumed(roof), 1e-5
    for one in (*measurable(roof), *tilts(roof)):
        by_hand = (one.value(points + step * move) - one.value(points - step * move)) / (2 * step)
        assert (one.gradient(points) * move).sum() == pytest.approx(by_hand, rel=1e-6, abs=1e-9)
    by_hand = (taken.off(points + step * move) - taken.off(points - step * move)) / (2 * step)
    assert taken.changes(points) @ move.ravel() == pytest.approx(by_hand, abs=1e-6)


@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize("seed", range(3))
def test_exact_tapes_give_the_exact_roof(name: str, seed: int) -> None:
    roof = form(name)
    points = crooked(roof, np.random.default_rng(seed), 2.0)
    true, survey = surveyed(roof, read_off(measurable(roof), points), SPEC)
    assert survey is not None and not survey.doubts
    assert true.vertices == pytest.approx(points, abs=1e-9)
    for face in true.faces:
        assert face.outline @ face.normal == pytest.approx(face.outline[0] @ face.normal, abs=1e-9)
    for before, after in zip(roof.edges, true.edges, strict=True):
        assert (before.name, before.kind, before.hand) == (after.name, after.kind, after.hand)
        assert after.end[2] >= after.start[2] - 0.4


def test_an_unchanged_roof_stays_to_the_last_digit_what_it_was() -> None:
    """Every angle that the edges were found with comes out of the corners again."""
    roof = form("rope-store")
    true, _ = surveyed(roof, read_off(measurable(roof), roof.vertices), SPEC)
    for before, after in zip(roof.edges, true.edges, strict=True):
        assert before.vertices == after.vertices and before.faces == after.faces
        assert after.outward == pytest.approx(before.outward, abs=1e-9)
        assert (after.slope, after.dihedral) == pytest.approx((before.slope, before.dihedral), abs=1e-9)
    for wall, moved in zip(roof.walls, true.walls, strict=True):
        assert moved == pytest.approx(wall, abs=1e-6)


def noisy(roof: Roof, seed: int) -> tuple[Array, dict[str, float]]:
    """Return a crooked roof's corners and what tapes read there, with the errors that a survey expects."""
    random, measures = np.random.default_rng(seed), measurable(roof)
    points = crooked(roof, random)
    errors = standard_errors(measures, SPEC) * random.normal(size=len(measures))
    exact = read_off(measures, points)
    return points, {name: value + off for (name, value), off in zip(exact.items(), errors, strict=True)}


@pytest.mark.parametrize("name", ["boat-shed", "rope-store"])
def test_noise_gives_errors_of_the_size_that_the_fit_says(name: str) -> None:
    """40 seeds: the corners' errors, along independent directions in standard errors, have a mean square of 1."""
    roof = form(name)
    measures = measurable(roof)
    errors = standard_errors(measures, SPEC)
    scores = []
    for seed in range(40):
        points, read = noisy(roof, seed)
        fit = fitted(measures, np.array(list(read.values())), errors, assumed(roof))
        along, *_ = np.linalg.lstsq(fit.spread, (fit.points - points).ravel(), rcond=None)
        assert fit.spread @ along == pytest.approx((fit.points - points).ravel(), abs=0.02)
        scores.append(along)
    mean = float(np.square(scores).mean())
    assert mean == pytest.approx(1.0, abs=4 * math.sqrt(2 / np.size(scores)))


def leaning_on_others(leaning: Array) -> Array:
    """Return how strongly each misfit hangs together with that of the tape most like it, 0 to 1."""
    sizes = np.sqrt(np.maximum(np.diag(leaning), 1e-12))
    alike = np.abs(leaning / sizes[:, None] / sizes)
    np.fill_diagonal(alike, 0.0)
    return np.where(np.diag(leaning) > 1e-6, alike, 0.0).max(axis=1)


def test_a_blunder_of_two_inches_is_named() -> None:
    """120 blunders: 95 in 100 named where others check the tape and no other looks like it; else a candidate."""
    told = {"named": 0, "listed": 0, "missed": 0}
    spared = {"named": 0, "listed": 0, "missed": 0}
    for name in ("rope-store", "harbor-office", "boat-shed"):
        roof = form(name)
        measures = measurable(roof)
        errors = standard_errors(measures, SPEC)
        for seed in range(40):
            _, read = noisy(roof, seed)
            fit = fitted(measures, np.array(list(read.values())), errors, assumed(roof))
            lengths = [k for k, one in enumerate(measures) if one.kind != "pitch" and fit.sure[k] >= 0.05]
            k = lengths[seed % len(lengths)]
            read[measures[k].name] += 2.0 * (-1) ** seed
            _, survey = surveyed(roof, read, SPEC)
            assert survey is not None
            listed = survey.doubts[0].tapes if survey.doubts else ()
            how = "missed" if measures[k].name not in listed else "named" if len(listed) == 1 else "listed"
            clear = fit.sure[k] >= 0.2 and leaning_on_others(fit.leaning)[k] < 0.9
            (told if clear else spared)[how] += 1
    assert sum(told.values()) >= 50 and told["named"] >= 0.95 * sum(told.values())
    assert told["missed"] == 0
    assert spared["named"] + spared["listed"] >= 0.95 * sum(spared.values())


def test_a_named_blunder_is_left_out_and_its_size_is_told() -> None:
    roof = form("rope-store")
    read = read_off(measurable(roof), crooked(roof, np.random.default_rng(1)))
    true = read["ridge 2-6"]
    _, survey = surveyed(roof, {**read, "ridge 2-6": true + 2}, SPEC)
    assert survey is not None
    assert [doubt.tapes for doubt in survey.doubts] == [("ridge 2-6",)]
    assert survey.doubts[0].by == pytest.approx(2.0, abs=1e-3)
    assert survey.by_name["ridge 2-6"].left_out and survey.by_name["ridge 2-6"].now == pytest.approx(true)
    off = survey.by_name["ridge 2-6"].read - true
    assert survey.by_name["ridge 2-6"].score == pytest.approx(off / (SPEC.tape / 2), rel=1e-6)


def taped(*names: str, roof: Roof) -> Any:
    exact = {one.name: one.value(roof.vertices) for one in measurable(roof)}
    return {name: exact[name] for name in names}


def test_what_no_tape_tells_is_listed_and_stays_as_the_form_has_it() -> None:
    """A gable's 11 lengths and 2 pitches leave the ridge's tilt free but for the eaves, which are level."""
    roof = form("boat-shed")
    every = measurable(roof)
    assert len(every) == 13
    _, survey = surveyed(roof, taped(*(one.name for one in every), roof=roof), SPEC)
    assert survey is not None
    assert [(one.name, one.kind, one.by_level) for one in survey.untold] == [("ridge", "tilt", True)]
    lengths = [one.name for one in every if one.kind != "pitch"]
    _, survey = surveyed(roof, taped(*lengths, roof=roof), SPEC)
    assert survey is not None
    assert [(one.name, one.by_level) for one in survey.untold] == [
        ("front pitch", False),
        ("back pitch", False),
        ("ridge", True),
    ]


def test_one_tape_moves_only_what_it_tells() -> None:
    roof = form("boat-shed")
    true, survey = surveyed(roof, {"front eave": 403.0}, SPEC)
    assert survey is not None and len(survey.untold) == 11
    assert next(edge for edge in true.edges if edge.name == "front eave").length == pytest.approx(403.0)
    assert [face.slope for face in true.faces] == pytest.approx([face.slope for face in roof.faces], abs=0.02)
    assert survey.tapes[0].redundancy == pytest.approx(0.0, abs=1e-9) and not survey.tapes[0].is_checked


def test_what_no_tape_tells_is_as_planned_only_where_the_tapes_do_not_move_it() -> None:
    """A hip a foot longer at one eave, its ridge as it was: the faces beside them can no longer be what they were."""
    roof = form("harbor-office")
    planned = {one.name: one.value(roof.vertices) for one in measurable(roof)}
    true, survey = surveyed(roof, {"front eave": planned["front eave"] + 12, "ridge": planned["ridge"]}, SPEC)
    assert survey is not None
    free = [one for one in survey.untold if not one.by_level]
    assert {one.is_as_planned for one in free} == {True, False}
    now = {one.name: one.value(true.vertices) for one in measurable(true)}
    for one in free:
        assert one.form == pytest.approx(planned[one.name]) and one.value == pytest.approx(now[one.name])


@pytest.mark.parametrize(
    ("kind", "off", "kept"),
    [
        ("length", 1 / 64, True),
        ("length", 1 / 16, False),
        ("pitch", math.radians(0.02), True),
        ("pitch", math.radians(0.2), False),
    ],
)
@pytest.mark.parametrize("sign", [-1, 1])
def test_as_planned_is_what_neither_a_tape_nor_a_level_tells_from_it(
    kind: Kind, off: float, kept: bool, sign: int
) -> None:
    """A tape shows a sixteenth of an inch, a level a twentieth of a degree, which is less of a number by far."""
    size = Untold("front eave", kind, form=0.5, value=0.5 + sign * off, by_level=False)
    assert size.is_as_planned == kept


def test_a_shear_of_the_far_edge_is_told_as_out_of_square() -> None:
    """By hand: 20 ft by 15 ft, diagonals 25.06 and 24.94 ft: the far edge stands (d1² - d2²) / (4 L) = 0.9 in over."""
    roof = build_roof(
        scene_of(
            {
                "title": "Shed",
                "roof": {
                    "form": "shed",
                    "length": 240,
                    "width": 180 * math.cos(math.radians(20)),
                    "pitch": "20 deg",
                    "overhang": {"eave": 0, "rake": 0, "high": 0},
                },
            }
        ).roof
    )
    read = {
        "front eave": 240.0,
        "back high edge": 240.0,
        "front diagonal 1": 25.06 * 12,
        "front diagonal 2": 24.94 * 12,
        "right-end left rake": 180.0,
        "left-end right rake": 180.0,
        "front pitch": math.radians(20),
    }
    _, survey = surveyed(roof, read, SPEC)
    assert survey is not None
    (face,) = survey.crooked
    assert (face.left, face.right) == pytest.approx((0.9, 0.9), abs=0.01)
    assert face.taper == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize(
    ("table", "says"),
    [
        (
            {"front eve": "34'"},
            'roof.taped."front eve": there is nothing of this name to tape; did you mean',
        ),
        ({"front eave": "6/12 deg"}, 'roof.taped."front eave": 6/12 deg is not a length'),
        ({"front pitch": "12 ft"}, 'roof.taped."front pitch": 12 ft is not a pitch'),
        ({"front pitch": 6}, 'roof.taped."front pitch": 6 alone could be inches in 12'),
        ({"front eave": 0}, 'roof.taped."front eave": 0 is not a length; give more than 0'),
        ({"front eave": [1]}, 'roof.taped."front eave": [1] is not a length'),
        ([], "roof.taped: [] is not a table"),
    ],
)
def test_what_cannot_have_been_taped_is_refused_with_its_place(table: Any, says: str) -> None:
    with pytest.raises(SceneError) as caught:
        scene = scene_of({"title": "Taped", "roof": {**GABLE, "taped": table}})
        surveyed(build_roof(scene.roof), scene.roof.taped, SPEC)
    assert says in str(caught.value)


def test_tapes_that_make_no_roof_are_refused() -> None:
    roof = form("boat-shed")
    read = taped(*(one.name for one in measurable(roof)), roof=roof)
    with pytest.raises(GeometryError, match=r"roof\.taped: what was taped makes no roof"):
        surveyed(roof, {**read, "ridge": 9000.0, "front diagonal 1": 40.0, "back diagonal 1": 40.0}, SPEC)


def test_the_survey_says_how_well_sizes_are_known() -> None:
    """Seven tapes of a shed at an eighth: its eave is known to less than one tape's own error."""
    roof = form("oar-store")
    read = read_off(measurable(roof), roof.vertices)
    _, survey = surveyed(roof, read, SPEC)
    assert survey is not None
    eave = next(one for one in measurable(roof) if one.name == "front eave")
    error = np.linalg.norm(eave.gradient(roof.vertices).ravel() @ survey.spread)
    assert 0.5 / 16 < error < 1 / 16


@pytest.mark.parametrize("name", FORMS)
def test_wild_readings_make_a_roof_or_are_refused(name: str) -> None:
    """Numbers that nobody read off a tape, some or all: an error that a person can act on, or a roof."""
    roof = form(name)
    measures = measurable(roof)
    for seed in range(8):
        random = np.random.default_rng(seed)
        some = random.choice(len(measures), random.integers(1, len(measures) + 1), replace=False)
        wild = {
            measures[k].name: float(
                random.uniform(0.01, 1.4) if measures[k].kind == "pitch" else 10 ** random.uniform(0, 4)
            )
            for k in some
        }
        try:
            true, _ = surveyed(roof, wild, SPEC)
        except GeometryError as error:
            assert "roof.taped" in str(error)
        else:
            assert np.isfinite(true.vertices).all()
