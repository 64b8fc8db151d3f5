"""What a layout takes: by hand on the boat shed, and for every scene of the zoo."""

import math

import pytest
import zoo

from trimwright.model.errors import SceneError
from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.buy import BuySpec, StockSpec
from trimwright.model.scene.read import scene_from
from trimwright.model.takeoff.count import take_off
from trimwright.model.takeoff.record import TUBE_BEAD, Lengths, Sealant, Takeoff, with_spare
from trimwright.model.tolerances import TAPE


def marks(takeoff: Takeoff) -> list[str]:
    return sorted(mark for bought in takeoff.lengths for mark in bought.pieces)


def buy(**keys: object) -> BuySpec:
    return BuySpec.model_validate(keys)


@pytest.fixture(scope="module")
def boat_shed() -> Layout:
    return zoo.layout("boat-shed")


@pytest.mark.parametrize("name", zoo.NAMES)
def test_every_piece_comes_out_of_exactly_one_length_that_is_long_enough(name: str) -> None:
    layout = zoo.layout(name)
    takeoff = take_off(layout)
    lengths = {one.mark: one.length for one in (*layout.parts, *layout.cleats)}
    assert marks(takeoff) == sorted(lengths)
    assert takeoff.proven
    assert 0 <= takeoff.waste < 0.5
    for bought in takeoff.lengths:
        assert sum(lengths[mark] for mark in bought.pieces) <= bought.length + TAPE


@pytest.mark.parametrize("name", zoo.NAMES)
def test_what_shares_a_length_is_formed_alike(name: str) -> None:
    layout = zoo.layout(name)
    sections = {part.mark: part.run.section for part in layout.parts}
    for trim in take_off(layout).trim:
        for bought in trim.plan.lengths:
            for mark in bought.pieces:
                assert sections[mark].profile == trim.profile
                bends = [bend.angle for bend in sections[mark].bends]
                assert bends == pytest.approx(trim.bends, abs=math.radians(1))


def test_the_boat_shed_by_hand(boat_shed: Layout) -> None:
    takeoff = take_off(boat_shed)
    eave, rake, ridge = takeoff.trim
    # Each eave is 32' + 2 x 8" = 400": 126, then 122 of 126 a piece, then 34. Two of 34 share a length.
    assert (str(eave.label), eave.counts) == ("hook eave", ((126.0, 7),))
    assert [set(bought.pieces) for bought in eave.shared] == [{"E1-4", "E2-4"}]
    assert eave.offcuts == pytest.approx([126 - 2 * 34], abs=0.01)
    # Four rakes of a full length and a short piece each; the four short ones share a length.
    assert rake.counts == ((126.0, 5),)
    assert ridge.counts == ((126.0, 4),)
    assert takeoff.weight == pytest.approx(
        126 * (7 * eave.width + 5 * rake.width + 4 * ridge.width) * 0.0239 * 0.2904
    )
    # 400" of roof at 16" a panel, alike at both ends, on two slopes; 25 seams a slope of 12 1/2 ft: 8 cleats each.
    assert sum(panel.count for panel in takeoff.panels) == 52
    assert Lengths("panel", 19.75 + 1 / 16, takeoff.panels[0].length, 48) in takeoff.panels
    assert sum(closure.count for closure in takeoff.closures) == 52
    assert (takeoff.cleats.needed, takeoff.cleats.buy) == (50 * 8, 440)
    assert (takeoff.screws.needed, takeoff.screws.buy) == (132, 146)
    # Two beads across 3 laps an eave, 1 a rake, 3 on the ridge; a closure's two beads are 800" each.
    assert takeoff.sealant.laps == pytest.approx(2 * (6 * eave.width + 4 * rake.width + 3 * ridge.width))
    # A seam takes less than 1/4" out of each of 16"; at the four corners they run on 1" past the deck.
    assert takeoff.sealant.closures == pytest.approx(1600, rel=0.01)
    assert takeoff.price is None


