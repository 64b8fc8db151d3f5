"""The page on the scene format: every key of the models with its kind, default, bounds, example and meaning."""

from __future__ import annotations

import inspect
import re
import tomllib
from collections.abc import Iterator, Sequence
from importlib.resources import files
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from trimwright.model.edge_kinds import KINDS

from ..display.trim_looks import LOOKS
from .kinds_of_value import as_toml, either, in_inches, kind_of_field
from .scene_tables import DEFAULTS, TABLES, WORDS, Model, Table

EXAMPLES = (
    "every-key.toml",
    "broken-keys.toml",
    "hip-keys.toml",
    "outline-keys.toml",
    "cross-gable-keys.toml",
    "faces-keys.toml",
)
"""Scenes that together write every key; the page takes its examples from the first that has one."""

INTRO = """# Scene format

A scene is a text file in [TOML](https://toml.io) that says all there is to know about a roof and its trim. Only
`title`, `roof.form`, `roof.length`, `roof.width` and `roof.pitch` are needed, or `roof.outline` in place of the two
sizes. This is a whole scene:

```toml
title = "Boat shed on the north shore"
[roof]
form = "gable"
length = "32'"
width = "20'"
pitch = "6/12"
```

## How values are written

| kind | written as |
|---|---|
| length | `"12' 6 3/8\\""`, `"6 3/8 in"`, `"2 ft"`, `"3810 mm"`, `"3.2 m"`, or a bare number in the scene's `unit` |
| pitch | `"6/12"`, `"6 in 12"`, `"26.57 deg"` or `"50 %"`; a bare number is refused, it could mean any of the three |
| color | `"#3b4a4f"`, or a name that web pages have: `"slate gray"` |
| text | on one line, at most 200 characters |
| yes or no | `true` or `false` |

A problem is told in one line with its place, what came and what is allowed, all problems of a file at once. A key
that does not exist is refused, and the nearest one that does is suggested:

```text
boat-shed.toml: trim.rake.lap: -4 is not a length; give more than 0, such as 4 in
```

Edges are `front`, `back`, `left` and `right` as seen from above with the front below. **Left** and **right** rakes
are as seen from outside, looking at the gable end: the `right-end left rake` is on the right end of the house, on the
left hand of a person who stands before that end. Piece marks, such as `R1-2`, begin with the letter of the
kind of edge, see [`[trim]`](#trim), and the run's number, and count pieces from the run's low end. The
[glossary](glossary.md) has the rest.

## Keys

Lengths are shown in feet and inches; a bare number in an example is in inches, the unit of that scene.

"""


def scene_format_page() -> str:
    """Return the page's text."""
    parts = [INTRO]
    for table in TABLES:
        parts.append(f"### {_heading(table.heading)}\n\n")
        if table.note:
            parts.append(f"{table.note}\n\n")
        if table.models:
            parts.append(_rows(table) + "\n")
        elif table.example == ("trim",):
            parts.append(_kinds() + "\n")
    parts.append(
        "## Scenes with every key\n\nNobody needs them all at once; a test reads these and finds every key.\n\n"
    )
    parts += [f"```toml\n{example_text(name)}```\n\n" for name in EXAMPLES]
    return "".join(parts).rstrip("\n") + "\n"


def example_text(name: str) -> str:
    """Return the text of one of the example scenes."""
    return files(__package__).joinpath(name).read_text(encoding="utf-8")


def keys_of(table: Table) -> Iterator[tuple[str, tuple[Model, ...], FieldInfo]]:
    """Yield each key of a table, the models that have it, and its field."""
    seen: dict[str, list[Model]] = {}
    for model in table.models:
        for name in model.model_fields:
            if name not in table.hidden:
                seen.setdefault(name, []).append(model)
    for name, models in seen.items():
        yield name, tuple(models), models[0].model_fields[name]


def value_in_examples(path: Sequence[str]) -> object:
    """Return what the example scenes write at ``path``, ``*`` being any item of a list or table; None for nothing."""
    for name in EXAMPLES:
        value = _value_at(tomllib.loads(example_text(name)), path)
        if value is not None:
            return value
    return None


def _value_at(at: object, path: Sequence[str]) -> object:
    """Return what stands at ``path`` inside parsed tables, or None."""
    if not path:
        return at
    first, *rest = path
    if first == "*" and isinstance(at, list | dict):
        items = at.values() if isinstance(at, dict) else at
        found = (_value_at(item, rest) for item in items)
        return next((value for value in found if value is not None), None)
    return _value_at(at[first], rest) if isinstance(at, dict) and first in at else None


def _heading(text: str) -> str:
    return f"`{text}`" if "[" in text or text.islower() else text


def _rows(table: Table) -> str:
    lines = ["| key | kind | default | example | meaning |", "|---|---|---|---|---|"]
    for name, models, field in keys_of(table):
        words = _meaning(models[0], name)
        if len(models) < len(table.models):
            words = f"{words} Only {' and '.join(f'`{_form(model)}`' for model in models)}."
        kinds = either(kind_of_field(model.model_fields[name]) for model in models)
        written = field.alias or name
        cells = (
            f"`{written}`",
            kinds,
            _default(models[0], name, field),
            _example((*table.example, written)),
            words,
        )
        lines.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    return "\n".join(lines) + "\n"


def _kinds() -> str:
    """Return the table of the kinds of edge."""
    lines = ["| key | marks | usual profile | example | meaning |", "|---|---|---|---|---|"]
    for kind, trim in KINDS.items():
        about = LOOKS[kind].about
        lines.append(
            f"| `{kind}` | `{trim.mark}` | `{trim.profile}` | {_example(('trim', kind))} | {about} |"
        )
    return "\n".join(lines) + "\n"


def _form(model: Model) -> str:
    return str(get_args(model.model_fields["form"].annotation)[0])


def _meaning(model: Model, name: str) -> str:
    """Return what the docstring of ``model``, or of the one it extends, says about a key."""
    if (model, name) in WORDS:
        return WORDS[model, name]
    for kind in model.__mro__:
        text = re.search(
            rf"^ +{name}: (.+?)(?=^ +\w+: |\Z)", inspect.getdoc(kind) or "", re.MULTILINE | re.DOTALL
        )
        if text:
            words = " ".join(text[1].split()).replace("``", "`").replace("None", "left out")
            return re.sub(r", (inches|radians)(?=[.;,])", "", words)
    return ""


def _default(model: Model, name: str, field: FieldInfo) -> str:
    if (model, name) in DEFAULTS:
        return DEFAULTS[model, name]
    if field.is_required():
        return "**needed**"
    value = field.get_default() if field.default is not PydanticUndefined else {}
    if value is None:
        return "left out"
    if isinstance(value, BaseModel | dict):
        return "its keys' own" if kind_of_field(field) == "table" else "none"
    if isinstance(value, bool | str):
        return f"`{as_toml(value)}`"
    return "none" if value == () else _quantity(value, field)


def _quantity(value: Any, field: FieldInfo) -> str:
    """Return a number or a list of numbers; lengths as a tape reads them."""
    if "Length(" in repr(field.annotation) + repr(field.metadata):
        return ", ".join(in_inches(one) for one in (value if isinstance(value, tuple) else (value,)))
    return f"`{value:g}`" if isinstance(value, float) else f"`{as_toml(value)}`"


def _example(path: Sequence[str]) -> str:
    value = value_in_examples(path)
    if value is None:
        return ""
    if isinstance(value, dict) or (isinstance(value, list) and any(isinstance(one, dict) for one in value)):
        return "below"
    return f"`{as_toml(value)}`"
