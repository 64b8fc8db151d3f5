"""A field of the form: where its value stands in a scene, what it is called, and how it is written."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from trimwright.model.errors import Key
from trimwright.model.message import Message

Kind = Literal["text", "length", "lengths", "number", "choice", "count", "check", "here", "color", "either"]
"""``count`` is a choice among whole numbers, ``here`` whether an edge has trim at all, ``either`` one of a few."""

SMALL = 72.0
"""No wall of a house is shorter than this, inches: a bare number that says so is asked about."""

Name = Message | str
"""What something is called; text is a name that a person gave, or a key, and stands as it is."""


@dataclass(frozen=True, slots=True)
class Field:
    """One value of the form.

    Attributes:
        path: Where it stands in a scene.
        label: What it is called.
        kind: How it is written.
        choices: What can be chosen, as written, each with how it reads.
        hint: A few words below it.
        must: It cannot be left empty.
        least: A bare number that comes to less than this, inches, is asked about; 0 for any.
    """

    path: Key
    label: Message
    kind: Kind = "length"
    choices: tuple[tuple[str, Name], ...] = ()
    hint: Name = ""
    must: bool = False
    least: float = 0.0


@dataclass(frozen=True, slots=True)
class FormSection:
    """Fields that belong together.

    Attributes:
        name: Unique in the form.
        title: What it is called.
        fields: Its fields.
        group: What it is one of many of: ``runs``, ``sides``, ``corners``, ``porches``, ``openings``, ``taped``;
            empty for none.
    """

    name: str
    title: Name
    fields: tuple[Field, ...]
    group: str = ""


def written(field: Field, text: str) -> Any:
    """Return what a person wrote into a field as the value that a scene keeps; None when it is left empty."""
    text = text.strip()
    if not text and not field.must:
        return None
    match field.kind:
        case "check":
            return {"yes": True, "no": False}.get(text, text)
        case "here":
            return None if text == "yes" else False
        case "length" | "number" | "count":
            return _number(text)
        case "lengths":
            return [_number(part.strip()) for part in text.strip("[]").split(",")]
        case _:
            return text


def shown(value: Any) -> str | None:
    """Return a value of a scene as its field shows it; None where it has more to it than a field holds."""
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case list() | tuple():
            parts = [shown(one) for one in value]
            return ", ".join(part for part in parts if part is not None) if None not in parts else None
        case Mapping():
            return shown(value["length"]) if set(value) == {"length"} else None
        case _:
            return str(value)


def _number(text: str) -> int | float | str:
    """Return a bare number as one, all else as the text that it is."""
    if re.fullmatch(r"-?(0|[1-9]\d{0,11})", text, re.ASCII):
        return int(text)
    if re.fullmatch(r"-?(\d{1,12}\.\d{0,12}|\.\d{1,12})", text, re.ASCII):
        return float(text)
    return text
