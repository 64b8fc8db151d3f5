"""Blocks on pages: all of them, in order, inside the box; headings stay with what they head."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from trimwright.viewer.drawings.ink.drawing import Item, Words
from trimwright.viewer.drawings.paper.chapters import Chapter, chaptered
from trimwright.viewer.drawings.paper.flow import Block, TableColumn, flow, heading, kept, space, table
from trimwright.viewer.drawings.paper.page import Imprint, Room
from trimwright.viewer.words.speaker import Speaker

BOX = Room(1.0, 2.0, 7.0, 8.0)


def block(name: str, height: float, keep: bool = False) -> Block:
    return Block(height, (Words(name, (0.0, -height)),), keep=keep)


def names(page: tuple[Item, ...]) -> list[str]:
    return [item.text for item in page if isinstance(item, Words)]


@given(st.lists(st.tuples(st.floats(0.1, 4.0), st.booleans()), max_size=20))
def test_blocks_follow_each_other_inside_the_box(heights: list[tuple[float, bool]]) -> None:
    pages = flow([block(str(k), height, keep) for k, (height, keep) in enumerate(heights)], BOX)
    assert [name for page in pages for name in names(page)] == [str(k) for k in range(len(heights))]
    for page in pages:
        feet = [item.at[1] for item in page if isinstance(item, Words)]
        assert feet == sorted(feet, reverse=True)
        assert all(BOX.low - 1e-6 <= foot < BOX.top for foot in feet)


def test_a_heading_goes_to_the_next_page_with_what_it_heads() -> None:
    pages = flow([block("first", 5.5), heading("Heading"), block("second", 0.5)], BOX)
    assert [names(page) for page in pages] == [["first"], ["Heading", "second"]]


def test_a_table_repeats_its_heading_on_every_page() -> None:
    rows = [[str(k), "a row"] for k in range(60)]
    pages = flow(table([TableColumn("No.", 1), TableColumn("Words", 3)], rows, BOX.width), BOX)
    assert len(pages) > 1
    assert all(names(page)[:2] == ["No.", "Words"] for page in pages)
    assert [name for page in pages for name in names(page) if name.isdigit()] == [str(k) for k in range(60)]


def test_a_row_that_heads_others_is_never_the_last_of_its_page() -> None:
    rows = [[f"group {k}" if k % 4 == 0 else str(k)] for k in range(60)]
    heads = {k for k in range(60) if k % 4 == 0}
    for above in range(40):
        lay = flow(
            [block("above", above / 10), *table([TableColumn("No.", 1)], rows, BOX.width, strong=heads)], BOX
        )
        assert not any(names(page)[-1].startswith("group") for page in lay)


def test_a_table_that_is_kept_whole_starts_on_a_page_of_its_own_or_is_parted() -> None:
    short = kept(table([TableColumn("No.", 1)], [[str(k)] for k in range(5)], BOX.width))
    pages = flow([block("above", 5.0), *short], BOX)
    assert [names(page) for page in pages] == [["above"], ["No.", "0", "1", "2", "3", "4"]]
    long = kept(table([TableColumn("No.", 1)], [[str(k)] for k in range(80)], BOX.width))
    assert len(flow(long, BOX)) > 1


def test_a_kept_table_that_is_parted_leaves_room_for_its_heading() -> None:
    for count in range(18, 80):
        rows = kept(table([TableColumn("No.", 1)], [[str(k)] for k in range(count)], BOX.width))
        for page in flow([block("above", 1.0), *rows], BOX):
            assert min(item.at[1] for item in page if isinstance(item, Words)) >= BOX.low


def test_white_space_opens_no_page() -> None:
    assert len(flow([block("all", 6.0), space(1.0)], BOX)) == 1
    assert names(flow([block("all", 5.5), space(1.0), block("next", 1.0)], BOX)[1]) == ["next"]


def test_nothing_takes_one_page() -> None:
    assert flow([], BOX) == [()]


def test_a_cell_is_broken_into_lines_in_its_column() -> None:
    [_, row] = table(
        [TableColumn("A", 1), TableColumn("B", 1)], [["many words that do not fit in a line", "x"]], 2.0
    )
    assert len(names(row.items)) > 2
    assert row.height > 0.3


def test_a_table_breaks_no_word_where_it_has_room() -> None:
    columns = [TableColumn("End", 0.2), TableColumn("What is done", 5)]
    rows = [["square", "Cut straight across"], ["izquierda", "Cut along the seam"]]
    found = [item.text for row in table(columns, rows, 4.0) for item in row.items if isinstance(item, Words)]
    assert found == ["End", "What is done", *(cell for row in rows for cell in row)]


def test_what_goes_on_stays_behind_its_beginning() -> None:
    imprint = Imprint("Test", Speaker())
    second = replace(block("second part", 3.0), head=block("head", 0.2))
    sheets = (block("5", 5.0), block("6", 6.0), second, block("3", 3.0), block("2", 2.0))
    pages = chaptered([Chapter("Sheets", sheets)], "letter", imprint).pages
    wanted = {"5", "6", "second part", "3", "2"}
    there = [[name for name in names(page.items) if name in wanted] for page in pages]
    assert there == [["5"], ["6"], ["second part", "3", "2"]]


def test_a_page_is_continued_only_where_what_stands_on_it_is() -> None:
    imprint = Imprint("Test", Speaker())
    second = replace(block("second part", 3.0), head=block("head", 0.2))
    sheets = (block("5", 5.0), block("6", 6.0), second)
    pages = chaptered([Chapter("Sheets", sheets)], "letter", imprint).pages
    assert [page.title for page in pages] == ["Sheets", "Sheets", "Sheets, continued"]


def test_a_short_text_is_not_broken_where_the_table_has_room() -> None:
    columns = [TableColumn("No.", 5), TableColumn("End", 1), TableColumn("What", 5)]
    rows = [["1", "square / a escuadra", "cut"], ["2", "square", "cut"]]
    found = [item.text for row in table(columns, rows, 5.0) for item in row.items if isinstance(item, Words)]
    assert "square / a escuadra" in found
