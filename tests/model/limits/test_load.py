"""Limits: three sets, every limit with its source, overrides with their reason."""

import re
from pathlib import Path
from typing import get_args

import pytest

from trimwright.model.checks.run import RULES
from trimwright.model.errors import SceneError
from trimwright.model.limits.load import limits_for, rule_sets
from trimwright.model.scene.read import scene_from
from trimwright.model.source import Trust

SOURCES = (Path(__file__).parents[3] / "docs" / "sources.md").read_text(encoding="utf-8")
COMMON = "common practice"
OWN = ("common practice, no source", "the project's own")
PLAIN = 'title = "Net loft"\n[roof]\nform = "gable"\nlength = "32 ft"\nwidth = "20 ft"\npitch = "6/12"\n'


def limits(text="", unit="in"):
    return limits_for(scene_from(f'unit = "{unit}"\n{PLAIN}{text}').rules)


def every_limit():
    return [(kind.name, limit) for kind in rule_sets().values() for limit in kind.limits.values()]


def test_there_are_three_sets_and_common_practice_is_the_first():
    assert list(rule_sets()) == [COMMON, "high wind", "code minimum"]


def test_every_set_has_every_limit_in_the_same_unit_and_shape():
    common = rule_sets()[COMMON].limits
    for kind in rule_sets().values():
        assert kind.limits.keys() == common.keys()
        for name, limit in kind.limits.items():
            assert limit.unit == common[name].unit
            assert isinstance(limit.value, tuple) == isinstance(common[name].value, tuple)


def test_every_limit_belongs_to_a_rule_and_every_rule_has_its_limits():
    assert {name for rule in RULES for name in rule.LIMITS} == set(rule_sets()[COMMON].limits)


@pytest.mark.parametrize(("kind", "limit"), every_limit(), ids=lambda x: getattr(x, "rule", x))
def test_a_source_is_in_the_bibliography_or_says_that_there_is_none(kind, limit):
    assert limit.source.trust in get_args(Trust)
    if str(limit.source.title).startswith(OWN):
        assert limit.source.trust == "practice"
    else:
        assert limit.source.trust != "practice"
        names = re.findall(r"^\| ([^|]+?) \|", SOURCES, flags=re.MULTILINE)
        for cited in str(limit.source.title).split("; "):
            assert any(cited.startswith(name) for name in names), cited


@pytest.mark.parametrize(
    ("kind", "name", "value"),
    [
        (COMMON, "screw-first", 6),
        (COMMON, "screw-spacing", 20),
        (COMMON, "end-screw", (6, 8)),
        (COMMON, "tab-too-small", 3 / 8),
        (COMMON, "miter-gap", 1 / 16),
        (COMMON, "lap-too-short", 3),
        (COMMON, "thin-metal", 0.019),
        (COMMON, "low-slope-standing-seam", 0.25),
        (COMMON, "low-slope-lapped-and-sealed", 0.5),
        (COMMON, "low-slope-lapped", 3),
        (COMMON, "hook-too-short", 0.75),
        (COMMON, "expansion-joint-copper", 40 * 12),
        (COMMON, "expansion-joint-aluminum", 32 * 12),
        (COMMON, "expansion-joint-aluminum-edge", 12 * 12),
        ("high wind", "screw-spacing", 6),
        ("high wind", "screw-rows", 2),
        ("code minimum", "screw-spacing", 12),
        ("code minimum", "lap-too-short", 2),
    ],
)
def test_the_numbers_of_the_sources(kind, name, value):
    assert rule_sets()[kind].limits[name].value == value


def test_high_wind_end_screws_stay_within_its_spacing_across_a_lap_of_its_length():
    limits = rule_sets()["high wind"].limits
    near, far = limits["end-screw"].value
    assert near > limits["lap-too-short"].value
    assert near + far - limits["lap-too-short"].value <= limits["screw-spacing"].value
    assert near <= limits["screw-first"].value <= far


def test_an_override_keeps_the_source_and_gives_a_reason():
    limit = limits('[rules.limits]\n"short-end-piece" = 18\n')["short-end-piece"]
    assert (limit.value, limit.reason, limit.source.trust) == (18, None, "scene")
    assert limit.instead_of == rule_sets()[COMMON].limits["short-end-piece"]


def test_an_override_carries_its_own_reason():
    limit = limits('[rules.limits]\n"end-screw" = { value = [4, 6], reason = "short stock" }\n')["end-screw"]
    assert (limit.value, limit.reason) == ((4, 6), "short stock")


def test_a_bare_override_is_in_the_scenes_unit_when_it_is_a_length_and_as_written_when_not():
    text = '[rules.limits]\n"screw-spacing" = 508\n"low-slope-lapped" = 3\n"screws-per-piece" = 3\n'
    found = limits(text, unit="mm")
    assert found.number("screw-spacing") == pytest.approx(20)
    assert found.number("low-slope-lapped") == 3
    assert found.number("screws-per-piece") == 3


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('"screw-frist" = 6', "rules.limits.screw-frist: there is no limit of this name; did you mean"),
        ('"zzz" = 18', "rules.limits.zzz: there is no limit of this name; the limits are short-end-piece"),
        ('"end-screw" = 6', "rules.limits.end-screw: 6 is one number; give a band, such as [6, 8]"),
        ('"screw-first" = [4, 6]', "rules.limits.screw-first: [4, 6] is a band; give one number, such as 6"),
    ],
)
def test_an_override_that_fits_no_limit_is_refused(text, says):
    with pytest.raises(SceneError) as error:
        limits(f"[rules.limits]\n{text}\n")
    assert str(error.value.problems[0]).startswith(says)


def test_all_refusals_come_at_once():
    with pytest.raises(SceneError) as error:
        limits('[rules.limits]\n"end-screw" = 6\n"screw-frist" = 6\n')
    assert len(error.value.problems) == 2


def test_a_band_is_no_number_and_a_number_no_band():
    found = limits()
    with pytest.raises(TypeError):
        found.number("end-screw")
    with pytest.raises(TypeError):
        found.band("screw-first")
