"""Pictures: what is in them, by share of color."""

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from zoo import SCENES, layout

from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.display.coats import DULL
from trimwright.viewer.display.color_math import rgb
from trimwright.viewer.display.stage import Stage, ViewError, stage_of
from trimwright.viewer.display.view import ViewPoint
from trimwright.viewer.render import picture
from trimwright.viewer.render.caption import caption_of
from trimwright.viewer.render.errors import PictureError
from trimwright.viewer.render.meshes import pieces_of
from trimwright.viewer.render.surface import ColoredMesh, surface_of
from trimwright.viewer.render.visible import see
from trimwright.viewer.words.speaker import speaker_of

SMALL = (480, 300)


@pytest.fixture(scope="module")
def stage() -> Stage:
    return stage_of(layout("boat-shed"))


def shares(stage: Stage, view: ViewPoint, names: list[str]) -> dict[str, float]:
    """Return what share of a view's picture shows each piece, read off the faces that are seen."""
    pieces, owners = [], []
    for body in stage.bodies:
        if body.kind not in view.shows or body.name in view.hidden:
            continue
        shift = view.apart.get(body.name, np.zeros(3)) if body.kind == "trim" else np.zeros(3)
        colors = np.zeros((len(body.faces), 3), dtype=np.uint8)
        pieces.append(ColoredMesh(body.vertices + shift, body.faces, colors, DULL, edges=False))
        owners += [body.name if body.kind == "trim" else ""] * len(body.faces)
    seen = see(surface_of(pieces), view.shots[0], (160, 100))
    shown = np.array([*owners, ""])[seen.shown]
    return {name: float((shown == name).mean()) for name in names}


@pytest.mark.parametrize("language", ["en", "es", "en,es"])
def test_every_step_of_a_corner_is_told_beside_it(language: str) -> None:
    """The heads of two hips and a valley meet over a ridge: thirty steps, and as many again in another language."""
    text = next(path for path in SCENES if path.stem == "signal-house").read_text(encoding="utf-8")
    scene = scene_from(f"language = {language.split(',')}\n{text}")
    stage, say = stage_of(build(scene)), speaker_of(scene)
    wide, high = picture.SIZE
    for view in (stage.view(name) for name in stage.album):
        if view.legend:
            bottom = high - caption_of(stage, view, picture.SIZE, say).height
            rows, size = picture.rows_of(view.legend, (wide * picture.PANEL, bottom, high), say)
            assert not any(re.search(r"\d['\"]?\n\d+( \d+)?(/\d+)?[\"']", told) for _, _, told in rows)
            ends = [y + (told.count("\n") + 1) * size for y, _, told in rows]
            assert len(rows) == sum(1 + len(part.entries) for part in view.legend)
            assert all(end <= y for end, (y, _, _) in zip(ends, rows[1:], strict=False)) and ends[-1] < bottom


def test_a_corner_shows_the_pieces_that_it_is_about(stage: Stage) -> None:
    for name in stage.album:
        view = stage.view(name)
        if view.focus and not name.startswith("screws"):
            marks = sorted(view.focus)
            for mark, share in shares(stage, view, marks).items():
                assert share > 0.01, (name, mark, share)


def test_the_short_piece_is_in_the_middle_of_its_picture(stage: Stage) -> None:
    view = stage.view("short piece R1-2")
    part = next(part for part in layout("boat-shed").parts if part.mark == "R1-2")
    pixels, _ = view.shots[0].project(part.solid.vertices.mean(axis=0)[None], SMALL)
    assert (np.abs(pixels[0] / np.array(SMALL) - 0.5) < 0.3).all()


def test_every_screw_of_a_rake_is_seen(stage: Stage) -> None:
    view = stage.view("screws R1")
    screws = np.array([screw.point for screw in stage.screws if screw.mark.startswith("R1-")])
    seen = np.zeros(len(screws), dtype=bool)
    for shot in view.shots:
        pixels, _ = shot.project(screws, (1600, 300))
        seen |= (pixels >= 0).all(axis=1) & (pixels < [1600, 300]).all(axis=1)
    assert seen.all()


