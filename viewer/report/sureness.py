"""How sure lengths are, in words: which pieces are cut to fit on the roof, and how long they may come out."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.layout import Layout
from trimwright.model.message import Angle, Length, Listed, Message, counted, message
from trimwright.model.sureness.record import MEASURES, PROMISE


def sureness_told(layout: Layout) -> Iterator[Message]:
    """Yield what to know of how sure the lengths are; nothing where nobody says how well the roof was measured."""
    sure, spec = layout.sureness, layout.scene.survey
    if spec is None:
        return
    if sure is None:
        yield message(
            "How sure lengths are cannot be told: this roof has more than {most} measures, or cannot be laid out "
            "within what they may be off.",
            most=MEASURES,
        )
        return
    yield message(
        "Measured to {tape} and {pitch} degrees either way: lengths and miters are looked at on the bounds of that, "
        "and on {count} roofs drawn by chance within them.",
        tape=Length(spec.tape),
        pitch=Angle(spec.pitch, 1),
        count=sure.tried,
    )
    fit = tuple(one.mark for one in sure.pieces.values() if one.fit)
    if fit:
        yield counted(
            "Cut to fit on the roof, since the measures cannot promise its length to {promise}: {marks} "
            "({count} piece).",
            "Cut to fit on the roof, since the measures cannot promise their lengths to {promise}: {marks} "
            "({count} pieces).",
            count=len(fit),
            promise=Length(PROMISE),
            marks=Listed(fit, "comma"),
        )
    for run in sure.runs.values():
        if len(run.divisions) > 1:
            yield message(
                "{run}: {ways}.",
                run=run.run,
                ways=Listed(
                    tuple(
                        counted(
                            "{count} piece in {share} of 100 such roofs",
                            "{count} pieces in {share} of 100 such roofs",
                            count=division.count,
                            share=f"{100 * division.share:.0f}",
                        )
                        for division in run.divisions
                    ),
                    "or",
                ),
            )


def fit_told(layout: Layout, mark: str) -> Message | None:
    """Return between which lengths a piece may come out, where it is cut to fit; None where its length is sure."""
    sure = layout.sureness
    if sure is None or not sure.pieces[mark].fit:
        return None
    one = sure.pieces[mark]
    return message(
        "Measure on the roof before its last end is cut: it may come out {least} to {most} long.",
        least=Length(one.least),
        most=Length(one.most),
    )
