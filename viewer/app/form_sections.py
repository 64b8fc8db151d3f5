"""What the form has: its sections and their fields, for the roof that a scene has at the moment."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from typing import Any, get_args

from trimwright.model.edge_kinds import KINDS, EdgeKind
from trimwright.model.limits.load import rule_sets
from trimwright.model.message import Length, Message, message
from trimwright.model.metals import METAL_WORDS
from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.roof.build import kinds_of_edge
from trimwright.model.scene.metal import MetalKind
from trimwright.model.scene.schema import FastenerMetal
from trimwright.model.scene.trim import Start
from trimwright.model.survey.walk import Visit

from ..display.trim_looks import LOOKS
from ..words.find_language import LANGUAGES, name_of
from ..words.key_names import FIRST_SEAMS, FIXED, LAID_FROM, LOCKS, SEAMS
from ..words.speaker import is_metric
from .choices import COATS, FORMING, GUTTERS, OBJECTIVES, OPENINGS, SIDINGS, TAPES, UNITS
from .fields import SMALL, Field, FormSection, Kind, Name
from .opening_edits import opening_sections
from .outline_fields import CROSS_GABLE_EAVES, outline_sections, porch_sections
from .scene_text import value_at
from .taped_fields import taped_sections

FORMS: Mapping[str, Message] = {
    "gable": message("gable"),
    "hip": message("hip"),
    "shed": message("shed"),
    "cross gable": message("cross gable"),
    "outline": message("any outline"),
}

OUTLINE, FACES = "outline", "faces"

MEASURED: Mapping[str, Message] = {FACES: message("measured faces")}
"""The form whose corners are all written as text; nobody can change to it in the form."""

STARTS: Mapping[Start, Message] = {
    "low": message("at the low end"),
    "high": message("at the high end"),
    "centered": message("centered"),
    "even": message("all pieces alike"),
    "shared": message("low, a short one shared"),
}
"""Where the full lengths of a run begin, and how each reads."""

SIDES: Mapping[str, Message] = {
    "left": message("left"),
    "right": message("right"),
    "front": message("front"),
    "back": message("back"),
}

LOW = 36.0
"""No wall is lower than this, inches."""


def sections(
    tables: Mapping[str, Any],
    runs: Mapping[str, EdgeKind],
    walk: Sequence[Visit] = (),
    faces: Sequence[str] = (),
) -> tuple[FormSection, ...]:
    """Return the form.

    Args:
        tables: The scene's tables as they stand in its text, readable or not.
        runs: Kinds of trim by the names of the runs.
        walk: What can be taped, in walking order.
        faces: Names of the roof's faces.
    """
    form = str(value_at(tables, ("roof", "form")))
    set_name = str(value_at(tables, ("rules", "set")))
    own, limits = (value_at(tables, path) for path in (("profile",), ("rules", "limits")))
    profiles = list(own) if isinstance(own, Mapping) else []
    changed = set(limits) if isinstance(limits, Mapping) else set()
    return (
        FormSection("roof", message("Roof"), (TITLE, *_roof(form))),
        *(outline_sections(tables) if form == OUTLINE else ()),
        *(porch_sections(tables, CROSS_GABLE_EAVES) if form == "cross gable" else ()),
        *taped_sections(tables, walk, faces),
        FormSection("metal", message("Metal and stock"), _metal(is_metric(tables))),
        FormSection("colors", message("Colors"), _COLORS),
        FormSection("panels", message("Panels"), _PANELS),
        *(
            FormSection(
                f"trim.{kind}", LOOKS[kind].title, tuple(_trim(("trim", kind), kind, profiles, False))
            )
            for kind in trims_of(form)
        ),
        *(
            FormSection(f"run.{run}", run, tuple(_trim(("run", run), kind, profiles, True)), "runs")
            for run, kind in runs.items()
        ),
        FormSection("screws", message("Screws"), _SCREWS),
        FormSection("rules", message("Rules"), _RULES),
        FormSection("limits", message("Limits of your own"), tuple(_limits(set_name, changed))),
        FormSection("buy", message("Buying"), _BUY),
        FormSection("house", message("House and sun, in pictures"), _HOUSE),
        *opening_sections(tables, _choices(SIDES)),
        FormSection("shop", message("Your shop"), _SHOP),
        FormSection("photo", message("The house in a photograph"), _PHOTO),
        FormSection("scene", message("Units, language, wind and north"), _SCENE),
    )


def trims_of(form: str) -> tuple[EdgeKind, ...]:
    """Return the kinds of edge that a form of roof has, or may have; none for what is no form."""
    if form in (OUTLINE, FACES):
        return tuple(KINDS)
    return kinds_of_edge(form) if form in FORMS else ()


def _choices(reads: Mapping[Any, Name]) -> tuple[tuple[str, Name], ...]:
    return tuple(reads.items())


def _plain(names: Sequence[str]) -> tuple[tuple[str, Name], ...]:
    """Return choices that read as they are written: names that a person gave, and keys."""
    return tuple((name, name) for name in names)


FRACTIONS = (2, 4, 8, 16, 32, 64)

TITLE = Field(("title",), message("Title"), "text", must=True)

_SCENE = (
    Field(("unit",), message("A bare number is in"), "choice", _choices(UNITS)),
    Field(
        ("show",),
        message("Lengths are written in"),
        "choice",
        _choices(TAPES),
    ),
    Field(
        ("denominator",),
        message("Finest fraction"),
        "count",
        _choices({str(n): f"1/{n} in" for n in FRACTIONS}),
    ),
    Field(
        ("language",),
        message("Language"),
        "choice",
        _choices({code: name_of(code) for code in LANGUAGES}),
    ),
    Field(("wind",), message("Wind comes from the"), "choice", _choices(SIDES)),
    Field(
        ("north",),
        message("North, degrees from the back"),
        "number",
        hint=message("clockwise, seen from above"),
    ),
)


def _metal(metric: bool) -> tuple[Field, ...]:
    """Return the fields of the metal, with examples in the units of the scene."""
    thin = message("a length, such as 0.6 mm") if metric else message("a length, or a label such as 24 ga")
    heat = message("a swing of 100 °F is one of 56 °C") if metric else ""
    return (
        Field(
            ("metal", "kind"),
            message("Metal"),
            "choice",
            _choices({kind: METAL_WORDS[kind] for kind in get_args(MetalKind)}),
        ),
        Field(("metal", "thickness"), message("Thickness"), hint=thin),
        Field(
            ("metal", "stock"),
            message("Stock lengths"),
            "lengths",
            hint=message("one, or several with commas between"),
        ),
        Field(("metal", "radius"), message("Inside of bends")),
        Field(("metal", "design_heat"), message("Swing of temperature, °F"), "number", hint=heat),
    )


_COLORS = (
    Field(("metal", "color"), message("Metal"), "color"),
    Field(("colors", "trim"), message("Trim"), "color"),
    Field(("colors", "panels"), message("Panels"), "color"),
    Field(("colors", "walls"), message("Walls"), "color"),
    Field(("colors", "gutters"), message("Gutters"), "color", hint=message("empty: as the trim")),
    Field(("colors", "coat"), message("Coat of the metal"), "choice", _choices(COATS)),
)

_PANELS = (
    Field(("panels", "cover"), message("Cover, seam to seam")),
    Field(
        ("panels", "offset"),
        message("First seam stands at"),
        hint=message("from the left, looking up the slope"),
    ),
    Field(("panels", "start"), message("First seam"), "choice", _choices(FIRST_SEAMS)),
    Field(("panels", "profile"), message("Panel profile"), "choice", _choices(LOCKS)),
    Field(("panels", "aligned"), message("Seams of two slopes meet at the ridge"), "check"),
    Field(("panels", "laid_from"), message("Laid from"), "choice", _choices(LAID_FROM)),
    Field(("panels", "fixed"), message("Fixed"), "choice", _choices(FIXED)),
    Field(("panels", "seam"), message("Height of seams")),
    Field(("panels", "seam_kind"), message("Seams"), "choice", _choices(SEAMS)),
    Field(("panels", "show"), message("Show them"), "check"),
)

_SCREWS = (
    Field(("screws", "first"), message("First, from the low end")),
    Field(("screws", "spacing"), message("Most between two")),
    Field(
        ("screws", "ends"),
        message("From the ends of a piece"),
        "lengths",
        hint=message("least and most, such as {least}, {most}", least=Length(6), most=Length(8)),
    ),
    Field(
        ("screws", "kind"),
        message("Metal"),
        "choice",
        _choices({kind: METAL_WORDS[kind] for kind in get_args(FastenerMetal)}),
    ),
    Field(("screws", "head"), message("Head")),
    Field(("screws", "pilot"), message("Pilot holes"), hint=message("left empty, none are drilled")),
)

_RULES = (Field(("rules", "set"), message("Rule set"), "choice", _plain(tuple(rule_sets()))),)

_PHOTO = (
    Field(
        ("photo", "file"), message("Photograph"), "text", hint=message("JPEG, PNG or WebP, beside the scene")
    ),
    Field(
        ("photo", "focal"),
        message("Focal length, as of 35 mm film"),
        "number",
        hint=message("left empty, what the file says"),
    ),
    Field(
        ("photo", "front"),
        message("Mask of what stands in front"),
        "text",
        hint=message("white on black, PNG, beside the scene"),
    ),
    Field(("photo", "choose"), message("Camera, where several fit"), "number"),
)

_HOUSE = (
    Field(("house", "siding"), message("Siding"), "choice", _choices(SIDINGS)),
    Field(("house", "foundation"), message("Foundation, above the ground")),
    Field(("house", "openings"), message("Windows and doors"), "choice", _choices(OPENINGS)),
    Field(("house", "gutters"), message("Gutters"), "choice", _choices(GUTTERS)),
    Field(
        ("sun", "latitude"),
        message("Sun: latitude, degrees"),
        "number",
        hint=message("empty: where it looks best"),
    ),
    Field(("sun", "month"), message("Sun: month"), "number"),
    Field(("sun", "day"), message("Sun: day of the month"), "number"),
    Field(("sun", "hour"), message("Sun: hour, 12 at its highest"), "number"),
)

_SHOP = (
    Field(("shop", "name"), message("Name"), "text"),
    Field(("shop", "currency"), message("Currency sign"), "text"),
    Field(("shop", "prices"), message("Price list"), "text", hint=message("CSV or XLSX, beside the scene")),
    Field(
        ("shop", "colors"),
        message("Color chart"),
        "text",
        hint=message("CSV, XLSX or TOML, beside the scene"),
    ),
    Field(("shop", "logo"), message("Logo"), "text", hint=message("PNG or JPEG, beside the scene")),
    Field(("shop", "forming"), message("Trim is formed"), "choice", _choices(FORMING)),
    Field(("shop", "brake"), message("Brake: length"), hint=message("empty: unknown")),
    Field(("shop", "smallest_leg"), message("Brake: smallest leg"), hint=message("empty: unknown")),
    Field(("shop", "page"), message("Address of this roof's page"), "text"),
)
_BUY = (
    Field(("buy", "objective"), message("Buy least"), "choice", _choices(OBJECTIVES)),
    Field(("buy", "kerf"), message("Lost at each cut"), hint=message("0 for snips and shears")),
)


def _roof(form: str) -> Iterator[Field]:
    own = MEASURED if form == FACES else {}
    hint = message("its corners are written in the scene as text") if own else ""
    yield Field(("roof", "form"), message("Roof form"), "choice", _choices({**own, **FORMS}), hint, must=True)
    if form != FACES:
        yield from _sizes(form)
    yield Field(("roof", "deck"), message("Thickness of the deck"))


def _sizes(form: str) -> Iterator[Field]:
    """Yield what a form of roof is measured by."""
    if form != OUTLINE:
        yield Field(("roof", "length"), message("Length over the walls"), must=True, least=SMALL)
        yield Field(("roof", "width"), message("Width over the walls"), must=True, least=SMALL)
    yield Field(
        ("roof", "pitch"), message("Pitch"), "text", hint=message("6/12, 26.57 deg or 50 %"), must=True
    )
    if form == "gable":
        yield Field(
            ("roof", "far_pitch"),
            message("Pitch of the back"),
            "text",
            hint=message("left empty, as the front"),
        )
    if form == "hip":
        yield Field(
            ("roof", "end_pitch"),
            message("Pitch of the ends"),
            "text",
            hint=message("left empty, as the sides"),
        )
    height = message("Height of the low wall") if form == "shed" else message("Height of the walls")
    yield Field(("roof", "wall_height"), height, least=LOW)
    if form == "gable":
        yield Field(
            ("roof", "far_wall_height"),
            message("Height of the back wall"),
            hint=message("left empty, as the front"),
            least=LOW,
        )
    yield Field(("roof", "overhang", "eave"), message("Overhang at the eaves"))
    if form != "hip":
        yield Field(("roof", "overhang", "rake"), message("Overhang at the rakes"))
    if form == "shed":
        yield Field(("roof", "overhang", "high"), message("Overhang at the high side"))
    if form in ("gable", "shed"):
        yield Field(
            ("roof", "break_at"), message("Pitch changes"), hint=message("in from the wall; empty: nowhere")
        )
        yield Field(
            ("roof", "upper_pitch"), message("Pitch above that"), "text", hint=message("empty: the same")
        )
    if form == "cross gable":
        yield from _wing()


def _wing() -> Iterator[Field]:
    """Yield the sizes of the wing before a cross gable."""
    begins = message("from the left end of the front wall")
    yield Field(("roof", "wing", "at"), message("Wing begins"), hint=begins, must=True)
    yield Field(("roof", "wing", "width"), message("Width of the wing"), must=True, least=SMALL)
    stands = message("before the front wall")
    yield Field(("roof", "wing", "length"), message("Length of the wing"), hint=stands, must=True)
    as_roof = message("left empty, as the roof")
    yield Field(("roof", "wing", "pitch"), message("Pitch of the wing"), "text", hint=as_roof)


def _trim(table: tuple[str, str], kind: EdgeKind, own: Sequence[str], one_run: bool) -> Iterator[Field]:
    """Yield the fields of one kind of edge, or of one run."""
    fitting = [name for name, profile in catalogue().items() if kind in profile.edges]
    yield Field(table, message("Trim here"), "here")
    yield Field(
        (*table, "profile"), message("Profile"), "choice", _plain(list(dict.fromkeys([*fitting, *own])))
    )
    yield Field((*table, "lap"), message("Lap"))
    yield Field((*table, "start"), message("Full lengths begin"), "choice", _choices(STARTS))
    yield Field((*table, "tab"), message("Tab at corners"), hint=message("0 for none"))
    yield Field((*table, "face"), message("Width of the face"), hint=message("as the profile has it"))
    yield Field((*table, "sealed"), message("Laps set in sealant"), "check")
    yield Field((*table, "fixed"), message("Fastened so that it cannot move"), "check")
    if "under" in (KINDS[kind].panels, KINDS[kind].lower):
        yield Field((*table, "closure"), message("Closures"), "choice", _plain(list(closure_catalogue())))
    if one_run:
        yield Field(
            (*table, "pieces"),
            message("Lengths by hand"),
            "lengths",
            hint=message("from the low end, commas between"),
        )


def _limits(set_name: str, changed: Set[str]) -> Iterator[Field]:
    """Yield a field for each limit of the rule set, and one for the reason where a scene departs from it."""
    chosen = rule_sets().get(set_name) or next(iter(rule_sets().values()))
    for name, limit in chosen.limits.items():
        rule = name.replace("-", " ")
        kind: Kind = "lengths" if isinstance(limit.value, tuple) else "length"
        label = message("{rule}, {unit}", rule=rule, unit=limit.unit)
        if limit.unit == "1":
            label = message("{rule}", rule=rule)
        yield Field(("rules", "limits", name, "value"), label, kind, hint=limit.source.whole)
        if name in changed:
            yield Field(("rules", "limits", name, "reason"), message("reason for {rule}", rule=rule), "text")
