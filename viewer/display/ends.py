"""Ends: what one end of a piece meets, in the words of every face."""

from __future__ import annotations

from trimwright.model.joints.end import End
from trimwright.model.message import Length, Listed, Message, Value, message


def meets(end: End) -> Message:
    """Return what an end meets and how it lies there: ``lap of 4" over E1-1``, ``eave-rake over E1-1``."""
    if not end.others:
        return end.kind.words
    values: dict[str, Value] = {"joint": end.kind.words, "others": Listed(end.others)}
    if end.lap is not None:
        values["length"] = Length(end.lap)
        if end.lies == "over":
            return message("{joint} of {length} over {others}", **values)
        return message("{joint} of {length} under {others}", **values)
    match end.lies:
        case "over":
            return message("{joint} over {others}", **values)
        case "under":
            return message("{joint} under {others}", **values)
    return message("{joint} with {others}", **values)


def lies(end: End) -> Message | None:
    """Return what an end lies over or under; None where it does neither."""
    if not end.lies or not end.others:
        return None
    if end.lies == "over":
        return message("over {others}", others=Listed(end.others, "comma"))
    return message("under {others}", others=Listed(end.others, "comma"))
