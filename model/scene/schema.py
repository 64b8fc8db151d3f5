"""A scene: all that a person says about a roof and its trim. Lengths are inches, slopes radians."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, StrictBool, ValidationError, ValidationInfo, field_validator, model_validator
from pydantic_core import InitErrorDetails

from ..edge_kinds import KINDS, EdgeKind
from ..errors import Key, Problem
from ..message import Fine, Length, message
from ..metals import METALS
from ..units import Style, Tape, Unit
from .buy import BuySpec, StockSpec
from .colors import Coat
from .fields import (
    Color,
    Cover,
    FromEnd,
    Head,
    Hole,
    Languages,
    Offset,
    Seam,
    Spacing,
    Spec,
    TapeMark,
    Text,
    refusal,
)
from .house import HouseSpec, OpeningSpec, Side
from .look import LookSpec
from .metal import MetalSpec
from .outline import OutlineSpec, SideSpec
from .overhangs import Overhangs
from .panels import ClosureSpec, PanelProfileSpec
from .photo import PhotoPoint, PhotoSpec
from .roof import GableSpec, HipSpec, RoofSpec, ShedSpec
from .rules import AcceptSpec, LimitSpec, RulesSpec
from .shop import ChartColor, ShopSpec
from .sun import SunSpec
from .survey import SurveySpec
from .trim import (
    LegSpec,
    PlacedPiece,
    ProfileSpec,
    RunOverride,
    TrimOverride,
    TrimSpec,
    TrimSpecs,
)

__all__ = [
    "AcceptSpec",
    "BuySpec",
    "ChartColor",
    "ClosureSpec",
    "Colors",
    "GableSpec",
    "HipSpec",
    "HouseSpec",
    "LegSpec",
    "LimitSpec",
    "LookSpec",
    "MetalSpec",
    "OpeningSpec",
    "OutlineSpec",
    "Overhangs",
    "PanelProfileSpec",
    "PanelSpec",
    "PhotoPoint",
    "PhotoSpec",
    "PlacedPiece",
    "ProfileSpec",
    "RoofSpec",
    "RulesSpec",
    "Scene",
    "ScrewSpec",
    "ShedSpec",
    "ShopSpec",
    "SideSpec",
    "StockSpec",
    "SunSpec",
    "SurveySpec",
    "TrimOverride",
    "TrimSpec",
]

FastenerMetal = Literal["steel", "galvanized", "aluminum", "copper", "brass", "bronze", "stainless"]


class ScrewSpec(Spec):
    """The screws of the trim; None takes the rule set's number.

    Attributes:
        first: Distance of the first from the low end of a run, inches.
        spacing: The most between two, inches.
        ends: Least and most distance from both ends of a piece, inches.
        kind: Their metal; the one that suits the trim when left out.
        head: Diameter of the head, inches.
        pilot: Diameter of pilot holes drilled in the trim, inches; None drills none.
        placed: By piece mark, distances from the piece's low end, inches; they win over the automatic ones.
    """

    first: FromEnd | None = None
    spacing: Spacing | None = None
    ends: tuple[FromEnd, FromEnd] | None = None
    kind: FastenerMetal = "galvanized"
    head: Head = 0.3125
    pilot: Hole | None = None
    placed: dict[Text, Annotated[tuple[TapeMark, ...], Field(min_length=1, max_length=1000)]] = Field(
        default_factory=dict
    )


class PanelSpec(Spec):
    """The panels.

    Attributes:
        cover: Width from seam to seam, inches.
        seam: Height of the seams, inches.
        profile: Name of their profile: how their edges are locked into each other.
        laid_from: The end of the roof at which laying starts, looking up the slope: each panel laps over the one
            before it.
        start: Where the first seam stands: ``clear`` of screws and laps, and the ends of the roof as alike as that
            allows; a whole panel at the ``left`` or the ``right`` end, looking up the slope; a seam on the middle
            of the eave, ``centered``; or both end panels ``equal``.
        offset: Where the first seam stands, from the left looking up the slope, inches; 0 leaves it to ``start``.
        fixed: Where they are fastened so that they cannot move; from there they move with heat.
        aligned: The seams of two slopes meet at their ridge.
        seam_kind: How water is kept out of the seams; the least slope depends on it.
        show: Show them in the pictures.
    """

    cover: Cover = 16.0
    seam: Seam = 1.5
    profile: Text = "double lock"
    laid_from: Literal["left", "right"] = "left"
    start: Literal["clear", "left", "right", "centered", "equal"] = "clear"
    offset: Offset = 0.0
    aligned: StrictBool = False
    fixed: Literal["eave", "middle", "top"] = "eave"
    seam_kind: Literal["standing seam", "lapped and sealed", "lapped"] = "standing seam"
    show: StrictBool = True


class Colors(Spec):
    """The finished look.

    Attributes:
        trim: The metal's own color unless the scene says otherwise here.
        panels: The same.
        walls: Of the walls.
        coat: Of the metal: left bare, or paint of one gloss; None for what is usual for it.
        gutters: Of paint on the gutters; None for the look of the trim.
    """

    trim: Color
    panels: Color
    walls: Color = "#d8d2c4"
    coat: Coat | None = None
    gutters: Color | None = None


class Scene(Spec):
    """A roof and its trim, as asked for.

    Attributes:
        title: What it is called.
        unit: What a bare number in the scene is in.
        show: How lengths are written: feet, inches and fractions, or millimeters.
        denominator: The finest fraction of an inch that is written.
        language: What everything is said in, by its code as in ISO 639, or several beside each other; keys, names and
            units stay as they are.
        roof: Form and sizes.
        survey: How well the sizes are known; None where nothing is said of it.
        metal: Of the trim.
        colors: The finished look.
        trim: By kind of edge.
        run: By name of a run: what it has otherwise; None leaves it bare.
        screws: Of the trim.
        panels: Of the faces.
        rules: What is checked, and against which limits.
        buy: What can be had, at which price, and what to buy least of.
        profile: Profiles of the scene's own, by name.
        look: Other looks that a customer may choose.
        house: What stands under the roof, for pictures.
        sun: Where it stands in finished pictures; None for where they look best.
        shop: Who offers the roof.
        photo: A photograph of the house to show the roof on.
        panel_profile: Panel profiles of the scene's own, by name.
        closure: Kinds of closure of the scene's own, by name.
        cut: Marks of the pieces that are already cut; `trimwright changes` says what they are still good for.
        wind: Side that the prevailing wind comes from.
        street: Side that people see the house from; None when it does not matter.
        north: Direction of north in plan, degrees clockwise from the back (+y); None when unknown.
    """

    title: Text
    unit: Unit = "in"
    show: Style = Field(default_factory=lambda data: "feet" if data["unit"] in ("in", "ft") else "mm")
    denominator: Literal[2, 4, 8, 16, 32, 64] = 16
    language: Languages = ("en",)
    roof: RoofSpec
    survey: SurveySpec | None = None
    metal: MetalSpec = Field(default_factory=MetalSpec)
    colors: Colors = Field(default_factory=dict, validate_default=True)
    trim: TrimSpecs = Field(default_factory=dict, validate_default=True)
    run: dict[Text, RunOverride] = Field(default_factory=dict)
    screws: ScrewSpec = Field(default_factory=dict, validate_default=True)
    panels: PanelSpec = PanelSpec.model_construct()
    rules: RulesSpec = RulesSpec.model_construct()
    buy: BuySpec = BuySpec.model_construct()
    profile: Annotated[dict[Text, ProfileSpec], Field(max_length=100)] = Field(default_factory=dict)
    look: Annotated[tuple[LookSpec, ...], Field(max_length=12)] = ()
    house: HouseSpec = HouseSpec.model_construct()
    sun: SunSpec | None = None
    shop: ShopSpec = ShopSpec.model_construct()
    photo: PhotoSpec | None = None
    panel_profile: Annotated[dict[Text, PanelProfileSpec], Field(max_length=100)] = Field(
        default_factory=dict
    )
    closure: Annotated[dict[Text, ClosureSpec], Field(max_length=100)] = Field(default_factory=dict)
    cut: Annotated[tuple[Text, ...], Field(max_length=2000)] = ()
    wind: Side = "left"
    street: Side | None = None
    north: Annotated[float, Field(ge=-360, le=360)] | None = None

    @property
    def tape(self) -> Tape:
        """The way this scene wants its lengths written."""
        return Tape(self.show, self.denominator)

    @property
    def accuracy(self) -> SurveySpec:
        """How well its roof is measured; the usual, where it does not say."""
        return self.survey or SurveySpec()

    def trim_for(self, kind: EdgeKind, run: str) -> TrimSpec | None:
        """Return the trim of the run called ``run`` on an edge of ``kind``; None when it stays bare."""
        asked = self.trim[kind]
        if run not in self.run:
            return asked
        override = self.run[run]
        if override is None:
            return None
        given = {name: getattr(override, name) for name in override.model_fields_set}
        return (asked or TrimSpec(profile=KINDS[kind].profile)).model_copy(update=given)

    @field_validator("colors", mode="before")
    @classmethod
    def _metal_color(cls, value: object, info: ValidationInfo) -> object:
        metal = info.data.get("metal")
        color = metal.color if metal else "#808080"
        return {"trim": color, "panels": color, **value} if isinstance(value, dict) else value

    @field_validator("screws", mode="before")
    @classmethod
    def _suitable_screws(cls, value: object, info: ValidationInfo) -> object:
        metal = info.data.get("metal")
        kind = METALS[metal.kind].fasteners[0] if metal else "galvanized"
        return {"kind": kind, **value} if isinstance(value, dict) else value

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> Scene:
        refused = [
            InitErrorDetails(type=refusal(problem.message), loc=problem.key, input=None)
            for problem in _contradictions(self)
        ]
        if refused:
            raise ValidationError.from_exception_data("Scene", refused)
        return self


def _contradictions(scene: Scene) -> Iterator[Problem]:
    """Yield each two values that cannot both hold."""
    yield from _trim_contradictions(scene)
    yield from _screw_contradictions(scene)
    panels = scene.panels
    if panels.offset >= panels.cover:
        told = message(
            "{offset} is no less than a panel's cover, {cover}; give less",
            offset=Length(panels.offset),
            cover=Length(panels.cover),
        )
        yield Problem(told, ("panels", "offset"))


def _trim_contradictions(scene: Scene) -> Iterator[Problem]:
    """Yield laps that no stock is longer than, and pieces that no lap leaves anything of."""
    shortest = scene.metal.stock[0]
    kinds: dict[Key, TrimSpec | None] = {("trim", kind): trim for kind, trim in scene.trim.items()}
    runs: dict[Key, TrimOverride | None] = {("run", name): override for name, override in scene.run.items()}
    laps = [trim.lap for trim in kinds.values() if trim and trim.lap is not None] or [0.0]
    for key, trim in (kinds | runs).items():
        if trim is None:
            continue
        if trim.lap is not None and trim.lap >= shortest:
            told = message(
                "{lap} is no shorter than the shortest stock, {stock}; give less",
                lap=Length(trim.lap),
                stock=Length(shortest),
            )
            yield Problem(told, (*key, "lap"))
        lap = min(laps) if trim.lap is None else trim.lap
        for number, piece in enumerate(trim.pieces or ()):
            if piece.length <= lap:
                told = message(
                    "{length} is no longer than the lap, {lap}; give a longer piece",
                    length=Length(piece.length),
                    lap=Length(lap),
                )
                yield Problem(told, (*key, "pieces", number))


def _screw_contradictions(scene: Scene) -> Iterator[Problem]:
    """Yield bands that run backward, a first screw beyond its band, and holes that the head falls through."""
    screws = scene.screws
    if screws.ends is not None:
        least, most = screws.ends
        if least > most:
            told = message(
                "{least} to {most} runs backward; give the smaller one first",
                least=Length(least),
                most=Length(most),
            )
            yield Problem(told, ("screws", "ends"))
        elif screws.first is not None and screws.first > most:
            told = message(
                "{first} is beyond ends, {most}; give at most that",
                first=Length(screws.first),
                most=Length(most),
            )
            yield Problem(told, ("screws", "first"))
    if screws.pilot is not None and screws.pilot >= screws.head:
        told = message(
            "{pilot} is no smaller than the head, {head}; give a smaller hole",
            pilot=Fine(screws.pilot),
            head=Fine(screws.head),
        )
        yield Problem(told, ("screws", "pilot"))
    for mark, marks in screws.placed.items():
        if len(set(marks)) < len(marks):
            told = message("two screws are in one place; give each its own distance")
            yield Problem(told, ("screws", "placed", mark))
