"""What was taped, on paper: each measure with what the roof has, how they agree, and what no tape tells."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.layout import Layout
from trimwright.model.survey.record import Survey

from ...report.survey import HEADINGS, rows_of, survey_told
from ...words.speaker import Speaker
from ..ink.style import SMALL
from ..paper.flow import Block, TableColumn, paragraph, space, table

SHARES = (1.7, 1.0, 1.0, 1.0, 0.75, 0.8, 1.9)
"""Of the width, by column."""


def taped(layout: Layout, survey: Survey, width: float, say: Speaker) -> Iterator[Block]:
    """Yield what a survey says."""
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
