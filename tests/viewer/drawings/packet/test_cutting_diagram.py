"""The cutting diagram: every piece in its place on one length, to one scale; as a drawing and as a picture."""

import io

import numpy as np
import pytest
from collisions import collisions
from PIL import Image
from pytest import approx
from zoo import NAMES, layout

from trimwright.model.edge_kinds import KINDS
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.drawings.ink.drawing import Area, Drawing, Words
from trimwright.viewer.drawings.ink.png import png_of
from trimwright.viewer.drawings.packet.cutting_diagram import cutting_diagram
from trimwright.viewer.words.speaker import speaker_of


def diagram(name: str) -> Drawing:
    plan = layout(name)
    return cutting_diagram(timed_takeoff(plan), plan.scene.title, speaker_of(plan.scene))


@pytest.mark.parametrize("name", NAMES)
def test_nothing_collides(name: str) -> None:
    assert [found for found in collisions(diagram(name)) if "off the page" not in found] == []


@pytest.mark.parametrize("name", NAMES)
def test_pieces_and_offcuts_fill_their_lengths_to_scale(name: str) -> None:
    takeoff = timed_takeoff(layout(name))
    areas = [item for item in diagram(name).items if isinstance(item, Area)]
    rings = {what: [item.rings[0] for item in areas if item.name == what] for what in ("piece", "offcut")}
    cuts = [cut for bought in takeoff.lengths for cut in bought.cuts]
    wide = [ring[1][0] - ring[0][0] for ring in rings["piece"]]
    ratio = wide[0] / cuts[0].length
    assert wide == approx([cut.length * ratio for cut in cuts])
    left = [bought.offcut for bought in takeoff.lengths if bought.offcut > 0.01]
    assert [ring[1][0] - ring[0][0] for ring in rings["offcut"]] == approx(
        [length * ratio for length in left]
    )
    starts = [ring[0][0] for ring in rings["piece"]]
    assert np.array(starts) - min(starts) == approx(np.array([cut.start * ratio for cut in cuts]))


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_is_named_once(name: str) -> None:
    words = [item.text for item in diagram(name).items if isinstance(item, Words) and item.name == "piece"]
    marks = [text.split()[0] for text in words if text[0] in {trim.mark for trim in KINDS.values()}]
    assert sorted(marks) == sorted(one.mark for one in (*layout(name).parts, *layout(name).cleats))


def test_the_picture_shows_the_same_lines() -> None:
    drawing = diagram("boat-shed")
    image = Image.open(io.BytesIO(png_of(drawing, 100)))
    assert image.size == approx((drawing.size[0] * 100, drawing.size[1] * 100), abs=1)
    shades = np.asarray(image.convert("L"))
    for item in drawing.items:
        if isinstance(item, Area) and item.name == "piece":
            (x0, y0), (x1, _), *_ = item.rings[0]
            row = round((drawing.size[1] - y0) * 100)
            line = shades[row - 2 : row + 3, round(x0 * 100) + 3 : round(x1 * 100) - 3].min(axis=0)
            assert (line < 120).all()


def test_a_long_diagram_still_makes_a_picture_of_bearable_size() -> None:
    tall = Drawing("tall", (11.0, 900.0), ())
    image = Image.open(io.BytesIO(png_of(tall)))
    assert image.width * image.height < 30_000_000
