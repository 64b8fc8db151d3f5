"""What a scene becomes once it is read: inches, radians and good defaults."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from trimwright.model.errors import SceneError
from trimwright.model.scene.read import scene_from, scene_of
from trimwright.model.scene.schema import GableSpec, LegSpec, ProfileSpec, Scene

ROOF = {"form": "gable", "length": 384, "width": 240, "pitch": "6/12"}


def scene(**tables: object) -> Scene:
    return scene_of({"title": "a", "roof": ROOF, **tables})


def test_a_title_and_a_roof_are_enough() -> None:
    plain = scene()
    assert isinstance(plain.roof, GableSpec)
    assert (plain.roof.length, plain.roof.width, plain.roof.wall_height, plain.roof.deck) == (
        384,
        240,
        96,
        0.5,
    )
    assert plain.roof.pitch == math.atan(0.5)
    assert plain.roof.far_pitch is None
    over = plain.roof.overhang
    assert (over.eave, over.rake, over.high) == (12, 8, 8)
    metal = plain.metal
    assert (metal.kind, metal.thickness, metal.stock, metal.radius) == ("steel", 0.0239, (126.0,), 1 / 32)
    assert metal.design_heat == 160
    assert plain.screws.kind == "galvanized"
    assert (plain.screws.first, plain.screws.spacing, plain.screws.ends) == (None, None, None)
    assert (plain.panels.cover, plain.panels.seam, plain.panels.offset) == (16, 1.5, 0)
    assert plain.panels.seam_kind == "standing seam"
    assert plain.rules.set == "common practice"
    assert (plain.unit, plain.show, plain.denominator, plain.wind, plain.north) == (
        "in",
        "feet",
        16,
        "left",
        None,
    )
    assert plain.colors.trim == plain.colors.panels == plain.metal.color


@pytest.mark.parametrize(
    ("kind", "profile"),
    [
        ("eave", "hook eave"),
        ("rake", "hook rake"),
        ("ridge", "ridge cap"),
        ("hip", "hip cap"),
        ("high", "high side"),
    ],
)
def test_every_kind_of_edge_has_its_own_profile(kind: str, profile: str) -> None:
    for plain in (scene(), scene(trim={kind: {"lap": 5}})):
        trim = plain.trim_for(kind, "anywhere")
        assert trim is not None
        assert (trim.profile, trim.start, trim.tab) == (profile, "shared", 0.375)
    assert scene(trim={kind: False}).trim_for(kind, "anywhere") is None


def test_what_a_run_says_wins_and_the_rest_stays() -> None:
    mixed = scene(
        trim={"rake": {"lap": 5, "tab": 0.5}, "eave": False},
        run={
            "left one": {"lap": "6 in", "pieces": ["10'", {"length": 30, "hand": "left"}]},
            "bare": False,
            "front": {},
        },
    )
    trim = mixed.trim_for("rake", "left one")
    assert trim is not None
    assert (trim.lap, trim.tab, trim.profile) == (6, 0.5, "hook rake")
    assert trim.pieces is not None
    assert [(piece.length, piece.hand) for piece in trim.pieces] == [(120, None), (30, "left")]
    assert mixed.trim_for("rake", "bare") is None
    other = mixed.trim_for("rake", "right one")
    assert other is not None
    assert other.lap == 5
    front = mixed.trim_for("eave", "front")
    assert front is not None, "a run's own table brings trim back to an edge whose kind is bare"
    assert front.profile == "hook eave"


@pytest.mark.parametrize(
    ("unit", "inches", "show"),
    [
        ("in", 1, "feet"),
        ("ft", 12, "feet"),
        ("mm", 1 / 25.4, "mm"),
        ("cm", 1 / 2.54, "mm"),
        ("m", 1000 / 25.4, "mm"),
    ],
)
def test_bare_numbers_are_in_the_scene_s_unit(unit: str, inches: float, show: str) -> None:
    size = 240 / inches
    read = scene_of({"title": "a", "unit": unit, "roof": {**ROOF, "length": size, "width": "20'"}})
    assert read.roof.length == pytest.approx(240)
    assert read.roof.width == 240
    assert read.show == show
    assert read.tape.style == show


@pytest.mark.parametrize("unit", ["in", "ft", "mm", "cm", "m"])
def test_defaults_are_the_same_lengths_in_every_unit(unit: str) -> None:
    roof = {**ROOF, "length": "32'", "width": "20'"}
    read = scene_of(
        {
            "title": "a",
            "unit": unit,
            "roof": roof,
            "metal": {},
            "screws": {},
            "panels": {},
            "trim": {"rake": {}},
        }
    )
    plain = scene()
    for table in ("metal", "screws", "panels", "trim", "roof", "colors"):
        assert getattr(read, table) == getattr(plain, table)


def test_metal_brings_its_thickness_its_color_its_radius_and_its_screws() -> None:
    copper = scene(metal={"kind": "copper"})
    assert (copper.metal.thickness, copper.metal.radius, copper.screws.kind) == (0.0216, 1 / 32, "copper")
    assert copper.colors.trim == copper.metal.color == "#b5704a"
    assert scene(metal={"thickness": "0.05 in"}).metal.radius == 0.05
    assert scene(metal={"kind": "aluminum"}, screws={"spacing": 12}).screws.kind == "aluminum"


@pytest.mark.parametrize(
    ("kind", "label", "inches"),
    [
        ("steel", "24 ga", 0.0239),
        ("galvanized", "24ga", 0.0276),
        ("galvanized", "24 gauge", 0.0276),
        ("steel", "24-Gage", 0.0239),
        ("copper", "20 ounces", 0.027),
        ("copper", "16 OZ", 0.0216),
        ("copper", "20oz", 0.027),
    ],
)
def test_a_gauge_means_what_it_means_for_that_metal(kind: str, label: str, inches: float) -> None:
    assert scene(metal={"thickness": label, "kind": kind}).metal.thickness == inches


def test_stock_is_sorted_and_listed_once() -> None:
    assert scene(metal={"stock": ["12'", "8'", 96]}).metal.stock == (96, 144)


@pytest.mark.parametrize(
    ("written", "color"),
    [
        ("slate gray", "#708090"),
        ("SlateGrey", "#708090"),
        ("dark-red", "#8b0000"),
        ("3B4A4F", "#3b4a4f"),
        ("#abc", "#aabbcc"),
    ],
)
def test_a_color_is_read_by_name_and_by_digits(written: str, color: str) -> None:
    assert scene(colors={"walls": written}).colors.walls == color


def test_colors_may_differ_and_come_out_in_lower_case() -> None:
    look = scene(metal={"color": "#ABCDEF"}, colors={"panels": "#00FF00"}).colors
    assert (look.trim, look.panels) == ("#abcdef", "#00ff00")


def test_a_limit_is_read_in_its_own_unit_and_as_a_length() -> None:
    roof = {**ROOF, "length": "10 m", "width": "6 m"}
    limits = {
        "short-end-piece": 500,
        "low-slope-lapped": {"value": 3, "reason": "as built"},
        "end-screw": ["6 in", 200],
    }
    read = scene_of({"title": "a", "unit": "mm", "roof": roof, "rules": {"limits": limits}}).rules.limits
    assert read["short-end-piece"].value == 500
    assert read["short-end-piece"].inches == pytest.approx(500 / 25.4)
    assert (read["low-slope-lapped"].value, read["low-slope-lapped"].reason) == (3, "as built")
    assert read["end-screw"].inches == pytest.approx((6, 200 / 25.4))


def test_accepted_findings_and_rules_that_are_off_need_their_reasons() -> None:
    read = scene(
        rules={"accept": [{"rule": "x", "where": "R1-1", "reason": "y"}], "off": {"z": "because"}}
    ).rules
    assert (read.accept[0].rule, read.accept[0].where, read.accept[0].reason) == ("x", "R1-1", "y")
    assert read.off == {"z": "because"}
    for rules in (
        {"accept": [{"rule": "x"}]},
        {"accept": [{"rule": "x", "reason": " "}]},
        {"off": {"z": ""}},
    ):
        with pytest.raises(SceneError):
            scene(rules=rules)


def test_a_scene_cannot_be_changed_after_it_is_read() -> None:
    with pytest.raises(ValidationError):
        scene().title = "b"


LEG = {"name": "top", "width": 4, "direction": "deck", "fastened": True}
GOOD = {"legs": [LEG, {"name": "face", "width": 3, "turn": 90}], "edges": ["eave"], "anchor": "face"}


def test_a_profile_can_be_read_by_itself() -> None:
    profile = ProfileSpec.model_validate(GOOD)
    assert [leg.name for leg in profile.legs] == ["top", "face"]
    assert profile.legs[1] == LegSpec(name="face", width=3, turn=90)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"anchor": "nose"}, "anchor 'nose' is no leg"),
        ({"legs": [LEG, LEG]}, "has neither|two legs are called"),
        ({"legs": [{**LEG, "fastened": False}, *GOOD["legs"][1:]]}, "no leg is fastened"),
        ({"legs": [LEG, {"name": "face", "width": 3, "turn": 0}]}, "turns by 0 degrees"),
        ({"legs": [LEG, {"name": "face", "width": 3}]}, "neither direction nor turn"),
        ({"legs": []}, "too few|at least"),
        ({"legs": [LEG] * 25}, "too many|at most"),
        ({"edges": ["gutter"]}, "gutter"),
    ],
)
def test_a_profile_that_does_not_hold_together_is_refused(change: dict[str, object], said: str) -> None:
    with pytest.raises(SceneError, match=said):
        scene(profile={"mine": {**GOOD, **change}})


SIZES = st.floats(12, 12_000)


@given(
    st.sampled_from(["gable", "hip", "shed"]),
    SIZES,
    SIZES,
    st.floats(0.3, 84.9),
    st.floats(0.5, 24),
    st.floats(6, 1200),
)
def test_any_sizes_within_the_bounds_are_a_scene_or_a_clear_refusal(
    form: str, length: float, width: float, degrees: float, lap: float, stock: float
) -> None:
    roof = {"form": form, "length": length, "width": width, "pitch": f"{degrees:.6f} deg"}
    try:
        read = scene_of(
            {"title": "a", "roof": roof, "metal": {"stock": [stock]}, "trim": {"rake": {"lap": lap}}}
        )
    except SceneError as error:
        assert all("no shorter than" in line for line in map(str, error.problems))
    else:
        assert read.metal.stock[0] > lap
        assert read.roof.pitch == pytest.approx(math.radians(degrees), abs=1e-6)


def test_toml_and_tables_give_the_same_scene() -> None:
    text = 'title = "a"\n[roof]\nform = "gable"\nlength = 384\nwidth = 240\npitch = "6/12"\n'
    assert scene_from(text) == scene()
