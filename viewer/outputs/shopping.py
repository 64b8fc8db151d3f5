"""Write what to buy into a folder: lists for a spreadsheet, and the cutting diagram as a drawing and a picture."""

from __future__ import annotations

from pathlib import Path

from trimwright.model.layout import Layout
from trimwright.model.takeoff.record import Takeoff

from ..buy.lists import lists_of
from ..data.nested import nested
from ..data.spreadsheets import csv_of, xlsx_of
from ..drawings.ink.png import png_of
from ..drawings.ink.svg import svg_of
from ..drawings.packet.cutting_diagram import cutting_diagram
from ..whole_file import write_whole


def write_buy(layout: Layout, takeoff: Takeoff, folder: Path, nest: bool = False) -> tuple[str, ...]:
    """Write the lists and the cutting diagram; return the names of the files.

    Args:
        layout: The layout.
        takeoff: What to buy for it.
        folder: An existing folder.
        nest: Write a DXF of every length with its pieces, too.

    Raises:
        OSError: A file cannot be written.
    """
    show, title = layout.scene.tape, layout.scene.title
    lists = lists_of(layout, takeoff)
    diagram = cutting_diagram(takeoff, title, show)
    files = {f"{each.name.replace(' ', '-')}.csv": csv_of(each, show).encode("utf-8") for each in lists}
    files["what-to-buy.xlsx"] = xlsx_of(lists, f"{title}: what to buy", show)
    files["cutting-diagram.svg"] = svg_of(diagram).encode("utf-8")
    files["cutting-diagram.png"] = png_of(diagram)
    if nest:
        (folder / "nested").mkdir(exist_ok=True)
        for sheet in nested(layout, takeoff, "mm" if layout.scene.show == "mm" else "in"):
            files[f"nested/{sheet.name}.dxf"] = sheet.text.encode("utf-8")
    for name, data in files.items():
        write_whole(folder / name, data)
    return tuple(files)