def test_a_tube_goes_as_far_as_its_volume() -> None:
    # 10.1 fl oz of 1.8047 in³ in a bead 1/4 in across: 31 ft.
    assert pytest.approx(10.1 * 1.8046875 / 0.0490874, rel=1e-5) == TUBE_BEAD
    assert Sealant(TUBE_BEAD / 1.1, 0, 0, 0).tubes == 1
    assert Sealant(TUBE_BEAD / 1.1, 1, 0, 0).tubes == 2
    assert (with_spare(0), with_spare(10), with_spare(11)) == (0, 11, 13)


def test_two_pitches_bend_two_eave_trims_and_are_bought_apart() -> None:
    labels = [str(trim.label) for trim in take_off(zoo.layout("ice-house")).trim]
    assert "hook eave (E1)" in labels
    assert "hook eave (E2)" in labels


def test_unsealed_laps_take_no_sealant() -> None:
    plain = (zoo.SCENES[zoo.NAMES.index("boat-shed")]).read_text(encoding="utf-8")
    bare = "".join(f"\n[trim.{kind}]\nsealed = false\n" for kind in ("eave", "rake", "ridge"))
    takeoff = take_off(build(scene_from(plain + bare)))
    assert takeoff.sealant.laps == 0
    assert takeoff.sealant.corners > 0


def test_prices_counts_and_what_is_on_hand(boat_shed: Layout) -> None:
    spec = buy(
        objective="money",
        kerf="1/8 in",
        stock=[
            {"length": "10' 6\"", "price": 40},
            {"length": "12'", "price": 44, "profile": "hook rake"},
            {"length": "10' 6\"", "price": 41, "profile": "hook rake"},
            {"length": "11'", "profile": "hook eave", "count": 2, "on_hand": True},
        ],
    )
    takeoff = take_off(boat_shed, spec)
    eave, rake, ridge = takeoff.trim
    assert marks(takeoff) == sorted(part.mark for part in boat_shed.parts)
    # Two of the six full eave lengths come out of what is on hand; the two short pieces share a seventh.
    assert eave.plan.cost == 5 * 40
    assert sum(bought.from_hand for bought in eave.plan.lengths) == 2
    # Four short rakes of 28" and a kerf each: one goes on the end of no full length, so one length more.
    assert rake.plan.cost == 5 * 41
    assert ridge.plan.cost == 4 * 40
    assert takeoff.price == 5 * 40 + 5 * 41 + 4 * 40


def test_a_counted_length_is_taken_once_though_its_profile_is_formed_in_two_ways() -> None:
    hand = {"length": "10' 6\"", "profile": "hook eave", "count": 4, "on_hand": True}
    eaves = [t for t in take_off(zoo.layout("ice-house"), buy(stock=[hand])).trim if t.profile == "hook eave"]
    assert len(eaves) == 2
    assert sum(bought.from_hand for trim in eaves for bought in trim.plan.lengths) == 4


def test_a_piece_longer_than_all_stock_is_bought_at_its_own_length() -> None:
    layout = zoo.layout("slip-shed")
    longest = max(layout.parts, key=lambda part: part.length)
    assert longest.length > max(layout.scene.metal.stock) + TAPE
    prices = [{"length": length, "price": 2 * length} for length in layout.scene.metal.stock]
    takeoff = take_off(layout, buy(objective="money", stock=prices))
    (bought,) = (bought for bought in takeoff.lengths if longest.mark in bought.pieces)
    assert (bought.pieces, bought.length, bought.offcut) == ((longest.mark,), longest.length, 0)
    assert bought.price == round(2 * longest.length, 2)


def test_longer_stock_is_offered_beside_the_metals_own(boat_shed: Layout) -> None:
    spec = BuySpec(objective="lengths", stock=(StockSpec(length=252.0),))
    eave = take_off(boat_shed, spec).trim[0]
    assert eave.counts == ((252.0, 3), (126.0, 1))


