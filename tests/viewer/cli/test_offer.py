import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from PIL import Image
from pypdf import PdfReader

Run = Callable[..., Result]

SHOP = """
[shop]
name = "North Shore Metal"
contact = ["Slipway 3", "555-0142"]
prices = "sample-prices.csv"
currency = "$"
terms = "Half when the metal is ordered."
[[look]]
name = "Copper"
metal = { kind = "copper" }
"""


@pytest.fixture
def shop(here: Path, scene: Callable[[str], Path], monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a scene with a shop, a price list beside it and a second look; pictures are small and empty."""
    from trimwright.viewer.render import picture

    def small(stage: object, view: str, path: Path, size: tuple[int, int]) -> None:
        Image.new("RGB", (16, 10)).save(path)

    monkeypatch.setattr(picture, "render", small)
    shutil.copy(scene("oar-store").with_name("sample-prices.csv"), here)
    path = here / "offered.toml"
    path.write_text(scene("oar-store").read_text(encoding="utf-8") + SHOP, encoding="utf-8")
    return path


def test_an_offer_has_the_shop_the_looks_beside_each_other_and_a_place_to_sign(run: Run, shop: Path) -> None:
    done = run("offer", shop, "-o", "offer.pdf")
    assert done.exit_code == 0, done.output
    text = " ".join(page.extract_text() for page in PdfReader("offer.pdf").pages)
    for words in (
        "North Shore Metal",
        "555-0142",
        "As planned",
        "Copper",
        "Total",
        "Half when",
        "For the customer",
    ):
        assert words in text


def test_numbers_are_printed_and_no_pages_written_unless_asked_for(run: Run, shop: Path, here: Path) -> None:
    told = json.loads(run("offer", shop, "--json").stdout)
    assert [choice["name"] for choice in told["choices"]] == ["", "Copper"]
    assert not list(here.rglob("*.pdf"))


def test_without_prices_the_offer_says_so(run: Run, shop: Path) -> None:
    shop.write_text(
        shop.read_text(encoding="utf-8").replace('prices = "sample-prices.csv"', ""), encoding="utf-8"
    )
    run("offer", shop, "-o", "offer.pdf")
    text = " ".join(page.extract_text() for page in PdfReader("offer.pdf").pages)
    assert "This offer has no prices" in text


def test_a_list_that_cannot_be_used_ends_it_with_the_lines_and_nothing_written(
    run: Run, shop: Path, here: Path
) -> None:
    here.joinpath("bad.csv").write_text("item,unit,price\ntrim,ell,1\nscrews,each,x\n", encoding="utf-8")
    done = run("offer", shop, "--prices", "bad.csv", "-o", "offer.pdf")
    assert done.exit_code == 2
    assert "bad.csv: line 2" in done.stderr and "bad.csv: line 3" in done.stderr
    assert not here.joinpath("offer.pdf").exists()
