"""The parts of the page on the scene format: which tables there are, and what is said of them besides their keys."""

from __future__ import annotations

from dataclasses import dataclass

from pydantic import BaseModel

from trimwright.model.edge_kinds import KINDS
from trimwright.model.scene.buy import BuySpec, StockSpec
from trimwright.model.scene.faces import FacesSpec
from trimwright.model.scene.house import HouseSpec, OpeningSpec
from trimwright.model.scene.look import LookSpec
from trimwright.model.scene.outline import OutlineSpec, PorchSpec, SideSpec
from trimwright.model.scene.overhangs import Overhangs
from trimwright.model.scene.panels import ClosureSpec, PanelProfileSpec
from trimwright.model.scene.photo import PhotoPoint, PhotoSpec
from trimwright.model.scene.roof import CrossGableSpec, GableSpec, HipSpec, ShedSpec, WingSpec
from trimwright.model.scene.rules import AcceptSpec, LimitSpec, RulesSpec
from trimwright.model.scene.schema import Colors, MetalSpec, PanelSpec, Scene, ScrewSpec
from trimwright.model.scene.shop import ChartColor, ShopSpec
from trimwright.model.scene.sun import SunSpec
from trimwright.model.scene.survey import SurveySpec
from trimwright.model.scene.trim import LegSpec, PlacedPiece, ProfileSpec, TrimSpec

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
    Table("[roof]", (GableSpec, HipSpec, ShedSpec, CrossGableSpec), ("roof",)),
    Table(
        "[roof] wing",
        (WingSpec,),
        ("roof", "wing"),
        note='With `form = "cross gable"`. Faces and edges are named by the sides of its outline, which begin at the '
        "left end of the front wall and go round counter-clockwise: side 3 is the gable of the wing, sides 6 and 8 "
        "are those of the house.",
    ),
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
        "[[roof.porch]]",
        (PorchSpec,),
        ("roof", "porch", "*"),
        note="The slope over a side of an outline or a cross gable, carried down past its eave to a lower one. Its "
        "eave and rakes are called `porch 1 eave`, `porch 1 left rake`. One that begins or ends at the corner of a "
        "gable goes on under the gable's overhang.",
    ),
    Table(
        "[roof] of measured faces",
        (FacesSpec,),
        ("roof",),
        note='With `form = "faces"`. In place of `faces` a scene may name a file in '
        '[CityJSON](https://www.cityjson.org), `file = "block.city.json"`, absolute or relative to the scene, and '
        '`building = "…"`, the id of a city object in it; its parts belong to it, and the highest level of detail that '
        "has roofs counts. Meters become inches, the lowest corner is at 0, and +y stays north. `trimwright roofs` "
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
        "of a slope, `front pitch`; of a height over the first eave beside it, `ridge height 1`; and, level from plumb "
        "mark to plumb mark under its outer corners, `span 1` and `plan diagonal 1`. `trimwright tape SCENE` prints a "
        "form that lists them all in walking order. Faces are taken for plane and eaves for level; the left corner of "
        "the first eave stays, and this eave does not turn. What no tape tells is listed: what stays as planned, and "
        "what follows from the rest.",
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
        ("trim", "*"),
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
        '[closure."deep foam"]',
        (ClosureSpec,),
        ("closure", "*"),
        note="A kind of closure of the scene's own, to be named by `closure` under `[trim.ridge]` and the like. The "
        "catalogue has `Z`, `vented Z` and `foam`.",
    ),
    Table(
        "[[look]]",
        (LookSpec,),
        ("look", "*"),
        note="Another kind of metal comes in its usual thickness and color, unless the look says otherwise.",
    ),
    Table(
        "[sun]", (SunSpec,), ("sun",), note="Finished pictures are lit so; `north` says how the house lies."
    ),
    Table(
        "[house]",
        (HouseSpec,),
        ("house",),
        note="What pictures show under the roof. No piece of trim depends on it.",
    ),
    Table(
        "[[house.opening]]",
        (OpeningSpec,),
        ("house", "opening", "*"),
        note="A window or a door that would reach out of its wall is left away.",
    ),
    Table(
        "[shop]",
        (ShopSpec,),
        ("shop",),
        note="`trimwright offer` prices the roof from the shop's own list: [prices](prices.md).",
    ),
    Table(
        "[[shop.color]]",
        (ChartColor,),
        ("shop", "color", "*"),
        note="The shop's own color chart. It may stand in a file too, `[shop] colors`, for all scenes beside it: a "
        "CSV or XLSX whose first row says `name`, `color` and, if wanted, `gloss` and `reflectance`, or a TOML with "
        "a table `[[color]]` for each; [sample-colors.csv](../scenes/sample-colors.csv) is one, its colors "
        "invented. Its names hold wherever a scene wants a color, before all others, and stand "
        "in lists, in the packet and on the customer's page.",
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
    (Colors, "coat"): "bare or satin, by the metal",
    (OpeningSpec, "height"): "48 in, of a door 80 in",
    (OpeningSpec, "sill"): "so that its head is at 7 ft",
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
