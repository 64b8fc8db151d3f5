"""The page on the scene format: every key of the models with its kind, default, bounds, example and meaning."""

from __future__ import annotations

import inspect
import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib.resources import files
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from trimwright.model.scene.buy import BuySpec, StockSpec
from trimwright.model.scene.faces import FacesSpec
from trimwright.model.scene.look import LookSpec
from trimwright.model.scene.outline import OutlineSpec, SideSpec
from trimwright.model.scene.overhangs import Overhangs
from trimwright.model.scene.panels import PanelProfileSpec
from trimwright.model.scene.photo import PhotoPoint, PhotoSpec
from trimwright.model.scene.roof import GableSpec, HipSpec, ShedSpec
from trimwright.model.scene.rules import AcceptSpec, LimitSpec, RulesSpec
from trimwright.model.scene.schema import Colors, MetalSpec, PanelSpec, Scene, ScrewSpec
from trimwright.model.scene.shop import ShopSpec
from trimwright.model.scene.survey import SurveySpec
from trimwright.model.scene.trim import LegSpec, PlacedPiece, ProfileSpec, TrimSpec
from trimwright.model.trim_kinds import KINDS

from ..display.trim_looks import LOOKS
from .kinds_of_value import as_toml, either, in_inches, kind_of_field

Model = type[BaseModel]


@dataclass(frozen=True, slots=True)
class Table:
    """A table of a scene and the page's part on it.

    Attributes:
        heading: As it is written in a scene.
        models: What describes it; of several, keys that not all have say whose they are.
        example: Path of one such table in the example scenes.
        hidden: Keys that a scene does not write.
        note: What else there is to say.
    """

    heading: str
    models: tuple[Model, ...]
    example: tuple[str, ...]
    note: str = ""
    hidden: frozenset[str] = frozenset()


TABLES = (
    Table("The scene itself", (Scene,), ()),
    Table("[roof]", (GableSpec, HipSpec, ShedSpec), ("roof",)),
    Table(
        "[roof] of any outline",
        (OutlineSpec,),
        ("roof",),
        note='With `form = "outline"`. The roof has a slope over every side of the outline but its gables; all eaves '
        "are at one height. The deck is the outline with each side moved out by its overhang, and walls rise to meet "
        "it. Its faces and edges are named by the sides: `side 3`, `eave 3`, `left rake 2`, `valley 3-4`.",
        hidden=frozenset({"form"}),
    ),
    Table(
        "[roof.sides]",
        (SideSpec,),
        ("roof", "sides", "*"),
        note="A table for each side that differs, by its number: side 1 goes from the first corner to the second. A "
        "gable stands between two outside corners and two eaves.",
    ),
    Table(
        "[roof] of measured faces",
        (FacesSpec,),
        ("roof",),
        note='With `form = "faces"`. In place of `faces` a scene may name a file in '
        '[CityJSON](https://www.cityjson.org), `file = "block.city.json"`, absolute or relative to the scene, and '
        '`building = "…"`, the id of a city object in it; its parts belong to it, and the highest level of detail that '
        "has roofs counts. Metres become inches, the lowest corner is at 0, and +y stays north. `trimwright roofs` "
        "lists the buildings of a file. Faces in one plane that share an edge are made one. An edge that lies under a "
        "higher roof is a step, and stays bare.",
        hidden=frozenset({"form", "file", "building"}),
    ),
    Table("[roof] overhang", (Overhangs,), ("roof", "overhang")),
    Table(
        "[roof.taped]",
        (),
        ("roof", "taped"),
        note="What was measured on a real roof, of any form: its shape comes from the form, its true sizes from the "
        "tape. Lengths are those of the deck, overhangs included: of an edge by its name, `front eave`; of a diagonal, "
        "`front diagonal 1`, which starts at the left corner of the face's eave, the others in order round the face; "
        "of a slope, `front pitch`. Faces "
        "are taken for plane and eaves for level; the left corner of the first eave stays, and this eave does not "
        "turn. What no tape tells stays as the form has it, and is listed.",
    ),
    Table(
        "[survey]",
        (SurveySpec,),
        ("survey",),
        note="How well lengths and pitches are known: two standard errors, so that 95 in 100 readings are nearer.",
    ),
    Table(
        "[metal]",
        (MetalSpec,),
        ("metal",),
        note="`thickness` also takes a label of the metal: `24 ga` or `24 gauge`, `20 oz`.",
    ),
    Table("[colors]", (Colors,), ("colors",)),
    Table(
        "[trim]",
        (),
        ("trim",),
        note="A table for each kind of edge; `false` in place of a table leaves those edges bare.",
    ),
    Table(
        ", ".join(f"[trim.{kind}]" for kind in KINDS),
        (TrimSpec,),
        ("trim", "rake"),
        note="All profiles of the catalogue are drawn in [profiles](profiles.md).",
    ),
    Table(
        "pieces",
        (PlacedPiece,),
        ("trim", "rake", "pieces", "*"),
        note='An item of `pieces` is a bare length, such as `"7\' 2\\""`, or a table:',
    ),
    Table(
        '[run."right-end left rake"]',
        (),
        ("run", "right-end left rake"),
        note="What one run has otherwise than its kind of edge: the keys of `[trim.rake]`, all of them optional. A "
        "run has the name of its edge, as `trimwright preview` prints it; `false` in place of the table leaves that "
        "edge bare.",
    ),
    Table("[screws]", (ScrewSpec,), ("screws",)),
    Table("[panels]", (PanelSpec,), ("panels",)),
    Table(
        "[rules]",
        (RulesSpec,),
        ("rules",),
        note="The rules and their limits have [a page each](rules/index.md).",
    ),
    Table(
        "[rules.limits]",
        (LimitSpec,),
        ("rules", "limits", "short-end-piece"),
        "A limit is a bare value or a table:",
        hidden=frozenset({"inches"}),
    ),
    Table("[[rules.accept]]", (AcceptSpec,), ("rules", "accept", "*")),
    Table("[buy]", (BuySpec,), ("buy",)),
    Table(
        "[[buy.stock]]",
        (StockSpec,),
        ("buy", "stock", "*"),
        note="An item of `stock` is a bare length or a table:",
    ),
    Table(
        '[profile."deep rake"]',
        (ProfileSpec,),
        ("profile", "deep rake"),
        note="A profile of the scene's own; it wins over one of the catalogue that has the same name. Corners are "
        "cut by the legs' names: eave, rake and high trim has a `top` and a `face`; ridge and hip caps have a "
        "`left wing` and a `right wing`.",
    ),
    Table("legs", (LegSpec,), ("profile", "deep rake", "legs", "*")),
    Table(
        '[panel_profile."low lock"]',
        (PanelProfileSpec,),
        ("panel_profile", "low lock"),
        note="A panel profile of the scene's own, to be named by `panels.profile`. The catalogue has `double lock`, "
        "`single lock`, `snap lock` and `screwed rib`.",
    ),
    Table(
        "[[look]]",
        (LookSpec,),
        ("look", "*"),
        note="Another kind of metal comes in its usual thickness and color, unless the look says otherwise.",
    ),
    Table(
        "[shop]",
        (ShopSpec,),
        ("shop",),
        note="`trimwright offer` prices the roof from the shop's own list: [prices](prices.md).",
    ),
    Table(
        "[photo]",
        (PhotoSpec,),
        ("photo",),
        note="`trimwright photo` draws the finished roof onto the photograph. Four corners do where the file or "
        "`focal` tells the focal length; six or more on two faces tell it themselves, and which tap is wrong.",
    ),
    Table("[[photo.point]]", (PhotoPoint,), ("photo", "point", "*")),
)
"""The parts of the page, in order."""

