"""What was taped, on paper: each measure with what the roof has, how they agree, and what no tape tells."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.layout import Layout
from trimwright.model.survey.record import Survey

from ...report.survey import HEADINGS, rows_of, survey_told
from ...words.speaker import Speaker
from ..ink.drawing import Drawing
from ..ink.style import SMALL
from ..paper.flow import Block, TableColumn, flow, paragraph, space, table
from ..paper.page import Imprint, Paper, body_of, paged

SHARES = (1.7, 1.0, 1.0, 1.0, 0.75, 0.8, 1.9)
"""Of the width, by column."""


def taped(layout: Layout, paper: Paper, imprint: Imprint) -> list[Drawing]:
    """Return what a survey says; no page where nothing was taped."""
    if layout.survey is None:
        return []
    box, say = body_of(paper, imprint), imprint.say
    pages = flow(_blocks(layout, layout.survey, box.width, say), box)
    aside = say.counted("{count} measure", "{count} measures", count=len(layout.survey.tapes))
    return paged(say("What was taped"), pages, paper, imprint, (aside,))


def _blocks(layout: Layout, survey: Survey, width: float, say: Speaker) -> Iterator[Block]:
    for told in survey_told(layout):
        yield paragraph(say(told), width)
    yield space(0.08)
    columns = [
        TableColumn(say(name), share, right=0 < place < 6, bold=place == 0)
        for place, (name, share) in enumerate(zip(HEADINGS, SHARES, strict=True))
    ]
    yield from table(columns, [[say("{cell}", cell=cell) for cell in row] for row in rows_of(survey)], width)
    yield space(0.06)
    yield paragraph(
        say(
            "A misfit is what was read less what the roof has. Checked by others is the share of a mistake in a "
            "measure that the others bring to light."
        ),
        width,
        SMALL,
    )
