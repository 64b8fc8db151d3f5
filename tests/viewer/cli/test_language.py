"""Commands in a made-up language: what is still plain in what they give are names, keys, units and rule names."""

import csv
import io
import json
import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import islice
from pathlib import Path
from typing import Any

import pytest
from accented import CODE, Accented, plain_words
from click.testing import Result
from PIL import ImageDraw
from zoo import SCENES

from trimwright.model.checks.facts import ALL_TRIM
from trimwright.model.checks.run import RULES, check
from trimwright.model.layout import Layout
from trimwright.model.metals import METALS
from trimwright.model.pipeline import build
from trimwright.model.profiles.catalogue import catalogue
from trimwright.model.scene.read import read_scene
from trimwright.model.takeoff.count import take_off
from trimwright.viewer.data.pieces_csv import piece_list
from trimwright.viewer.display.setting_steps import steps_of
from trimwright.viewer.display.stage import Stage, stage_of
from trimwright.viewer.drawings.ink.drawing import Words
from trimwright.viewer.drawings.packet.packet import bind
from trimwright.viewer.drawings.paper.page import imprint_of
from trimwright.viewer.film.frames import pictures_of
from trimwright.viewer.render.lettering import ClearSheet
from trimwright.viewer.render.picture import drawn
from trimwright.viewer.report.starts import STARTS
from trimwright.viewer.report.words import TRUST
from trimwright.viewer.window.reading import reading_of
from trimwright.viewer.window.state import State
from trimwright.viewer.words.find_language import LANGUAGES
from trimwright.viewer.words.sentences import sentences
from trimwright.viewer.words.speaker import speaker_of, told

Run = Callable[..., Result]

SAID = ("message", "remedy", "text", "source")
"""Keys of a report under which sentences stand."""

UNITS = "ft ftt"
"""Feet, which nobody translates, and which no letter of is accented where they stand in a sentence."""


class Heard:
    """The made-up language, which notes what it is asked for."""

    def __init__(self) -> None:
        self.code = CODE
        self.sentences: set[str] = set()
        self.inner = Accented()

    def sentence(self, text: str) -> str:
        self.sentences.add(text)
        return self.inner.sentence(text)

    def counted(self, one: str, other: str, count: int) -> str:
        self.sentences.add(one)
        return self.inner.counted(one, other, count)


@cache
def known() -> frozenset[str]:
    """Return every sentence that a catalog would have."""
    return frozenset(one if isinstance(one, str) else one[0] for one, _ in sentences())


