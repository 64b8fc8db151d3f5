"""Templates, measured on the rendered page as a ruler would."""

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray
from pytest import approx
from zoo import NAMES, layout

from trimwright.viewer.drawings.ink.drawing import Drawing, Stroke
from trimwright.viewer.drawings.ink.pdf import pdf_of
from trimwright.viewer.drawings.paper.page import Paper, imprint_of
from trimwright.viewer.drawings.piece.batches import batches
from trimwright.viewer.drawings.piece.template import OVERLAP, template, templates

DPI = 300


def rendered(page: Drawing, names: str) -> NDArray[np.bool_]:
    """Return where a page is dark, at 300 dots an inch, with only the strokes whose name begins with ``names``."""
    items = tuple(item for item in page.items if isinstance(item, Stroke) and item.name.startswith(names))
    document = pypdfium2.PdfDocument(pdf_of([Drawing(page.title, page.size, items)], page.title))
    return np.asarray(document[0].render(scale=DPI / 72, grayscale=True).to_pil()) < 128


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("bar", "length"), [("bar 4 in", 4.0), ("bar 100 mm", 100 / 25.4)])
def test_the_bars_measure_what_they_say(paper: Paper, bar: str, length: float) -> None:
    batch = next(batch for batch in batches(layout("boat-shed")) if batch.first.mark == "R1-1")
    dark = rendered(
        template(batch, batch.first.ends.low, paper, imprint_of(layout("boat-shed").scene))[0], bar
    )
    across = np.flatnonzero(dark.any(axis=0))
    line = 0.012
    measured = (across[-1] - across[0] + 1) / DPI - line
    assert measured == approx(length, rel=2e-3)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_an_end_measures_what_the_sheet_is(paper: Paper) -> None:
    """The tiles put together are as long and as wide as the end of the metal, to two in a thousand."""
    for name, mark, at in (
        ("boat-shed", "R1-1", 0),
        ("boat-shed", "R2-2", 1),
        ("oar-store", "T1-1", 0),
    ):
        batch = next(batch for batch in batches(layout(name)) if batch.first.mark == mark)
        part = batch.first
        edge = part.ends[at].cut.edge
        pages = template(batch, part.ends[at], paper, imprint_of(layout(name).scene))
        pictures = [rendered(page, "outline") for page in pages]
        assert len(pages) == 2, "one above the other"
        top = np.flatnonzero(pictures[0].any(axis=1))[0]
        bottom = np.flatnonzero(pictures[1].any(axis=1))[-1]
        tile = next(item for item in pages[0].items if isinstance(item, Stroke) and item.name == "tile")
        height = tile.points[2][1] - tile.points[0][1]
        wide = (bottom - top + 1) / DPI - 0.012 + height - OVERLAP
        assert wide == approx(part.run.section.width, rel=2e-3)
        # The cut's own extent along the piece: from its end to the farthest corner of the cut.
        depth = np.ptp(edge[:, 0])
        dark = pictures[0] | pictures[1]
        along = np.flatnonzero(dark.any(axis=0))
        metal = (along[-1] - along[0] + 1) / DPI - 0.012
        assert metal == approx(depth + 1.0, abs=2e-3 * (depth + 1) + 1 / DPI)


@pytest.mark.parametrize("name", NAMES)
def test_neighbouring_tiles_share_their_crosses(name: str) -> None:
    """Laid over each other by their crosses, tiles continue each other's lines."""
    for page in templates(layout(name), "letter", imprint_of(layout(name).scene)):
        crosses = [item for item in page.items if isinstance(item, Stroke) and item.name == "register"]
        tiles = [item for item in page.items if isinstance(item, Stroke) and item.name == "tile"]
        assert bool(crosses) == bool(tiles)
        for tile in tiles:
            (left, low), _, (right, top), _ = tile.points
            for cross in crosses:
                x, y = np.mean(cross.points, axis=0)
                inset = min(x - left, right - x, y - low, top - y)
                assert inset == approx(OVERLAP / 2)


def test_lines_go_on_from_tile_to_tile() -> None:
    batch = next(batch for batch in batches(layout("boat-shed")) if batch.first.mark == "R1-1")
    upper, lower = template(batch, batch.first.ends.low, "letter", imprint_of(layout("boat-shed").scene))
    tile = next(item for item in upper.items if isinstance(item, Stroke) and item.name == "tile")
    shift = tile.points[2][1] - tile.points[0][1] - OVERLAP
    joined = {
        name: [
            (x, y - (shift if page is lower else 0.0))
            for page in (upper, lower)
            for item in page.items
            if isinstance(item, Stroke) and item.name == name
            for x, y in item.points
        ]
        for name in ("outline", "fold")
    }
    for points in joined.values():
        heights = sorted(y for _, y in points)
        assert max(np.diff(heights), default=0.0) < 8.0
    outline = np.array(joined["outline"])
    assert np.ptp(outline[:, 1]) == approx(batch.first.run.section.width)


def test_only_corners_get_a_template() -> None:
    titles = [
        page.title for page in templates(layout("boat-shed"), "letter", imprint_of(layout("boat-shed").scene))
    ]
    assert any("R1-1" in title and "low end" in title for title in titles)
    assert not any("E1" in title for title in titles), "eave trim ends square"
    assert not any("R1-1" in title and "high end" in title for title in titles), "laps are square notches"
