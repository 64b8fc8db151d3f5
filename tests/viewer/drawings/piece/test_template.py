"""Templates, measured on the rendered page as a ruler would."""

import numpy as np
import pypdfium2
import pytest
import shapely
from collisions import collisions
from numpy.typing import NDArray
from once import once
from paged import box_of, paged, said
from pytest import approx
from zoo import NAMES, OTHERS, layout

from trimwright.model.layout import Layout
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.drawings.ink.drawing import Area, Drawing, Stroke, Words
from trimwright.viewer.drawings.ink.letters import width_of
from trimwright.viewer.drawings.ink.pdf import pdf_of
from trimwright.viewer.drawings.ink.style import SMALL
from trimwright.viewer.drawings.paper.sizes import Paper
from trimwright.viewer.drawings.piece.end_kinds import kinds_of
from trimwright.viewer.drawings.piece.template import INSIDE, OVERLAP, ROOM, templates, tiles_of
from trimwright.viewer.drawings.piece.template_shapes import shapes_of
from trimwright.viewer.words.speaker import speaker_of

DPI = 300


def beyond(*bends: str) -> float:
    """Return the room inside of a face's cut, where its bends are named, inches."""
    return max(ROOM, *(width_of(words, SMALL) + 2 * INSIDE for words in bends))


STEEP = """
title = "Steep box"
[roof]
form = "gable"
length = "20'"
width = "12'"
pitch = "24/12"
[trim.rake]
profile = "box rake"
face = "7 in"
"""


@once
def pages(name: str, paper: Paper = "letter") -> tuple[Drawing, ...]:
    return drawn(layout(name), paper)


def drawn(plan: Layout, paper: Paper = "letter") -> tuple[Drawing, ...]:
    return paged(plan, templates(kinds_of(plan), box_of(plan, paper), speaker_of(plan.scene)), paper)


def rendered(page: Drawing, names: str) -> NDArray[np.bool_]:
    """Return where a page is dark, at 300 dots an inch, with only the strokes whose name begins with ``names``."""
    items = tuple(item for item in page.items if isinstance(item, Stroke) and item.name.startswith(names))
    document = pypdfium2.PdfDocument(pdf_of([Drawing(page.title, page.size, items)], page.title))
    return np.asarray(document[0].render(scale=DPI / 72, grayscale=True).to_pil()) < 128


@pytest.mark.parametrize("name", [*NAMES, *OTHERS])
def test_nothing_collides(name: str) -> None:
    assert [(page.title, found) for page in pages(name) for found in collisions(page)] == []


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("bar", "length"), [("bar 4 in", 4.0), ("bar 100 mm", 100 / 25.4)])
def test_the_bars_measure_what_they_say(paper: Paper, bar: str, length: float) -> None:
    for page in pages("boat-shed", paper):
        across = np.flatnonzero(rendered(page, bar).any(axis=0))
        measured = (across[-1] - across[0] + 1) / DPI - 0.012
        assert measured == approx(length, rel=2e-3)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_face_measures_what_the_sheet_is(paper: Paper) -> None:
    """The first template of the boat shed, rendered: as wide and as long as the face of R1-1, to two in a thousand."""
    part = layout("boat-shed").part("R1-1")
    section = part.run.section
    page = pages("boat-shed", paper)[0]
    wide = float(section.v[-1] - section.v[section.strip_of("face")])
    metal = [item for item in page.items if isinstance(item, Area) and item.name == "metal"]
    ring = np.array(metal[0].rings[0])
    low, high = ring.min(axis=0), ring.max(axis=0)
    dark = rendered(page, "outline")
    left, right = (round(x * DPI) for x in (low[0] - 0.05, high[0] - 0.1))
    upper, lower = (round((page.size[1] - y) * DPI) for y in (high[1] + 0.1, low[1] - 0.1))
    rows = np.flatnonzero(dark[upper:lower, left:right].any(axis=1))
    # The face's own edge is the hem's; on its other side lies the bend, which is drawn dashed, not as an edge.
    assert ring[:, 1].max() - ring[:, 1].min() == approx(wide, rel=2e-3)
    assert (rows[-1] - rows[0] + 1) / DPI - 0.012 == approx(wide, abs=0.02)
    edge = part.ends.low.cut.edge
    own = edge[edge[:, 1] >= section.v[section.strip_of("face")] - 1e-9]
    assert np.ptp(ring[:, 0]) == approx(np.ptp(own[:, 0]) + beyond("180° down"), abs=2e-3 * np.ptp(own[:, 0]))


def test_both_hands_stand_beside_each_other_as_mirror_images() -> None:
    metal = [item for item in pages("boat-shed")[0].items if isinstance(item, Area) and item.name == "metal"]
    left, right = (np.array(item.rings[0]) for item in metal[:2])
    a, b = left - left.min(axis=0), right - right.min(axis=0)
    mirrored = np.stack([b[:, 0].max() - b[:, 0], b[:, 1]], axis=1)
    for point in a:
        assert np.abs(mirrored - point).sum(axis=1).min() < 0.04
    assert left[:, 0].max() < right[:, 0].min()


