"""The other languages of a page: what differs is put in place, and the switch reads the whole page in another."""

import copy
from pathlib import Path
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from playwright.sync_api import Browser

from tests.viewer.conftest import DEVICES
from tests.viewer.page.looking import opened, page_from
from tests.zoo import SCENES
from trimwright.viewer.page.language_switch import differences
from trimwright.viewer.words.find_language import language_called

SCENE = next(path for path in SCENES if path.stem == "slip-shed").read_text(encoding="utf-8")

VALUES = st.recursive(
    st.integers(0, 3) | st.sampled_from(["one", "uno", ""]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from("abc"), inner, max_size=3),
)


@given(st.dictionaries(st.sampled_from("abc"), VALUES), st.dictionaries(st.sampled_from("abc"), VALUES))
def test_differences_put_in_place_make_the_second_of_the_first(
    first: dict[str, Any], second: dict[str, Any]
) -> None:
    second = {key: second.get(key, first[key]) for key in first}
    made: Any = copy.deepcopy(first)
    for place, value in differences(first, second):
        inside = made
        for key in place[:-1]:
            inside = inside[key]
        inside[place[-1]] = value
    assert made == second


def test_a_page_is_read_in_another_language_and_back(chromium: Browser, tmp_path: Path) -> None:
    context = chromium.new_context(**DEVICES["phone"], reduced_motion="reduce", offline=True)
    looking = opened(context, page_from(SCENE), tmp_path / "roof.html")
    page, spanish = looking.page, language_called("es")
    for code, pieces in (("es", spanish.sentence("Pieces")), ("en", "Pieces")):
        page.click(f".tw-language[lang={code}]")
        page.wait_for_selector(f'html[lang="{code}"] body[data-ready]', state="attached")
        assert pieces in page.inner_text(".tw-dock")
        assert page.get_attribute(".tw-language", "aria-label") == {"es": "English", "en": "español"}[code]
    context.close()
