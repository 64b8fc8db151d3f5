"""The words in README, DEVELOPERS and docs: their links lead somewhere, their commands exist, their output comes."""

import io
import re
import shlex
from pathlib import Path

import pytest
import typer.main
from rich.console import Console
from zoo import SCENES, layout, told

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.terms import terms_of
from trimwright.model.scene.read import read_scene, scene_from
from trimwright.viewer.cli.commands import app_of
from trimwright.viewer.report.starts import layouts_by_start, starts_table
from trimwright.viewer.report.tables import PIPED, print_summary
from trimwright.viewer.report.terms import terms_told
from trimwright.viewer.report.words import UNDER, group_told, totals

ROOT = Path(__file__).parents[3]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted(ROOT.glob("docs/**/*.md"))]
NAMES = [path.relative_to(ROOT).as_posix() for path in PAGES]
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def blocks(text: str, kind: str) -> list[str]:
    return [body for found, body in FENCE.findall(text) if found == kind]


def commands(text: str) -> list[list[str]]:
    """Return every command of this program in the fenced blocks, and in lines of code."""
    lines = [line for body in blocks(text, "sh") for line in body.splitlines()]
    lines += re.findall(r"`(trimwright [^`]+)`", FENCE.sub("", text))
    asked = [part.strip().removeprefix(".venv/bin/") for line in lines for part in line.split("&&")]
    return [shlex.split(line)[1:] for line in asked if line.startswith("trimwright ")]


@pytest.mark.parametrize("page", PAGES, ids=NAMES)
def test_links_lead_to_files(page: Path) -> None:
    text = FENCE.sub("", page.read_text(encoding="utf-8"))
    for link in re.findall(r"\]\(([^)]+)\)", text):
        if not link.startswith(("http:", "https:", "#")):
            assert (page.parent / link.partition("#")[0]).exists(), link


@pytest.mark.parametrize("page", PAGES, ids=NAMES)
def test_commands_exist_and_take_these_options(page: Path) -> None:
    group = typer.main.get_command(app_of())
    for name, *arguments in commands(page.read_text(encoding="utf-8")):
        command = group.commands[name]  # type: ignore[attr-defined]
        if arguments and "SCENE" not in arguments:
            command.make_context(name, [*arguments])
        for word in arguments:
            if word.startswith("scenes/"):
                assert (ROOT / word).exists(), word


@pytest.mark.parametrize("page", PAGES, ids=NAMES)
def test_scenes_that_are_shown_whole_can_be_read(page: Path) -> None:
    for body in blocks(page.read_text(encoding="utf-8"), "toml"):
        if body.startswith("title"):
            assert scene_from(body, folder=SCENES[0].parent).title


def printed(command: str, name: str) -> list[str]:
    """Return the lines that a command prints about a scene, without what it writes."""
    text = io.StringIO()
    to = Console(file=text, markup=False, highlight=False, emoji=False, width=PIPED)
    plan = layout(name)
    findings = told(name)
    match command:
        case "preview":
            print_summary(to, plan, findings)
        case "check":
            terms = [str(term) for term in terms_told(terms_of(plan, findings), plan.scene.tape)]
            lines = [
                f"{'' if group[0].cause is None else UNDER}{group[0].severity:<8}{group[0].rule}  "
                f"{group_told(group, plan.scene.tape)}"
                for group in groups_of(findings)
            ]
            return [*terms, *lines, str(totals(findings))]
        case "compare":
            to.print(starts_table(layouts_by_start(read_scene(ROOT / "scenes" / f"{name}.toml"))))
    return [line.rstrip() for line in text.getvalue().splitlines()]


def shown() -> list[tuple[str, str, list[str]]]:
    """Return each command of the README that is followed by what it prints."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    pairs = re.findall(
        r"^```sh\ntrimwright (\w+) scenes/([\w-]+)\.toml\n```\n```text\n(.*?)^```$", text, re.M | re.S
    )
    return [(command, name, body.splitlines()) for command, name, body in pairs]


@pytest.mark.parametrize(
    ("command", "name", "lines"), shown(), ids=lambda value: value if isinstance(value, str) else ""
)
def test_the_readme_shows_what_the_command_prints(command: str, name: str, lines: list[str]) -> None:
    """Line by line, in order; ``...`` stands for lines left out."""
    said = iter(printed(command, name))
    for line in lines:
        if line != "...":
            assert line.rstrip() in said, line


def test_the_readme_shows_the_three_commands() -> None:
    assert [command for command, _, _ in shown()] == ["preview", "check", "compare"]
