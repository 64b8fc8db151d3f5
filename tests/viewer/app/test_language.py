"""The app in another language, whose every word is accented and 40 % longer: all of it is said in it, and fits."""

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import accented
import pytest
from accented import CODE, plain_words
from playwright.sync_api import Browser, expect

from tests.viewer.app.live import Looking, Server
from tests.viewer.conftest import DEVICES
from tests.viewer.page.readable import READABLE, keys_of
from tests.zoo import SCENES, layout
from trimwright.model.limits.load import rule_sets
from trimwright.model.panels.catalogue import closure_catalogue
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.survey.quantities import every_size
from trimwright.viewer.app.beginnings import PLAIN

SPOKEN = (
    f"import sys; sys.path.insert(0, {str(Path(accented.__file__).parent)!r}); "
    "from accented import CODE, Accented; from trimwright.viewer.words.find_language import LANGUAGES; "
    "LANGUAGES[CODE] = Accented; "
)
"""Teaches a server the language."""

FORMS = ("plain-hip", "plain-shed", "plain-gable")
NO_ACCENT = {"ftt", "mmm", "glTFff", CODE}
"""Words of letters that take no accent, longer as they are."""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    folder = tmp_path_factory.mktemp("scenes")
    for name, text in PLAIN.items():
        (folder / f"{name}.toml").write_text(f'language = "{CODE}"\n{text}', encoding="utf-8")
    with Server(folder, SPOKEN) as one:
        yield one


@pytest.fixture(scope="module", params=list(DEVICES))
def looking(request: pytest.FixtureRequest, chromium: Browser, server: Server) -> Iterator[Looking]:
    context = chromium.new_context(**DEVICES[request.param], reduced_motion="reduce")
    context.add_init_script(path=READABLE)
    one = Looking(context.new_page(), server.url).afresh()
    one.ask("workspace.act({ do: 'open', name: 'plain-gable' })")
    one.page.wait_for_function("document.documentElement.lang === 'qaa'")
    one.wait_for("shown >= 1 && workspace.state.form && workspace.roof.view.data.findings")
    yield one
    assert one.problems == []
    context.close()


def keys(looking: Looking) -> set[str]:
    """The words that stand as they are: keys, and names of scenes, profiles, closures, tapes, rules, sources, units."""
    roof = layout("boat-shed").roof
    taped = list(every_size(roof))
    texts = [
        *catalogue(),
        *closure_catalogue(),
        *taped,
        *rule_sets(),
        *PLAIN,
        *(path.stem for path in SCENES),
        "TOML English yes no",
    ]
    texts.append(date.today().strftime("%b %B"))  # a browser without the language says it in its own
    for one in rule_sets().values():
        texts += [f"{name} {limit.unit} {limit.source.title}" for name, limit in one.limits.items()]
    words = {word for text in texts for word in re.findall(r"[A-Za-z]+", text)}
    return words | {word.capitalize() for word in words} | keys_of(looking.ask("workspace.roof.view.data"))


def left(looking: Looking) -> set[str]:
    return plain_words(looking.page.evaluate("readable.words()")) - keys(looking) - NO_ACCENT


@pytest.mark.parametrize("sheet", ["file", "text", "compare", "form", "buy", "roof", "pieces"])
def test_no_english_word_is_left_on_a_sheet_and_nothing_is_cut_off(looking: Looking, sheet: str) -> None:
    if sheet == "form":
        looking.open_form()
        looking.page.locator(".tw-form-box").evaluate_all("(all) => all.forEach((one) => (one.open = true))")
    else:
        looking.open_sheet(sheet)
    assert left(looking) == set()
    assert looking.page.evaluate("readable.cut()") == []


@pytest.mark.parametrize("name", FORMS)
def test_every_form_of_roof_speaks_it(looking: Looking, name: str) -> None:
    before = looking.shown
    looking.ask(f"workspace.act({{ do: 'open', name: '{name}' }})")
    looking.wait_for(f"workspace.state.name === '{name}' && shown > {before}")
    looking.open_form()
    assert left(looking) == set()
    assert looking.page.evaluate("readable.cut()") == []


def test_what_is_wrong_is_said_in_it(looking: Looking) -> None:
    looking.open_form()
    looking.write("6/1x", "roof", "pitch", wait=False)
    looking.write("40", "roof", "length", wait=False)
    looking.wait_for("!workspace.state.current && workspace.state.mended")
    expect(looking.page.locator(".tw-held").first).to_be_visible()
    assert left(looking) == set()
    assert looking.page.evaluate("readable.cut()") == []
    looking.ask("workspace.open('file')")
    assert left(looking) == set()
    looking.ask("workspace.act({ do: 'save', name: '../x' })")
    expect(looking.page.locator(".tw-notice")).to_be_visible()
    assert plain_words(looking.page.inner_text(".tw-notice")) == set()
