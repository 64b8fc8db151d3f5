"""Help: every word of it is in the catalogs, and it is told in the language that is asked for."""

from collections.abc import Iterator
from typing import Any

import typer
from accented import CODE, accented, spoken

from trimwright.viewer.cli.commands import app_of
from trimwright.viewer.cli.helps import HEADINGS, SHOWN, USAGE, told_in_asked_language
from trimwright.viewer.words.find_language import LANGUAGES
from trimwright.viewer.words.sentences import sentences

OWN = {SHOWN.text}
"""What typer says by itself."""


def helps(command: Any) -> Iterator[str]:
    for told in (command, *command.params):
        words = getattr(told, "help", None)
        if words and words not in OWN:
            yield words
    if command.epilog:
        yield command.epilog
    for one in getattr(command, "commands", {}).values():
        yield from helps(one)


def test_all_help_is_in_the_catalogs() -> None:
    assert set(helps(typer.main.get_command(app_of()))) - {sentence for sentence, _ in sentences()} == set()


def test_help_is_told_in_the_language_that_is_asked_for() -> None:
    plain = set(helps(typer.main.get_command(app_of())))
    with spoken():
        for asked in (["check", "--help", "--language", f"{CODE},en"], [f"--language={CODE}"]):
            command = told_in_asked_language(typer.main.get_command(app_of()), asked)
            assert set(helps(command)) == {accented(words) for words in plain}
    assert set(helps(told_in_asked_language(typer.main.get_command(app_of()), ["check"]))) == plain


def test_headings_are_told_in_it_too() -> None:
    with spoken():
        for asked, heading in ((["--help"], "Commands"), (["check", "--help"], "Arguments")):
            command = told_in_asked_language(typer.main.get_command(app_of()), [*asked, f"--language={CODE}"])
            with command.make_context("trimwright", list(asked), resilient_parsing=True) as context:
                told = command if len(asked) == 1 else command.commands[asked[0]]
                text = told.get_help(told.context_class(told, info_name=asked[0], parent=context))
            for words in (USAGE.text, SHOWN.text, "Options", heading):
                assert accented(words.split()[0]) in text
                assert words.split()[0] not in text
    assert {heading.text for heading in HEADINGS} >= {"Arguments", "Options", "Commands"}


def test_what_stands_behind_an_option_is_told_in_it_too_and_in_english_again_afterwards() -> None:
    def told(language: str) -> str:
        whole = told_in_asked_language(typer.main.get_command(app_of()), [f"--language={language}"])
        preview = whole.commands["preview"]
        return str(preview.get_help(preview.context_class(preview, info_name="preview")))

    with spoken():
        other = told(CODE)
    assert f"[{accented('required')}]" in other
    assert f"[{accented('default')}: all]" in other
    assert "required" not in other
    assert "[required]" in told("en")


def test_every_language_that_there_is_words_for_is_offered() -> None:
    for command in typer.main.get_command(app_of()).commands.values():
        (language,) = [param for param in command.params if param.name == "language"]
        assert language.metavar == f"<{'|'.join(LANGUAGES)}>[,…]"
