"""Pages as SVG text, kept so that a change to them is seen; reset by a flag, and looked at."""

from collections.abc import Callable

from paged import box_of, paged
from zoo import layout

from trimwright.viewer.data.pattern_svg import pattern_svg
from trimwright.viewer.drawings.ink.svg import svg_of
from trimwright.viewer.drawings.piece.end_sheets import end_sheets
from trimwright.viewer.drawings.piece.template import templates
from trimwright.viewer.words.speaker import speaker_of

PLAN = layout("boat-shed")
BOX, SAY = box_of(PLAN), speaker_of(PLAN.scene)
ENDS = end_sheets(PLAN, BOX, BOX.height, SAY)


def test_end_sheet(golden: Callable[[str, str], None]) -> None:
    golden("boat-shed-ends.svg", svg_of(paged(PLAN, ENDS.blocks)[0]))


def test_template(golden: Callable[[str, str], None]) -> None:
    golden("boat-shed-templates.svg", svg_of(paged(PLAN, templates(ENDS.kinds, BOX, SAY))[0]))


def test_pattern(golden: Callable[[str, str], None]) -> None:
    golden("boat-shed-R2-2-pattern.svg", pattern_svg(PLAN.part("R2-2")))
