import contextlib
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from zoo import SCENES

from trimwright.model.scene.read import scene_from
from trimwright.viewer.offer.blank_list import blank_list
from trimwright.viewer.offer.choice import choices_of
from trimwright.viewer.offer.price_list import PriceListError, price_list_of, read_price_list

HEADINGS = ("item", "unit", "price", "waste")
ROWS = (
    HEADINGS,
    ("trim", "ft", 4.1, 8),
    ("# for people",),
    ("Panels", "sq ft", "3.85", None),
    ("tax", "%", "6.25 %", ""),
)


def refused(*rows: Sequence[object]) -> list[str]:
    with pytest.raises(PriceListError) as refusal:
        price_list_of([HEADINGS, *rows], "prices.csv")
    return str(refusal.value).splitlines()


def test_csv_and_workbook_say_the_same(tmp_path: Path) -> None:
    sheet = openpyxl.Workbook()
    for row in ROWS:
        sheet.active.append(row)
    sheet.save(tmp_path / "prices.xlsx")
    for name, between in (("prices.csv", ","), ("semicolons.csv", ";")):
        text = "\r\n".join(between.join("" if cell is None else str(cell) for cell in row) for row in ROWS)
        tmp_path.joinpath(name).write_text("\ufeff" + text, encoding="utf-8")
    lists = [read_price_list(tmp_path / name) for name in ("prices.csv", "semicolons.csv", "prices.xlsx")]
    assert lists[0] == lists[1] == lists[2]
    (trim,) = lists[0].of("trim")
    assert (trim.price, trim.waste, trim.line) == (Decimal("4.1"), Decimal(8), 2)


@pytest.mark.parametrize(
    ("row", "problem"),
    [
        (("trim", "furlong", "1", ""), "'furlong' is no unit"),
        (("", "ft", "1", ""), "the item is missing"),
        (("trim", "ft", "", ""), "price: it is missing"),
        (("trim", "ft", "four", ""), "price: 'four' is no number"),
        (("trim", "ft", "-2", ""), "price: -2 is not between"),
        (("trim", "ft", "nan", ""), "price: nan is not between"),
        (("trim", "ft", "1e30", ""), "price: 1e30 is not between"),
        (("trim", "ft", "2", "150"), "waste: 150 is not between"),
        (("tax", "ft", "2", ""), "tax is in 'ft'; its unit is %"),
        (("margin", "%", "100", ""), "price: 100 is not between 0 and 99"),
    ],
)
def test_a_wrong_row_is_refused_with_its_line(row: tuple[str, ...], problem: str) -> None:
    (told,) = refused(("screws", "each", "1", ""), row)
    assert told.startswith("prices.csv: line 3: ") and problem in told


def test_every_wrong_row_is_told_at_once() -> None:
    told = refused(
        ("trim", "ft", "x", ""),
        ("trim", "ell", "1", ""),
        ("screws", "each", "1", ""),
        ("Screws", "each", "2", ""),
    )
    assert [line.split(": ")[1] for line in told] == ["line 2", "line 3", "line 5"]


def test_markup_and_margin_exclude_each_other() -> None:
    assert "keep the one" in refused(("markup", "%", "5", ""), ("margin", "%", "5", ""))[0]


def test_headings_that_are_missing_are_named() -> None:
    with pytest.raises(PriceListError, match="line 1: no column is called unit or price"):
        price_list_of([("item", "cost")], "prices.csv")


def test_what_is_no_list_is_refused(tmp_path: Path) -> None:
    for name, raw in (
        ("a.csv", b"\xff\xfe\x00"),
        ("a.xlsx", b"no workbook"),
        ("a.pdf", b"%PDF"),
        ("b.csv", b""),
    ):
        tmp_path.joinpath(name).write_bytes(raw)
        with pytest.raises(PriceListError, match=name):
            read_price_list(tmp_path / name)
    with pytest.raises(PriceListError, match="no such file"):
        read_price_list(tmp_path / "nowhere.csv")


cells = st.one_of(st.none(), st.text(max_size=12), st.floats(), st.integers(), st.booleans())


@given(st.lists(st.lists(cells, max_size=6), max_size=8))
def test_any_rows_are_a_list_or_refused_in_lines(rows: list[list[object]]) -> None:
    try:
        listed = price_list_of([HEADINGS, *rows], "prices.csv")
    except PriceListError as refusal:
        assert all(line.startswith("prices.csv: ") for line in str(refusal).splitlines())
    else:
        assert all(price.price >= 0 for price in listed.prices.values())


@given(st.binary(max_size=300))
def test_any_bytes_are_a_list_or_refused(tmp_path_factory: pytest.TempPathFactory, raw: bytes) -> None:
    path = tmp_path_factory.mktemp("lists") / "prices.csv"
    path.write_bytes(b"item,unit,price,waste\n" + raw)
    with contextlib.suppress(PriceListError):
        read_price_list(path)


def test_a_list_to_fill_in_prices_the_whole_roof_once_it_is_filled_in(tmp_path: Path) -> None:
    scene = scene_from(
        next(path for path in SCENES if path.stem == "harbor-office").read_text(encoding="utf-8")
    )
    blank = blank_list(choices_of(scene, None))
    (tmp_path / "prices.csv").write_text(blank, encoding="utf-8-sig")
    with pytest.raises(PriceListError):
        read_price_list(tmp_path / "prices.csv")
    (tmp_path / "prices.csv").write_text(blank.replace(",,\n", ",2.50,\n"), encoding="utf-8-sig")
    filled = read_price_list(tmp_path / "prices.csv")
    for choice in choices_of(scene, filled):
        assert choice.offer.unpriced == () and choice.offer.lines
