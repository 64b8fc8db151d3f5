"""What cannot be read, built or written is said in one clear line each, with status 2 and nothing half written."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from trimwright.viewer.cli import problems

Run = Callable[..., Result]
SceneOf = Callable[[str], Path]

HEAD = 'title = "Shed"\n[roof]\nform = "shed"\nlength = 200\nwidth = 120\npitch = "4/12"\n'

BAD = {
    "not TOML": ("title = ", ["not TOML"]),
    "unclosed text": ('title = "Shed\n', ["line 1", "not TOML"]),
    "not UTF-8": (b'title = "\xff\xfe"', ["line 1", "UTF-8"]),
    "empty": ("", ["title", "missing"]),
    "unknown key": (HEAD + "[metal]\nkolor = 3\n", ["metal.kolor", "color"]),
    "nonsense unit": (HEAD + '[metal]\nthickness = "3 furlongs"\n', ["metal.thickness", "3 furlongs"]),
    "not a number": (HEAD + "[trim.rake]\nlap = nan\n", ["trim.rake.lap", "nan"]),
    "endless": (HEAD + "[screws]\nspacing = inf\n", ["screws.spacing", "inf"]),
    "negative": (HEAD + '[trim.rake]\nlap = "-4 in"\n', ["trim.rake.lap", "-4 in"]),
    "text for a table": (HEAD + "metal = 3\n", ["metal"]),
    "unknown profile": (HEAD + '[trim.rake]\nprofile = "hok rake"\n', ["trim.rake.profile", "hook rake"]),
    "unknown run": (HEAD + '[run."left raek"]\nlap = 3\n', ['run."left raek"', "front eave"]),
    "unknown rule": (HEAD + '[rules.off]\nshort-peice = "so"\n', ["rules.off.short-peice"]),
    "pieces too short": (HEAD + "[trim.eave]\npieces = [60]\n", ["front eave", "bare"]),
}
COMMANDS = (("check",), ("check", "--json"), ("preview",), ("picture", "--view", "street"), ("compare",))


def refused(result: Result, here: Path, *files: str) -> list[str]:
    """Return the lines of a refusal, after looking that it is one and that nothing else is left in ``here``."""
    assert result.exit_code == 2
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert lines and not any("Traceback" in line or "fault in trimwright" in line for line in lines)
    assert sorted(path.name for path in here.iterdir()) == sorted(files)
    return lines


@pytest.mark.parametrize(
    ("command", "name"),
    [
        pytest.param(command, name, id=f"{' '.join(command)}: {name}")
        for command in COMMANDS
        for name in BAD
        if (command, name) != (("compare",), "pieces too short")  # it sets lengths given by hand aside
    ],
)
def test_a_bad_scene(run: Run, here: Path, name: str, command: tuple[str, ...]) -> None:
    text, words = BAD[name]
    Path("bad.toml").write_bytes(text if isinstance(text, bytes) else text.encode())
    lines = refused(run(*command, "bad.toml"), here, "bad.toml")
    told = [line for line in lines if all(word in line for word in words)]
    assert told, lines
    assert all(line.startswith("bad.toml: ") and 20 < len(line) < 400 for line in lines)


def test_all_problems_at_once(run: Run, here: Path) -> None:
    Path("bad.toml").write_text(HEAD + '[metal]\nkind = "tin"\nthickness = -1\n[screws]\nspacing = "wide"\n')
    lines = refused(run("check", "bad.toml"), here, "bad.toml")
    assert len(lines) == 3


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_no_such_scene_and_a_folder_for_one(run: Run, here: Path, command: tuple[str, ...]) -> None:
    Path("folder.toml").mkdir()
    assert "no such file" in refused(run(*command, "none.toml"), here, "folder.toml")[0]
    assert "this is a folder" in refused(run(*command, "folder.toml"), here, "folder.toml")[0]
    assert len(refused(run(*command, "folder.toml/x.toml"), here, "folder.toml")) == 1


def test_a_file_stands_where_the_output_folder_should(run: Run, here: Path, scene: SceneOf) -> None:
    Path("out").write_text("mine")
    for place in ("out", "out/deeper"):
        lines = refused(run("preview", scene("oar-store"), "-o", place), here, "out")
        assert len(lines) == 1 and lines[0].startswith(f"{place}: a file is in the way")
    assert len(refused(run("preview", scene("oar-store")), here, "out")) == 1
    assert Path("out").read_text() == "mine"


def test_a_place_that_takes_no_folders(run: Run, here: Path, scene: SceneOf) -> None:
    lines = refused(run("preview", scene("oar-store"), "-o", "/proc/trimwright/out"), here)
    assert len(lines) == 1 and "cannot be written" in lines[0]
    lines = refused(run("preview", scene("oar-store"), "-o", "x" * 300), here)
    assert len(lines) == 1 and "name too long" in lines[0]


def test_a_picture_goes_to_a_png_file(run: Run, here: Path, scene: SceneOf) -> None:
    Path("there.png").mkdir()
    view = ("picture", scene("oar-store"), "--view", "street", "-o")
    assert "ends in .png" in refused(run(*view, "roof.bmp"), here, "there.png")[0]
    assert "this is a folder" in refused(run(*view, "there.png"), here, "there.png")[0]


def test_an_unknown_view_lists_those_there_are(run: Run, here: Path, scene: SceneOf) -> None:
    lines = refused(run("picture", scene("oar-store"), "--view", "strete"), here)
    assert len(lines) == 1 and "street" in lines[0] and "finish" in lines[0]


def test_a_fault_of_the_program_is_one_line_that_says_where(
    run: Run, here: Path, scene: SceneOf, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("two\nlines")

    monkeypatch.setattr("trimwright.model.pipeline.build", broken)
    result = run("check", scene("oar-store"))
    assert result.exit_code == 2
    assert result.stderr.startswith("a fault in trimwright itself (")
    assert "RuntimeError: two lines" in result.stderr and len(result.stderr.splitlines()) == 1


def test_ctrl_c_leaves_nothing(run: Run, here: Path, scene: SceneOf, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("trimwright.viewer.data.glb.glb_of", stopped)
    result = run("preview", scene("oar-store"), "--only", "patterns,model")
    assert result.exit_code == problems.STOPPED
    assert list(here.iterdir()) == []


def test_parts_that_there_are_not(run: Run, here: Path, scene: SceneOf) -> None:
    (line,) = refused(run("preview", scene("net-loft"), "--only", "page,pakcet"), here)
    assert "'pakcet'" in line and "did you mean 'packet'?" in line and "patterns" in line
