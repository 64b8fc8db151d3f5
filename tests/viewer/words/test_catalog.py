"""Catalogs: every sentence is found, a PO file gives a language, and places that do not agree are told."""

import io
import re
from pathlib import Path

import pytest
from accented import Accented, accented
from babel.messages.catalog import Catalog as Entries
from babel.messages.pofile import write_po

from trimwright.model.message import Length, counted, message
from trimwright.viewer.words.__main__ import main
from trimwright.viewer.words.catalog import entries_in, faults_in, read_catalog
from trimwright.viewer.words.find_language import CATALOGS, LANGUAGES, language_called, name_of
from trimwright.viewer.words.sentences import sentences, template
from trimwright.viewer.words.speaker import Speaker


def test_sentences_are_found_in_code_scripts_and_data() -> None:
    found = {sentence for sentence, _ in sentences()}
    files = {file for _, file in sentences()}
    assert len(found) > 800
    assert "the lap is {lap}, less than {least}" in found
    assert ("{count} error", "{count} errors") in found
    assert "one screw lets a piece swing" in found and "prefinished steel" in found
    assert ("sole", "model/profiles/catalogue.toml") in set(sentences())
    assert any(file.endswith(".js") for file in files)


def test_a_catalog_of_the_made_up_language_says_what_that_language_says(tmp_path: Path) -> None:
    path = tmp_path / "qaa.po"
    entries = template()
    for entry in entries:
        if entry.id:
            one = isinstance(entry.id, str)
            entry.string = accented(entry.id) if one else tuple(accented(form) for form in entry.id)
    entries.locale = "qaa"
    with path.open("wb") as file:
        write_po(file, entries)
    assert list(faults_in(entries_in(path))) == []
    language, made_up = read_catalog(path), Accented()
    assert language.code == "qaa"
    for sentence, _ in sentences():
        if isinstance(sentence, str):
            assert language.sentence(sentence) in (made_up.sentence(sentence), accented(sentence))
        else:
            assert [language.counted(*sentence, n) for n in (1, 2)] == [
                made_up.counted(*sentence, n) for n in (1, 2)
            ]


POLISH = """
msgid ""
msgstr "Content-Type: text/plain; charset=utf-8\\n"
"Plural-Forms: nplurals=3; plural=n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<12 || n%100>14) ? 1 : 2;\\n"

msgid "{count} error"
msgid_plural "{count} errors"
msgstr[0] "{count} błąd"
msgstr[1] "{count} błędy"
msgstr[2] "{count} błędów"

msgid "Cut it back {far}."
msgstr "Odetnij {far}."

msgid "one way"
msgstr ""

#, fuzzy
msgid "error"
msgstr "coś"
"""


def test_a_language_counts_in_its_own_way_and_falls_back_to_english(tmp_path: Path) -> None:
    path = tmp_path / "pl.po"
    path.write_text(POLISH, encoding="utf-8")
    say = Speaker(read_catalog(path))
    assert [say(counted("{count} error", "{count} errors", count=n)) for n in (1, 3, 5, 22)] == [
        "1 błąd",
        "3 błędy",
        "5 błędów",
        "22 błędy",
    ]
    assert say(message("Cut it back {far}.", far=Length(2))) == 'Odetnij 2".'
    assert [say("one way"), say("error"), say("never seen")] == ["one way", "error", "never seen"]


def test_a_translation_without_a_value_is_told(tmp_path: Path) -> None:
    entries = Entries(locale="nb")
    entries.add("Cut it back {far}.", "Klipp den.")
    entries.add("Lay it over {mark}.", "Legg den over {mark}.")
    assert list(faults_in(entries)) == ["'Cut it back {far}.' has the places ['far'], 'Klipp den.' has []"]


def test_a_language_is_begun_and_brought_up_to_date(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "nb.po"
    main([str(path)])
    assert re.search(r", [1-9]\d+ to translate$", capsys.readouterr().out, re.MULTILINE)
    entries = entries_in(path)
    entries["pieces"].string = "biter"
    buffer = io.BytesIO()
    write_po(buffer, entries)
    path.write_bytes(buffer.getvalue())
    main([str(path)])
    assert read_catalog(path).sentence("pieces") == "biter"


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_language_that_there_is_can_be_spoken(code: str) -> None:
    assert language_called(code).code == code and name_of(code)
    if code in CATALOGS:
        assert list(faults_in(entries_in(CATALOGS[code]))) == []


@pytest.mark.parametrize("code", CATALOGS)
def test_every_sentence_is_in_every_language_that_is_shipped(code: str) -> None:
    language = read_catalog(CATALOGS[code])
    keys = (sentence if isinstance(sentence, str) else sentence[0] for sentence, _ in sentences())
    assert sorted({key for key in keys if key not in language.said}) == []


def test_a_language_calls_itself_by_its_name() -> None:
    assert [name_of(code) for code in ("en", "nb", "zz")] == ["English", "norsk bokmål", "zz"]