def test_one_that_is_wider_than_the_paper_comes_in_tiles_with_a_strip_to_glue() -> None:
    plan = build(scene_from(STEEP, "steep.toml"))
    there = drawn(plan)
    tiles = [i for page in there for i in page.items if isinstance(i, Stroke) and i.name == "tile"]
    assert len(tiles) >= 2
    named = [i.text for page in there for i in page.items if isinstance(i, Words) and i.name == "template"]
    parts = [text for text in named if "tile" in text]
    assert len(parts) == len(tiles)
    assert all(max(x for x, _ in tile.points) <= there[0].size[0] - 0.4 for tile in tiles)
    wide = [max(x for x, _ in tile.points) - min(x for x, _ in tile.points) for tile in tiles[:2]]
    part = plan.part("R1-1")
    section = part.run.section
    edge = part.ends.low.cut.edge
    own = edge[edge[:, 1] >= section.v[section.strip_of("face")] - 1e-9]
    assert sum(wide) - OVERLAP == approx(np.ptp(own[:, 0]) + beyond("90° down"), abs=0.01)


def test_only_ends_that_are_not_cut_square_get_a_template() -> None:
    text = said(pages("boat-shed"))
    assert "A, at the left" in text
    assert "R1-1" in text
    assert "E1" not in text, "eave trim ends square"


def test_the_wings_of_a_ridge_end_share_one_template() -> None:
    """Both ends of the boat shed's ridge are cut alike, and either wing is the mirror image of the other."""
    [shape] = [shape for shape in shapes_of(kinds_of(layout("boat-shed"))) if shape.wings]
    assert {(wing.one.part.mark, wing.leg) for wing in shape.wings} == {
        (mark, leg) for mark in ("C1-1", "C1-4") for leg in ("left wing", "right wing")
    }
    assert [wing.turned for wing in shape.wings].count(True) == 2
    text = said(pages("boat-shed"))
    assert "D left wing at the left and D right wing at the right" in text
    assert "turned over: D right wing at the left and D left wing at the right" in text


def test_wings_that_differ_have_one_each() -> None:
    """Slopes of 5 and 9 in 12 meet at the uneven hip: its wings are turned down along other lines."""
    shapes = [shape for shape in shapes_of(kinds_of(layout("uneven-hip"))) if shape.wings]
    assert len(shapes) == sum(
        2 for kind in kinds_of(layout("uneven-hip")) if kind.first.end.kind.name == "hip foot"
    )


CUT_OFF = """
title = "A wide gable, level at its top"
[roof]
form = "outline"
outline = [["0", "0"], ["16'", "0"], ["16'", "44'"], ["0", "44'"]]
pitch = "6/12"
sides.2 = { edge = "gable" }
"""
"""The wings of its hips lie aslant on the high trim, and their hems end more than a foot before the flaps."""


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_wing_whose_hem_ends_far_from_its_flap_stays_on_the_page(paper: Paper) -> None:
    for page in drawn(build(scene_from(CUT_OFF)), paper):
        [foot] = [item.at[1] for item in page.items if isinstance(item, Words) and "Cautions" in item.text]
        drawings = [i for i in page.items if isinstance(i, Stroke) and i.name in {"outline", "tile", "fold"}]
        assert min(y for item in drawings for _, y in item.points) > foot


@pytest.mark.parametrize("name", ["bakehouse", "uneven-hip"])
def test_a_flap_measures_what_the_sheet_is_and_its_fold_lies_level(name: str) -> None:
    """Each fold and each cut on paper, over all tiles of its wing, is as long as on the sheet."""
    plan = layout(name)
    for shape in (one for one in shapes_of(kinds_of(plan)) if one.wings):
        tiles = tiles_of(shape, box_of(plan).width, speaker_of(plan.scene))
        hinge = shape.hinge
        assert hinge is not None
        ends = np.array(tiles[0].laid(hinge))
        assert abs(ends[0][1] - ends[-1][1]) < 1e-9
        assert np.ptp(ends[:, 0]) == approx(float(np.linalg.norm(hinge[-1] - hinge[0])))
        cut = shape.one.end.cut.edge
        paper = np.array(tiles[0].laid(cut))
        assert np.linalg.norm(np.diff(paper, axis=0), axis=1) == approx(
            np.linalg.norm(np.diff(cut, axis=0), axis=1)
        )
        assert all(tile.size[0] <= box_of(plan).width + 1e-9 for tile in tiles)
        shown = shapely.union_all([tile.window for tile in tiles])
        assert shown.buffer(1e-6).covers(shape.worked)
