import io
from xml.etree import ElementTree

import pypdf
import pypdfium2
import pytest
from pytest import approx

from trimwright.viewer.drawings.ink.drawing import Area, Drawing, Stroke, Words
from trimwright.viewer.drawings.ink.pdf import Heading, pdf_of
from trimwright.viewer.drawings.ink.svg import svg_of

SQUARE = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
PAGE = Drawing(
    'Piece <R1> & "friends"',
    (4.0, 5.0),
    (
        Area((SQUARE, ((1.5, 1.5), (2.5, 1.5), (2.5, 2.5), (1.5, 2.5))), "#ff0000", "metal"),
        Stroke(SQUARE, 0.02, closed=True, name="bend up"),
        Words('6 3/8" <low>', (2.0, 4.0), 0.2, "middle", 90.0, True),
    ),
)


def test_svg_says_its_true_size_and_turns_y_down() -> None:
    root = ElementTree.fromstring(svg_of(PAGE))
    assert root.get("width") == "4in"
    assert root.get("viewBox") == "0 0 288 360"
    path = root.find(".//{*}path[@class='bend-up']")
    assert path is not None
    assert path.get("d") == "M72 288 216 288 216 144 72 144Z"
    text = root.find(".//{*}text")
    assert text is not None
    assert text.text == '6 3/8" <low>'
    assert text.get("transform") == "rotate(-90 144 72)"
    assert root.findtext("{*}title") == PAGE.title


def test_pdf_has_the_pages_the_outline_and_the_words() -> None:
    reader = pypdf.PdfReader(
        io.BytesIO(pdf_of([PAGE, PAGE], "All", outline=[Heading("First", 0), Heading("All", 1, 1)]))
    )
    assert [tuple(map(float, page.mediabox[2:])) for page in reader.pages] == [(288.0, 360.0)] * 2
    assert '6 3/8" <low>' in reader.pages[0].extract_text(orientations=(0, 90, 180, 270))
    assert reader.metadata is not None
    assert reader.metadata.title == "All"
    assert not reader.metadata.author
    assert reader.trailer["/Root"]["/Lang"] == "en"
    first, under = reader.outline
    assert first.title == "First"
    assert [entry.title for entry in under] == ["All"]


def test_pdf_draws_where_the_drawing_says() -> None:
    page = pypdfium2.PdfDocument(pdf_of([PAGE], "All"))[0]
    picture = page.render(scale=100 / 72).to_pil().convert("RGB")
    assert picture.size == (400, 500)
    assert picture.getpixel((125, 500 - 125)) == (255, 0, 0)
    assert picture.getpixel((200, 500 - 200)) == (255, 255, 255)


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert pdf_of([PAGE], "All") == pdf_of([PAGE], "All")


def test_no_page_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one page"):
        pdf_of([], "Nothing")


def test_text_is_as_wide_in_the_svg_as_it_was_measured() -> None:
    text = ElementTree.fromstring(svg_of(PAGE)).find(".//{*}text")
    assert text is not None
    # 6 3/8" <low> in bold, letter by letter, thousandths of the size: figures, spaces and slash, signs, letters.
    widths = 3 * 556 + 2 * 278 + 278 + 474 + 2 * 584 + 278 + 611 + 778
    assert float(text.get("textLength", "0")) == approx(72 * 0.2 * widths / 1000, abs=0.01)
