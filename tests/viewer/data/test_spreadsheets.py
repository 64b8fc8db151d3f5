"""CSV and XLSX, read back: the same cells, and no text that a spreadsheet takes for a formula."""

import csv
import io
from dataclasses import replace

import openpyxl
from pytest import approx
from zoo import layout

from trimwright.model.message import message
from trimwright.viewer.buy.lists import lists_of, spread_out
from trimwright.viewer.buy.record import List, ListField
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.data.spreadsheets import csv_of, xlsx_of
from trimwright.viewer.words.speaker import Speaker, speaker

SLY = List(
    "sly",
    message("sly"),
    (ListField(message("What")), ListField(message("Count"), "count")),
    (("=1+1", 3), ("+2", 4), ("@a", 5), ("-b", 6)),
    (message("=note"),),
)


def test_a_workbook_has_a_sheet_for_each_list() -> None:
    plan = layout("harbor-office")
    lists = lists_of(plan, timed_takeoff(plan))
    book = openpyxl.load_workbook(io.BytesIO(xlsx_of(lists, "Harbor office", Speaker())))
    assert book.sheetnames == [str(each.name) for each in lists]
    assert book.properties.title == "Harbor office"
    assert not book.properties.creator
    for each in lists:
        names, rows = spread_out(each, Speaker())
        cells = list(book[str(each.name)].iter_rows(values_only=True))
        assert list(cells[0]) == names
        for row, found in zip(rows, cells[1:], strict=False):
            for wanted, cell in zip(row, found, strict=True):
                if isinstance(wanted, float | int):
                    assert cell == approx(wanted)
                else:
                    assert (cell or "") == (wanted or "")


def test_csv_files_have_the_same_cells() -> None:
    plan = layout("sail-loft")
    for each in lists_of(plan, timed_takeoff(plan)):
        names, rows = spread_out(each, Speaker())
        read = list(csv.reader(io.StringIO(csv_of(each, Speaker()))))
        assert read[0] == names
        assert read[1:] == [["" if cell is None else str(cell) for cell in row] for row in rows]


def test_no_text_becomes_a_formula() -> None:
    assert all(row[0].startswith("'") for row in list(csv.reader(io.StringIO(csv_of(SLY, Speaker()))))[1:])
    sheet = openpyxl.load_workbook(io.BytesIO(xlsx_of([SLY], "sly", Speaker())))["sly"]
    assert {cell.data_type for row in sheet.iter_rows(min_row=2) for cell in row if cell.value} == {"s", "n"}
    assert sheet["A2"].value == "=1+1"
    assert sheet["A2"].data_type == "s"


def test_sheets_have_names_of_their_own_in_two_languages() -> None:
    plan = layout("rope-store")
    both = speaker(("en", "es"))
    lists = lists_of(plan, timed_takeoff(plan))
    long = [replace(SLY, name=message("all/what: is [bought]* for this roof? \\ {n}", n=n)) for n in range(3)]
    book = openpyxl.load_workbook(io.BytesIO(xlsx_of([*lists, *long], "both", both)))
    assert len({name.casefold() for name in book.sheetnames}) == len(lists) + len(long)
    assert all(len(name) <= 31 and not set(name) & set("[]:*?/\\") for name in book.sheetnames)
    assert book.sheetnames[-1] != book.sheetnames[-2]
