"""The page in another language, whose every word is accented and 40 % longer: all of it is said in it, and fits."""

import re
from collections.abc import Iterator
from typing import get_args

import pytest
from accented import plain_words, spoken
from playwright.sync_api import Browser

from tests.viewer.conftest import DEVICES
from tests.viewer.page.looking import Looking, opened, page_from
from tests.viewer.page.readable import READABLE, keys_of
from tests.zoo import SCENES, layout
from trimwright.model.scene.metal import MetalKind
from trimwright.model.scene.schema import PanelSpec

SHEETS = {
    "roof": "open('roof')",
    "pieces": "open('pieces')",
    "order": "open('order')",
    "a step of the order": "setStep(3)",
    "findings": "open('findings')",
    "a finding": "open('findings', 1)",
    "finish": "open('finish')",
    "two finishes": "view.painter.compareWith({})",
    "cautions": "open('cautions')",
    "a corner": "standAt('corner peak R2-1')",
    "every piece": "standAt('bare')",
}
NARROW = (
    ".tw-dock { width: 150px } .tw-sheet-title { overflow: hidden; max-width: 40px; white-space: nowrap }"
)
SCENE = next(path for path in SCENES if path.stem == "slip-shed").read_text(encoding="utf-8")


def cited() -> set[str]:
    """The words of the sources' titles and of units, and of what a scene has fixed keys for."""
    limits = layout("slip-shed").limits.by_rule.values()
    texts = [f"{limit.source.title} {limit.unit}" for limit in limits]
    texts += [*get_args(MetalKind), *get_args(PanelSpec.model_fields["seam_kind"].annotation)]
    return {word for text in texts for word in re.findall(r"[A-Za-z]+", text)}


@pytest.fixture(scope="module", params=list(DEVICES))
def accented(
    request: pytest.FixtureRequest, chromium: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Looking]:
    with spoken() as code:
        text = page_from(f'language = "{code}"\n{SCENE}')
    context = chromium.new_context(**DEVICES[request.param], reduced_motion="reduce", offline=True)
    context.add_init_script(path=READABLE)
    looking = opened(context, text, tmp_path_factory.mktemp("accented") / "roof.html")
    yield looking
    context.close()


@pytest.mark.parametrize("sheet", list(SHEETS))
def test_no_english_word_is_left_on_a_sheet_and_nothing_is_cut_off(accented: Looking, sheet: str) -> None:
    accented.afresh()
    accented.roof(SHEETS[sheet])
    accented.settle()
    assert (
        plain_words(accented.page.evaluate("readable.words()")) - keys_of(accented.roof("view.data")) == set()
    )
    assert accented.page.evaluate("readable.cut()") == []
    assert accented.probe("fits()")


@pytest.mark.parametrize("tab", ["facts", "tape", "low", "high"])
def test_no_english_word_is_left_on_a_card_and_nothing_is_cut_off(accented: Looking, tab: str) -> None:
    accented.afresh()
    accented.roof("select('R1-1')")
    accented.page.click(f"[data-tab={tab}]")
    accented.settle()
    assert (
        plain_words(accented.page.evaluate("readable.words()")) - keys_of(accented.roof("view.data")) == set()
    )
    assert accented.page.evaluate("readable.cut()") == []


def test_tools_speak_it_too(accented: Looking) -> None:
    accented.afresh().roof("standAt('bare')")
    for tool in (0, 1):
        accented.page.locator(".tw-tools button[aria-pressed]").nth(tool).click()
        asked = accented.page.inner_text(".tw-prompt")
        assert asked and plain_words(asked) == set()
        assert accented.page.evaluate("readable.cut()") == []
    accented.tap("R1-1")
    title = accented.page.inner_text(".tw-sheet")
    assert plain_words(title) - keys_of(accented.roof("view.data")) == set()


def test_lists_to_print_speak_it_too(accented: Looking) -> None:
    accented.page.emulate_media(media="print")
    text = accented.page.inner_text(".tw-printed")
    accented.page.emulate_media(media="screen")
    assert len(text) > 500
    assert plain_words(text) - keys_of(accented.roof("view.data")) - cited() == set()
    assert accented.page.evaluate("document.documentElement.lang") == "qaa"


def test_what_is_cut_off_is_found(accented: Looking) -> None:
    accented.afresh().roof("open('findings')")
    style = accented.page.add_style_tag(content=NARROW)
    found = accented.page.evaluate("readable.cut()")
    style.evaluate("(node) => node.remove()")
    assert any("tw-sheet-title" in line for line in found)
    assert any("button" in line.lower() or "box" in line for line in found)
    assert accented.page.evaluate("readable.cut()") == []