WORDS: dict[tuple[Model, str], str] = {
    (Scene, "run"): "By name of a run: what it has otherwise; `false` leaves it bare.",
    (GableSpec, "form"): "Which form it is.",
    (SurveySpec, "tape"): "How far a tape may be off, either way.",
    (SurveySpec, "pitch"): "How far a measured pitch may be off, either way.",
    (ProfileSpec, "edges"): "Kinds of edge that it suits: keys of `[trim]`.",
    (Colors, "panels"): "Of the panels; the metal's own color unless the scene says otherwise here.",
    (Colors, "trim"): "Of the trim; the metal's own color unless the scene says otherwise here.",
    (StockSpec, "length"): "What can be had, or is there.",
    (MetalSpec, "thickness"): "Of the sheet, without paint.",
}
"""Meanings that the models' own words leave out, or say for programmers."""

DEFAULTS: dict[tuple[Model, str], str] = {
    (Scene, "show"): "by `unit`",
    (Scene, "trim"): "each kind's usual profile",
    (MetalSpec, "thickness"): "the metal's usual",
    (MetalSpec, "color"): "the metal's usual",
    (MetalSpec, "radius"): '1/32" or the thickness, whichever is more',
    (Colors, "trim"): "`metal.color`",
    (Colors, "panels"): "`metal.color`",
    (TrimSpec, "profile"): "the edge's usual",
    (TrimSpec, "pieces"): "laid out by `start`",
    (PlacedPiece, "hand"): "the run's own",
    (PlacedPiece, "lies"): "as water or wind wants it",
    (ScrewSpec, "first"): "the rule set's",
    (ScrewSpec, "spacing"): "the rule set's",
    (ScrewSpec, "ends"): "the rule set's",
    (ScrewSpec, "kind"): "what suits the metal",
    (SurveySpec, "pitch"): "`0.5 deg`",
    (AcceptSpec, "where"): "everywhere",
    (StockSpec, "count"): "as many as are wanted",
    (StockSpec, "profile"): "all profiles",
}
"""Defaults that depend on other keys, or that a word says better than a missing value."""

EXAMPLES = ("every-key.toml", "hip-keys.toml", "outline-keys.toml", "faces-keys.toml")
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
        cells = (
            f"`{name}`",
            kinds,
            _default(models[0], name, field),
            _example((*table.example, name)),
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