@pytest.fixture(autouse=True)
def language(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    heard = Heard()
    monkeypatch.setitem(LANGUAGES, CODE, lambda: heard)
    yield
    assert heard.sentences
    assert heard.sentences - known() == set(), "a catalog would not have these"


def translated(name: str) -> Path:
    """Write a scene of the zoo that asks for the made-up language into the present folder."""
    path = next(path for path in SCENES if path.stem == name)
    file = Path(path.name)
    file.write_text(f'language = "{CODE}"\n{path.read_text(encoding="utf-8")}', encoding="utf-8")
    return file


def shown(name: str) -> Stage:
    layout = build(read_scene(translated(name)))
    return stage_of(layout, check(layout))


def names_in(layout: Layout, *more: str) -> set[str]:
    """Return every word that stays as it is: what the scene and the catalogue name, and the names of rules."""
    profiles = {**catalogue(), **layout.scene.profile}
    cited = [limit.source.title for limit in layout.limits.by_rule.values()]
    texts = [
        layout.scene.model_dump_json(),
        layout.limits.name,
        *(edge.name for edge in layout.roof.edges),
        *(face.name for face in layout.roof.faces),
        *(panel.name for panel in layout.panels),
        *profiles,
        *(leg.name for profile in profiles.values() for leg in profile.legs),
        *METALS,
        *(fastener for metal in METALS.values() for fastener in metal.fasteners),
        *STARTS,
        *(rule.RULE for rule in RULES),
        *(title for title in cited if isinstance(title, str)),
        *stage_of(layout).viewpoints,
        ALL_TRIM,
        UNITS,
        *more,
    ]
    return {word for text in texts for word in re.findall(r"[A-Za-z]{3,}", text)}


def output(result: Result) -> str:
    assert result.exit_code in (0, 1), result.output
    return result.stdout + result.stderr


@pytest.mark.parametrize("name", ["slip-shed", "harbor-office"])
@pytest.mark.parametrize("command", ["check", "compare", "buy", "picture", "page --no-stills"])
def test_no_english_word_is_left_in_what_a_command_prints(
    run: Run, here: Path, name: str, command: str
) -> None:
    file = translated(name)
    first, *options = command.split()
    words = plain_words(output(run(first, str(file), *options)))
    names = names_in(
        build(read_scene(file)),
        name,
        f"out/{name}-starts.png",
        f"{name}-buy",
        "roof.html",
        "lapped and sealed",
    )
    assert words - names == set()


def test_no_english_word_is_left_in_a_refusal(run: Run, here: Path) -> None:
    Path("bad.toml").write_text(
        f'language = "{CODE}"\ntitle = ""\nunit = "furlong"\n[roof]\nform = "shed"\nlength = "4 far"\nwidth = -3\n'
        '[metal]\nthickness = "3 ga"\ncolor = "red"\nstock = 4\n[trim.rake]\nlapp = 4\nlap = nan\n'
        "[screws]\nends = [9, 3]\n",
        encoding="utf-8",
    )
    result = run("check", "bad.toml")
    assert result.exit_code == 2 and len(result.stderr.splitlines()) > 8
    keys = {word for line in result.stderr.splitlines() for word in re.findall(r"\w+", line.split(": ")[1])}
    quoted = {word for text in re.findall(r'"[^"]*"', result.stderr) for word in re.findall(r"\w+", text)}
    came = {"far", "nan", "deg", "bad", "toml", "gable", "hip", "shed", "lap", "red"}
    assert plain_words(result.stderr) - keys - quoted - came == set()


def test_no_english_word_is_left_in_the_lists_but_the_columns_that_programs_read(
    run: Run, here: Path
) -> None:
    file = translated("harbor-office")
    layout = build(read_scene(file))
    output(run("buy", str(file), "-o", "bought"))
    texts = {path.name: path.read_text(encoding="utf-8") for path in Path("bought").glob("*.csv")}
    assert len(texts) > 5
    text = piece_list(layout)
    texts["pieces.csv"] = "\n".join(",".join(row) for row in list(csv.reader(io.StringIO(text)))[1:])
    titles = ("Copper Development Association handbook", "sheet-metal gauge tables")
    names = names_in(layout, *titles, "pub practice memory")
    assert {name: plain_words(text) - names for name, text in texts.items()} == {
        name: set() for name in texts
    }


def test_no_english_word_is_left_in_the_sentences_of_a_report(run: Run, here: Path) -> None:
    file = translated("slip-shed")
    report = json.loads(output(run("check", str(file), "--json")))

    def sentences(value: Any) -> Iterator[str]:
        if isinstance(value, dict):
            yield from (
                value[key]
                for key in ("message", "remedy", "text", "source")
                if isinstance(value.get(key), str)
            )
            for inner in value.values():
                yield from sentences(inner)
        elif isinstance(value, list):
            for inner in value:
                yield from sentences(inner)

    found = list(sentences(report))
    assert len(found) > 50
    assert plain_words("\n".join(found)) - names_in(build(read_scene(file))) == set()


def test_no_english_word_is_left_on_any_view(here: Path) -> None:
    stage = shown("slip-shed")
    say = speaker_of(stage.scene)
    texts: list[str] = []
    for view in stage.viewpoints.values():
        texts += [say(view.title), *(say(note) for note in view.notes), *(say(name) for name, _ in view.key)]
        texts += [told(say, one.text) for one in (*view.labels, *view.lines)]
        texts += [
            say(words)
            for part in view.legend
            for words in (part.heading, *(one.says for one in part.entries))
        ]
    assert plain_words("\n".join(texts)) - names_in(stage.layout) == set()


def test_no_english_word_is_left_in_pictures_and_films(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stage = shown("slip-shed")
    written: list[str] = []

    def recorded(inner: Any, place: int) -> Any:
        def text(*arguments: Any, **options: Any) -> Any:
            written.append(str(arguments[place]))
            return inner(*arguments, **options)

        return text

    monkeypatch.setattr(ClearSheet, "text", recorded(ClearSheet.text, 2))
    monkeypatch.setattr(ImageDraw.ImageDraw, "text", recorded(ImageDraw.ImageDraw.text, 2))
    for name in ("bare", "findings", "corner eave-rake apart", "finish"):
        drawn(stage, stage.view(name), (480, 300))
    assert len(list(islice(pictures_of(stage.layout, stage, (480, 300)), 12))) == 12
    assert len(written) > 60
    assert plain_words("\n".join(written)) - names_in(stage.layout) == set()


def test_no_english_word_is_left_in_what_the_window_reads_out(here: Path) -> None:
    stage = shown("slip-shed")
    layout, say = stage.layout, speaker_of(stage.scene)
    findings, steps = check(layout), steps_of(layout)
    states = [
        State("bare", 0, keys=True),
        State("bare", 0, finding=1),
        State("bare", 0, chosen=layout.parts[-1].mark),
        State("corner eave-rake apart", 0),
    ]
    for state in states:
        name = stage.view(state.view).name
        reading = reading_of(
            layout, findings, stage, steps, State(name, 0, state.chosen, state.finding, keys=state.keys)
        )
        assert reading is not None
        texts = [
            say(reading.heading),
            *(told(say, words) for row in reading.rows for words in (row.name, row.says)),
        ]
        keys = "Home Right Left End Delete Escape"
        assert plain_words("\n".join(texts)) - names_in(layout, keys) == set()


def test_no_english_word_is_left_in_the_packet(here: Path) -> None:
    layout = build(read_scene(translated("slip-shed")))
    findings, takeoff = check(layout), take_off(layout, layout.scene.buy)
    packet = bind(layout, findings, takeoff, imprint_of(layout.scene, "2026-11-26"))
    texts = [
        packet.title,
        *(heading.title for heading in packet.outline),
        *(text for page in packet.pages for text in words_on(page.items)),
    ]
    assert len(texts) > 1000
    assert plain_words("\n".join(texts)) - names_in(layout, *TRUST, "lbb") == set()


def words_on(items: Iterable[Any]) -> Iterator[str]:
    """Yield every text of a drawing."""
    for item in items:
        if isinstance(item, Words):
            yield item.text
        yield from words_on(getattr(item, "items", ()))
