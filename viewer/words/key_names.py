"""Names of what a scene and a layout have fixed keys for: forms, seams, the work of a step."""

from __future__ import annotations

from collections.abc import Mapping

from trimwright.model.message import Message, message
from trimwright.model.steps import Verb

FORMS: Mapping[str, Message] = {
    "gable": message("gable roof"),
    "hip": message("hip roof"),
    "shed": message("shed roof"),
    "cross gable": message("cross-gable roof"),
    "outline": message("outline"),
}
"""Every form of a roof."""

SEAMS: Mapping[str, Message] = {
    "standing seam": message("standing seam"),
    "lapped and sealed": message("lapped and sealed"),
    "lapped": message("lapped"),
}
"""Every kind of panel seam."""

LOCKS: Mapping[str, Message] = {
    "double lock": message("double lock"),
    "single lock": message("single lock"),
    "snap lock": message("snap lock"),
    "screwed rib": message("screwed rib"),
}
"""The panel profiles of the catalogue."""

GUTTERS: Mapping[str, Message] = {"box": message("box"), "half-round": message("half-round")}
"""The shapes of gutters."""

FIRST_SEAMS: Mapping[str, Message] = {
    "clear": message("clear of screws and laps"),
    "left": message("a whole panel at the left"),
    "right": message("a whole panel at the right"),
    "centered": message("a seam in the middle"),
    "equal": message("both ends alike"),
}
"""Where the first seam of a face may stand."""

LAID_FROM: Mapping[str, Message] = {"left": message("the left"), "right": message("the right")}
"""The end of a face at which panels begin to be laid."""

FIXED: Mapping[str, Message] = {
    "eave": message("at the eave"),
    "middle": message("in the middle"),
    "top": message("at the top"),
}
"""Where panels are fastened so that they cannot move."""

WORK: Mapping[Verb, Message] = {
    "mark": message("mark"),
    "cut": message("cut"),
    "turn": message("turn over"),
    "fold": message("fold"),
    "ease": message("ease"),
    "set": message("set"),
    "seal": message("seal"),
}
"""What is done in a step."""
