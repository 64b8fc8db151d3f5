"""Pictures that are kept: which change has which of them drawn again."""

from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from PIL import Image
from zoo import layout

from trimwright.model.scene.sun import SunSpec
from trimwright.viewer.display.notes import Pin
from trimwright.viewer.display.stage import Stage, stage_of
from trimwright.viewer.display.view import ViewPoint, file_name
from trimwright.viewer.render import picture, unchanged
from trimwright.viewer.words.progress import nobody

SIZE = (160, 100)
VIEWS = ("finish", "findings", "corner peak R2-2")


@pytest.fixture(scope="module")
def stage() -> Stage:
    return pinned(stage_of(layout("boat-shed")))


def pinned(stage: Stage, text: str = "short-face: front eave") -> Stage:
    """Return a stage with a finding."""
    return replace(stage, pins=(Pin(1, "warning", stage.labels[0].points[0], text, "E1-1", 1),))


@pytest.fixture(scope="module")
def folder(stage: Stage, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pictures of an earlier run."""
    folder = tmp_path_factory.mktemp("earlier")
    for name, data in picture.pictures_of(stage, VIEWS, nobody, SIZE):
        (folder / name).write_bytes(data)
    return folder


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the views that are drawn from now on, each in one flat color."""
    names: list[str] = []

    def flat(_: Stage, view: ViewPoint, size: tuple[int, int]) -> Image.Image:
        names.append(view.name)
        return Image.new("RGB", size)

    monkeypatch.setattr(picture, "drawn", flat)
    return names


def again(stage: Stage, folder: Path) -> dict[str, bytes]:
    return dict(picture.pictures_of(stage, VIEWS, nobody, SIZE, folder))


def with_scene(stage: Stage, **changes: object) -> Stage:
    """Return the stage of the same layout, its scene changed."""
    changed = stage.layout.scene.model_copy(update=changes)
    return pinned(stage_of(replace(stage.layout, scene=changed)))


def test_nothing_is_drawn_again_where_nothing_has_changed(
    stage: Stage, folder: Path, drawn: list[str]
) -> None:
    afresh = pinned(stage_of(stage.layout))
    assert again(afresh, folder) == {file.name: file.read_bytes() for file in folder.iterdir()}
    assert drawn == []


def test_a_price_changes_no_picture_a_color_and_a_finding_some_and_a_title_all(
    stage: Stage, folder: Path, drawn: list[str]
) -> None:
    scene = stage.scene
    again(with_scene(stage, buy=scene.buy.model_copy(update={"objective": "money"})), folder)
    assert drawn == []
    again(with_scene(stage, colors=scene.colors.model_copy(update={"trim": "#7a1f1f"})), folder)
    assert drawn == ["finish"], "where pieces are told apart, trim has other colors than its own"
    drawn.clear()
    again(pinned(stage, "short-face: back eave"), folder)
    assert drawn == ["findings"]
    drawn.clear()
    again(with_scene(stage, title="Another shed"), folder)
    assert drawn == list(VIEWS)


@pytest.mark.parametrize("changes", [{"language": ("es",)}, {"show": "mm"}, {"denominator": 4}])
def test_other_words_are_drawn(
    stage: Stage, folder: Path, drawn: list[str], changes: dict[str, object]
) -> None:
    again(with_scene(stage, **changes), folder)
    assert drawn == list(VIEWS)


def test_another_size_or_program_is_drawn(
    stage: Stage, folder: Path, drawn: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    dict(picture.pictures_of(stage, VIEWS, nobody, (200, 100), folder))
    assert drawn == list(VIEWS)
    drawn.clear()
    monkeypatch.setattr(unchanged, "program", lambda: b"another")
    again(stage, folder)
    assert drawn == list(VIEWS)


def test_a_piece_that_lies_otherwise_is_drawn_where_it_is_seen(
    stage: Stage, folder: Path, drawn: list[str]
) -> None:
    bodies = [
        replace(body, vertices=body.vertices + np.array([0.0, 0.0, 1 / 64])) if body.name == "E1-2" else body
        for body in stage.bodies
    ]
    again(replace(stage, bodies=tuple(bodies)), folder)
    assert "finish" in drawn


def test_a_file_that_is_not_as_it_was_written_is_drawn_anew(
    stage: Stage, folder: Path, drawn: list[str], tmp_path: Path
) -> None:
    names = [file_name(view) for view in VIEWS]
    cut, painted, swapped = ((folder / name).read_bytes() for name in names)
    (tmp_path / names[0]).write_bytes(cut[: len(cut) // 2])
    (tmp_path / names[1]).write_bytes(painted[:200] + bytes([painted[200] ^ 1]) + painted[201:])
    (tmp_path / names[2]).write_bytes(painted)
    again(stage, tmp_path)
    assert drawn == list(VIEWS)
    assert painted != swapped


def test_a_sealed_picture_is_still_a_picture(stage: Stage, folder: Path) -> None:
    plain = picture.drawn(stage, stage.view("finish"), SIZE)
    with Image.open(folder / "finish.png") as image:
        image.load()
        assert np.array_equal(np.asarray(image), np.asarray(plain))
        assert len(image.text["trimwright"]) == 64


@pytest.mark.parametrize("name", [*VIEWS, "bare", "ladder", "street"])
def test_nothing_is_drawn_but_what_the_digest_is_made_of(
    stage: Stage, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A stage that has nothing else makes the same picture."""
    view, scene = stage.view(name), stage.scene
    pieces = picture.pieces_of(stage, view)
    trims = [body for body in stage.bodies if body.trim]
    known: Any = SimpleNamespace(
        scene=SimpleNamespace(
            title=scene.title, language=scene.language, tape=scene.tape, sun=scene.sun, north=scene.north
        ),
        bodies=[
            SimpleNamespace(
                kind="trim",
                name=body.name,
                trim=body.trim,
                vertices=body.vertices if body.name in view.highlight else None,
            )
            for body in trims
        ],
        pins=stage.pins if view.pins else (),
        ground=stage.ground,
    )
    size = (480, 300)
    whole = np.asarray(picture.drawn(stage, view, size))
    monkeypatch.setattr(picture, "pieces_of", lambda *_: pieces)
    assert np.array_equal(np.asarray(picture.drawn(known, view, size)), whole)


def test_the_digest_is_of_the_ground_the_sun_and_a_piece_that_is_ringed_where_it_is_hidden(
    stage: Stage,
) -> None:
    own = frozenset({"E1-2"})
    view = replace(stage.view("findings"), outdoors=False, highlight=own, hidden=own)
    bodies = [
        replace(body, vertices=body.vertices + 1 / 64) if body.name == "E1-2" else body
        for body in stage.bodies
    ]
    others = [
        replace(stage, ground=stage.ground - 1),
        with_scene(stage, sun=SunSpec(latitude=44.5)),
        with_scene(stage, sun=SunSpec(latitude=44.5), north=90.0),
        replace(stage, bodies=tuple(bodies)),
    ]
    digests = {unchanged.shown_in(one, view, SIZE) for one in (stage, *others)}
    assert len(digests) == 1 + len(others)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (np.zeros((2, 3)), np.zeros((3, 2))),
        (np.zeros(2, dtype=np.float32), np.zeros(1)),
        (("a", "b"), ("ab",)),
        ((("a", "b"),), (("a",), "b")),
        (1, True),
        (1, "1"),
        (None, "None"),
    ],
    ids=lambda thing: repr(thing).replace("\n", ""),
)
def test_other_things_have_other_digests(stage: Stage, one: Any, other: Any) -> None:
    view = stage.view("finish")
    first, second = (unchanged.shown_in(stage, replace(view, title=thing), SIZE) for thing in (one, other))
    assert first != second


@pytest.mark.parametrize("name", ["part/drawn.py", "words/es.po", "metals.toml"])
def test_the_digest_of_the_program_is_of_its_code_its_words_its_data_and_its_libraries(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / name
    file.parent.mkdir(exist_ok=True)
    monkeypatch.setattr(unchanged, "CODE", (tmp_path,))
    file.write_text("before")
    before = unchanged.program.__wrapped__()
    assert unchanged.program.__wrapped__() == before
    file.write_text("after")
    after = unchanged.program.__wrapped__()
    monkeypatch.setattr(unchanged, "version", lambda library: f"another {library}")
    assert len({before, after, unchanged.program.__wrapped__()}) == 3


def test_what_no_digest_is_known_for_is_refused(stage: Stage) -> None:
    strange: Any = object()
    with pytest.raises(TypeError, match="no digest of a object"):
        unchanged.shown_in(stage, replace(stage.view("finish"), title=strange), SIZE)