def test_the_finished_roof_has_its_colors_and_a_shadow(stage: Stage) -> None:
    image = np.asarray(picture.drawn(stage, stage.view("finish"), SMALL), dtype=float)[:270]
    scene = stage.scene

    def like(code: str) -> float:
        """Return the share of pixels of about one hue: their proportions, whatever the light."""
        wanted = np.array(rgb(code), dtype=float)
        sizes = np.linalg.norm(image, axis=2)
        cosine = image @ wanted / np.maximum(sizes, 1) / np.linalg.norm(wanted)
        return float(((cosine > 0.985) & (sizes > 40)).mean())

    assert like(scene.colors.walls) > 0.08
    assert like(scene.colors.panels) > 0.12
    right, left = image[140:235, 430:470].mean(), image[140:235, 8:48].mean()
    assert right < left - 10, "the shadow falls to the right"


def test_panels_can_be_left_out_of_the_finished_look(stage: Stage) -> None:
    bare = layout("boat-shed")
    scene = bare.scene.model_copy(update={"panels": bare.scene.panels.model_copy(update={"show": False})})
    view = stage_of(replace(bare, scene=scene)).view("finish")
    assert "pan" not in view.shows
    assert "pan" in stage.view("finish").shows


def test_pieces_lifted_apart_are_drawn_where_they_are_lifted_to(stage: Stage) -> None:
    view = stage.view("corner eave-rake R1-1 apart")
    set_down = pieces_of(stage, replace(view, apart={}))
    lifted = pieces_of(stage, view)
    moved = [
        not np.allclose(a.vertices, b.vertices)
        for a, b in zip(set_down, lifted, strict=False)
        if a.vertices.shape == b.vertices.shape
    ]
    assert sum(moved) == 1
    assert len(lifted[-1].vertices) < len(set_down[-1].vertices), "its screws are not driven yet"


def test_a_file_is_written_whole_or_not_at_all(stage: Stage, tmp_path: Path) -> None:
    picture.render(stage, "street", tmp_path / "a.png", SMALL)
    with Image.open(tmp_path / "a.png") as image:
        assert image.size == SMALL
    with pytest.raises(PictureError, match="cannot be written"):
        picture.render(stage, "street", tmp_path / "missing" / "a.png", SMALL)
    with pytest.raises(ViewError):
        picture.render(stage, "nowhere", tmp_path / "b.png", SMALL)
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]


def test_several_are_drawn_view_by_view(stage: Stage) -> None:
    told: list[tuple[object, int, int]] = []
    views = ("street", "corner peak R2-2 apart")
    files = dict(picture.pictures_of(stage, views, lambda *what: told.append(what), (160, 100)))
    assert [(str(what), number, total) for what, number, total in told] == [
        ("picture street", 1, 2),
        ("picture corner peak R2-2 apart", 2, 2),
    ]
    assert list(files) == ["street.png", "corner-peak-R2-2-apart.png"]
    assert all(data.startswith(b"\x89PNG") for data in files.values())


def test_any_size_makes_a_picture(stage: Stage) -> None:
    for size in ((301, 199), (390, 844)):
        assert picture.drawn(stage, stage.view("findings"), size).size == size


def test_edges_that_something_lies_over_are_not_drawn_from_afar(stage: Stage) -> None:
    view = stage.view("street")
    bodies = [body for body in stage.bodies if body.kind in view.shows]
    drawn = {body.kind: piece.edges for body, piece in zip(bodies, pieces_of(stage, view), strict=False)}
    assert not drawn["deck"] and not drawn["wall"] and drawn["pan"] and drawn["siding"]
    bare = stage.view("bare")
    bodies = [body for body in stage.bodies if body.kind in bare.shows]
    assert all(piece.edges for _, piece in zip(bodies, pieces_of(stage, bare), strict=False))
