"""The shop's color chart in a file: read from CSV, XLSX and TOML alike, and what is wrong is told with its line."""

from pathlib import Path

import openpyxl
import pytest

from trimwright.model.errors import SceneError
from trimwright.model.scene.colors import PAINTS
from trimwright.model.scene.read import scene_from
from trimwright.model.scene.schema import Scene

ROOF = '[roof]\nform = "shed"\nlength = "20\'"\nwidth = "12\'"\npitch = "4/12"\n'
ROWS = (
    ("name", "color", "gloss", "reflectance"),
    ("Harbor red", "#8c3b2e", "matte", "32 %"),
    ("Kelp", "dark olive green", "", ""),
)
TOML = """
[[color]]
name = "Harbor red"
color = "#8c3b2e"
gloss = "matte"
reflectance = 32

[[color]]
name = "Kelp"
color = "dark olive green"
"""


def scene_with(folder: Path, file: str, more: str = "") -> Scene:
    """A scene whose shop has its chart in a file."""
    text = f'title = "Hut"\n{ROOF}[colors]\ntrim = "harbor red"\npanels = "kelp"\n[shop]\ncolors = "{file}"\n{more}'
    return scene_from(text, "hut.toml", folder)


def chart(folder: Path, file: str) -> Path:
    path = folder / file
    if path.suffix == ".csv":
        path.write_text("# ours\n" + "".join(",".join(row) + "\n" for row in ROWS), encoding="utf-8")
    elif path.suffix == ".xlsx":
        book = openpyxl.Workbook()
        sheet = book.worksheets[0]
        for row in ROWS:
            sheet.append(row)
        book.save(path)
    else:
        path.write_text(TOML, encoding="utf-8")
    return path


@pytest.mark.parametrize("file", ["colors.csv", "colors.xlsx", "colors.toml"])
def test_a_chart_is_read_from_any_of_its_files(tmp_path: Path, file: str) -> None:
    chart(tmp_path, file)
    scene = scene_with(tmp_path, file)
    told = [(one.name, one.color, one.coat, one.reflectance) for one in scene.shop.color]
    assert told == [("Harbor red", "#8c3b2e", "matt", 32.0), ("Kelp", "#556b2f", "satin", None)]
    assert (scene.colors.trim, scene.colors.panels) == ("#8c3b2e", "#556b2f")


def test_colors_of_the_scene_itself_come_before_those_of_the_file(tmp_path: Path) -> None:
    chart(tmp_path, "colors.csv")
    scene = scene_with(tmp_path, "colors.csv", '[[shop.color]]\nname = "Kelp"\ncolor = "#010203"\n')
    assert [(one.name, one.color) for one in scene.shop.color] == [
        ("Kelp", "#010203"),
        ("Harbor red", "#8c3b2e"),
    ]


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("Dune,sandi brown,,", 'line 4: color: "sandi brown" is not a color; did you mean "sandybrown"?'),
        ("Dune,#zzzzzz,,", 'line 4: color: "#zzzzzz" is not a color; give a name'),
        (",tan,,", "line 4: name: it is missing"),
        (61 * "x" + ",tan,,", "line 4: name: "),
        ("Dune,tan,shiny,", 'line 4: gloss: "shiny" is not bare, matt, satin or gloss'),
        ("Dune,tan,,0.32", 'line 4: reflectance: "0.32" is no percentage; give one from 0 to 100'),
        ("Dune,tan,,a lot", 'line 4: reflectance: "a lot" is no percentage'),
        ("harbor RED,tan,,", "line 4: 'harbor RED' stands in line 2 too; keep one of them"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(tmp_path: Path, row: str, told: str) -> None:
    rows = "name,color,gloss,reflectance\nHarbor red,#8c3b2e,,\nKelp,#3c4a35,,\n"
    (tmp_path / "colors.csv").write_text(rows + row + "\n", encoding="utf-8")
    with pytest.raises(SceneError) as caught:
        scene_with(tmp_path, "colors.csv")
    [problem] = caught.value.problems
    assert str(problem).startswith(f"colors.csv: {told}")


def test_a_name_of_sixty_letters_is_taken(tmp_path: Path) -> None:
    rows = f"name,color\nHarbor red,#8c3b2e\nKelp,#3c4a35\n{60 * 'x'},tan\n"
    (tmp_path / "colors.csv").write_text(rows, encoding="utf-8")
    assert scene_with(tmp_path, "colors.csv").shop.color[-1].name == 60 * "x"


@pytest.mark.parametrize(
    ("file", "text", "told"),
    [
        ("no.csv", None, "no.csv: cannot be read"),
        ("colors.txt", "name,color\n", "neither .csv nor .xlsx"),
        ("colors.csv", "colour,name\nred,Red\n", "colors.csv: line 1: no column is called color"),
        ("colors.csv", "", "colors.csv: line 1: no column is called name or color"),
        ("colors.xlsx", "no workbook", "colors.xlsx: not a workbook"),
        ("colors.toml", "color = 1", "colors.toml: no colors in it"),
        ("colors.toml", "[[color", "colors.toml: not TOML"),
        ("colors.toml", '\n[[color]]\nname = "Red"\ncolour = "red"', "colors.toml: line 2: "),
    ],
)
def test_a_file_that_is_no_chart_is_refused(tmp_path: Path, file: str, text: str | None, told: str) -> None:
    if text is not None:
        (tmp_path / file).write_text(text, encoding="utf-8")
    with pytest.raises(SceneError) as caught:
        scene_with(tmp_path, file)
    assert told in str(caught.value)


def test_the_names_of_our_own_paints_may_be_written() -> None:
    for name, code in PAINTS.items():
        scene = scene_from(f'title = "Hut"\n{ROOF}[colors]\ntrim = "{name.title()}"\n')
        assert scene.colors.trim == code
