"""Everything that can be had of a roof as a file: one row each, which commands, app and README share."""

from __future__ import annotations

from dataclasses import dataclass

from trimwright.model.message import Message, message

from . import making
from .making import Maker

FOLDER = "buy/"
"""Where what is bought by lies."""


@dataclass(frozen=True, slots=True)
class Output:
    """A file, or the files of one kind.

    Attributes:
        path: Where it lies among the others; ``*`` stands for marks and names.
        part: What it is asked for by, alone or with others.
        kind: Its media type.
        title: What it is called.
        says: What is in it.
        make: Makes it.
        asked: It is made only when somebody asks for it.
    """

    path: str
    part: str
    kind: str
    title: Message
    says: Message
    make: Maker
    asked: bool = False

    @property
    def name(self) -> str:
        """Its name without the folder."""
        return self.path.rpartition("/")[2]

    @property
    def single(self) -> bool:
        """Whether it is one file, whatever the roof."""
        return "*" not in self.path


_XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

OUTPUTS = (
    Output(
        "pictures/*.png",
        "pictures",
        "image/png",
        message("Pictures"),
        message(
            "the roof from the street, every piece, every kind of corner closed and apart, short pieces, screws, "
            "findings"
        ),
        making.pictures,
    ),
    Output(
        "roof.html",
        "page",
        "text/html",
        message("Page"),
        message(
            "one page for a phone: turn the roof, tap a piece, go through its steps; it needs no network"
        ),
        making.page,
    ),
    Output(
        "packet.pdf",
        "packet",
        "application/pdf",
        message("Packet"),
        message(
            "crew page, plan, elevations, a sheet for each kind of end with a picture for each step, templates, bend "
            "list, lists, labels"
        ),
        making.packet,
    ),
    Output(
        "what-to-tape.pdf",
        "tape",
        "application/pdf",
        message("What to tape"),
        message("a form to fill in on the roof: what to measure there, in walking order"),
        making.taping_form,
    ),
    Output(
        "patterns/*.dxf",
        "patterns",
        "image/vnd.dxf",
        message("Patterns as DXF"),
        message("the flat pattern of each piece, for a brake or a plotter"),
        making.dxf_patterns,
    ),
    Output(
        "patterns/panels/*.dxf",
        "patterns",
        "image/vnd.dxf",
        message("Patterns of panels as DXF"),
        message(
            "the flat pattern of each form of panel, closure and cleat, for a machine that cuts to length"
        ),
        making.panel_patterns,
    ),
    Output(
        "patterns/*.svg",
        "patterns",
        "image/svg+xml",
        message("Patterns as SVG"),
        message("the flat pattern of each piece, full size"),
        making.svg_patterns,
    ),
    Output(
        "buy/*.csv",
        "buy",
        "text/csv",
        message("Lists"),
        message("what to buy, which piece comes out of which length, offcuts"),
        making.lists,
    ),
    Output(
        "buy/what-to-buy.xlsx",
        "buy",
        _XLSX,
        message("Shopping list"),
        message("the same lists as one workbook"),
        making.workbook,
    ),
    Output(
        "buy/cutting-diagram.svg",
        "buy",
        "image/svg+xml",
        message("Cutting diagram"),
        message("every length taken, with the pieces that come out of it, as a drawing"),
        making.diagram_svg,
    ),
    Output(
        "buy/cutting-diagram.png",
        "buy",
        "image/png",
        message("Cutting diagram as a picture"),
        message("the same, to be sent on by phone"),
        making.diagram_png,
    ),
    Output(
        "buy/nested/*.dxf",
        "buy",
        "image/vnd.dxf",
        message("Nested sheets"),
        message("every length of stock with the patterns of its pieces; made when asked for"),
        making.nested_sheets,
        asked=True,
    ),
    Output(
        "pieces.csv",
        "pieces",
        "text/csv",
        message("Piece list"),
        message("a row for each piece, for a spreadsheet"),
        making.pieces,
    ),
    Output(
        "report.json",
        "report",
        "application/json",
        message("Report"),
        message("all numbers, for another program"),
        making.report,
    ),
    Output(
        "roof.glb",
        "model",
        "model/gltf-binary",
        message("3D model"),
        message("the roof as binary glTF, a named node for each piece"),
        making.model,
    ),
)
"""In the order in which a person meets them; the pictures come first, as page and packet show some of them."""


PARTS = tuple(dict.fromkeys(each.part for each in OUTPUTS))
"""What outputs are asked for by."""


def output(path: str) -> Output:
    """Return the output that lies at ``path``.

    Raises:
        KeyError: There is none.
    """
    return {each.path: each for each in OUTPUTS}[path]


def bought_by(nest: bool) -> tuple[Output, ...]:
    """Return what is bought by; nested sheets only when ``nest`` asks for them."""
    return tuple(each for each in OUTPUTS if each.path.startswith(FOLDER) and (nest or not each.asked))