def test_the_scene_says_what_there_is_to_buy() -> None:
    plain = (zoo.SCENES[zoo.NAMES.index("boat-shed")]).read_text(encoding="utf-8")
    asked = '\n[buy]\nobjective = "lengths"\nkerf = "1/16 in"\nstock = ["21\'"]\n'
    plan = take_off(build(scene_from(plain + asked))).trim[0].plan
    assert (plan.objective, plan.kerf, plan.lengths[0].length) == ("lengths", 0.0625, 252.0)


def test_out_of_time_it_says_so_and_still_gives_every_piece() -> None:
    layout = zoo.layout("bakehouse")
    takeoff = take_off(layout, buy(stock=["7'", "9'"]), seconds_left=lambda: 0.0)
    assert marks(takeoff) == sorted(part.mark for part in layout.parts)
    assert takeoff.proven == all(trim.plan.gap == 0 for trim in takeoff.trim)


def test_stock_of_an_unknown_profile_is_refused_by_its_place(boat_shed: Layout) -> None:
    spec = buy(stock=["12'", {"length": "12'", "profile": "hook rak"}])
    with pytest.raises(SceneError) as caught:
        take_off(boat_shed, spec)
    assert list(map(str, caught.value.problems)) == [
        "buy.stock no. 2.profile: there is no profile 'hook rak'; did you mean 'hook rake'?"
    ]


def test_coil_by_the_foot_and_by_weight() -> None:
    """Ten panels of a shed, ripped or whole, each take their length of a coil as wide as a whole one.

    A double-lock seam of 1 in every 16 in takes 1 1/4 in on the edge under it and 1 1/2 in on the one over it: *Copper
    Roofings, a Manual* (1925).
    Steel weighs 0.2904 lb a cubic inch: 0.0239 in of it 1 lb a square foot.
    """
    text = 'title = "Ice house"\n[roof]\nform = "shed"\nlength = "12\'"\nwidth = "9\'"\npitch = "4/12"\n'
    own = '[panels]\nprofile = "double lock"\nseam = 1\n[trim.eave]\nprofile = "plain drip"\n'
    plan = build(scene_from(text + own))
    coils = {coil.what: coil for coil in take_off(plan).coils}
    panels = coils["panel"]
    assert len(take_off(plan).coils) == 2, "panels at the rakes come out of the same coil"
    assert panels.length == pytest.approx(sum(panel.length for panel in plan.panels))
    assert panels.width == pytest.approx(16 + 1.25 + 1.5, abs=3 / 8)
    assert panels.weight == pytest.approx(panels.length / 12 * panels.width / 12 * 0.9995, rel=1e-3)
    assert coils["closure"].length == pytest.approx(sum(closure.length for closure in plan.closures))


def test_cleats_by_hand_come_out_of_stock_like_trim() -> None:
    """Two eaves of 22 ft cleated from stock of 10 ft: lengths of 10, 10 and 2 1/2 ft each, and the short two share one.

    2 laps of 3 in: 264 + 6 - 240 = 30 in are left for the third; the plan takes five lengths, not six. Steel of 0.0239
    in is as heavy by the inch as its strip is wide.
    """
    roof = 'form = "gable"\nlength = "22\'"\nwidth = "12\'"\npitch = "6/12"\noverhang = { rake = 0 }\n'
    plan = build(
        scene_from(
            f'title = "Shed"\n[roof]\n{roof}[metal]\nstock = ["10\'"]\n[trim.eave]\nprofile = "plain drip"\n'
        )
    )
    (strip,) = take_off(plan).strips
    assert sorted(cleat.length for cleat in plan.cleats) == pytest.approx([30, 30, 120, 120, 120, 120])
    assert sorted(len(bought.pieces) for bought in strip.plan.lengths) == [1, 1, 1, 1, 2]
    assert strip.plan.proven
    assert strip.weight == pytest.approx(5 * 120 * strip.width * 0.0239 * 0.2904, rel=1e-3)
    spec = buy(stock=[{"length": "12'", "profile": "cleat"}])
    (longer,) = take_off(plan, spec).strips
    assert longer.plan.taken <= strip.plan.taken
