"""Pages as SVG text, kept so that a change to them is seen; reset by a flag, and looked at."""

from collections.abc import Callable

from zoo import layout

from trimwright.viewer.data.pattern_svg import pattern_svg
from trimwright.viewer.drawings.ink.svg import svg_of
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.drawings.piece.batches import batches
from trimwright.viewer.drawings.piece.cut_sheet import cut_sheet
from trimwright.viewer.drawings.piece.template import template

IMPRINT = imprint_of(layout("boat-shed").scene, "2026-11-20")


def test_cut_sheet(golden: Callable[[str, str], None]) -> None:
    plan = layout("boat-shed")
    batch = next(batch for batch in batches(plan) if batch.first.mark == "R1-1")
    golden("boat-shed-R1-1-sheet.svg", svg_of(cut_sheet(batch, plan, "letter", IMPRINT)[0]))


def test_template(golden: Callable[[str, str], None]) -> None:
    batch = next(batch for batch in batches(layout("boat-shed")) if batch.first.mark == "R1-1")
    golden("boat-shed-R1-1-template.svg", svg_of(template(batch, batch.first.ends.low, "letter", IMPRINT)[0]))


def test_pattern(golden: Callable[[str, str], None]) -> None:
    part = next(part for part in layout("boat-shed").parts if part.mark == "R2-2")
    golden("boat-shed-R2-2-pattern.svg", pattern_svg(part))
