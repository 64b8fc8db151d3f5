"""A survey and how sure it makes lengths, as plain values: lengths in inches, pitches in degrees."""

from __future__ import annotations

import math
from typing import Any

from trimwright.model.roof.record import Roof
from trimwright.model.sureness.record import Sureness
from trimwright.model.survey.quantities import Kind
from trimwright.model.survey.record import Survey


def survey_of(survey: Survey | None, roof: Roof) -> dict[str, Any] | None:
    """Return what a survey found; None where nothing was taped."""
    if survey is None:
        return None
    kinds = {tape.name: tape.kind for tape in survey.tapes}
    return {
        "tapes": [
            {
                "name": tape.name,
                "kind": tape.kind,
                "read": _plain(tape.read, tape.kind),
                "planned": _plain(tape.form, tape.kind),
                "roof": _plain(tape.now, tape.kind),
                "misfit": _plain(tape.misfit, tape.kind),
                "redundancy": tape.redundancy,
                "score": tape.score,
                "left_out": tape.left_out,
            }
            for tape in survey.tapes
        ],
        "untold": [
            {
                "name": one.name,
                "kind": one.kind,
                "value": _plain(one.value, one.kind),
                "by_level": one.by_level,
            }
            for one in survey.untold
        ],
        "doubts": [
            {"tapes": doubt.tapes, "by": _plain(doubt.by, kinds[doubt.tapes[0]])} for doubt in survey.doubts
        ],
        "crooked": [
            {
                "face": roof.faces[one.face].name,
                "left": one.left,
                "right": one.right,
                "taper": one.taper,
            }
            for one in survey.crooked
        ],
    }


def sure_of(sureness: Sureness | None, mark: str) -> dict[str, Any] | None:
    """Return how sure a piece's length is; None where nobody says how well the roof was measured."""
    if sureness is None:
        return None
    one = sureness.pieces[mark]
    return {"least": one.least, "most": one.most, "fit": one.fit}


def _plain(value: float, kind: Kind) -> float:
    return math.degrees(value) if kind == "pitch" else value
