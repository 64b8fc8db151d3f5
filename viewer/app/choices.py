"""Choices: how the values that a key of a scene may have read in the form."""

from __future__ import annotations

from collections.abc import Mapping

from trimwright.model.message import Message, message
from trimwright.model.units import Style, Unit

from ..words import key_names

COATS: Mapping[str, Message] = {
    "bare": message("left bare"),
    "matt": message("matt paint"),
    "satin": message("satin paint"),
    "gloss": message("gloss paint"),
}

SIDINGS: Mapping[str, Message] = {
    "lap": message("lap siding"),
    "boards": message("boards and battens"),
    "plain": message("plain"),
}

FORMING: Mapping[str, Message] = {
    "before cutting": message("before its ends are cut"),
    "after cutting": message("after its ends are cut"),
}

OPENINGS: Mapping[str, Message] = {"automatic": message("as houses have them"), "none": message("none")}

GUTTERS: Mapping[str, Message] = {"none": message("none"), **key_names.GUTTERS}

OBJECTIVES: Mapping[str, Message] = {
    "metal": message("metal"),
    "lengths": message("lengths"),
    "money": message("money"),
}

UNITS: Mapping[Unit, Message] = {
    "in": message("inches"),
    "ft": message("feet"),
    "mm": message("millimeters"),
    "cm": message("centimeters"),
    "m": message("meters"),
}

TAPES: Mapping[Style, Message] = {
    "feet": message("feet and inches"),
    "mm": message("millimeters"),
}
