"""What single modules of the page return, called in a browser on their own."""

import re
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
import shapely
import trimesh
from accented import Accented, accented
from playwright.sync_api import Browser, Page

from tests.viewer.page.scripts import APP, called, importing
from tests.zoo import layout
from trimwright.model.units import Tape
from trimwright.viewer.page.browser_words import browser_words, sentences_in
from trimwright.viewer.page.page import SCRIPTS

SEED = 20261126
WORDS = "trimwright/common/words.js"


@pytest.fixture(scope="module")
def page(chromium: Browser) -> Iterator[Page]:
    one = importing(chromium)
    yield one
    one.close()


def lengths() -> list[float]:
    """Lengths of every fraction, near feet and near halves of the finest fraction, and some at random."""
    some = np.random.default_rng(SEED)
    fractions = [n / 64 for n in range(0, 64 * 26, 7)]
    near = (-0.04, -1 / 64, 0.0, 1 / 64, 0.04)
    feet = [foot * 12 + off for foot in range(1, 12) for off in near]
    return [*fractions, *feet, *some.uniform(0, 600, 300).round(4).tolist()]


@pytest.mark.parametrize("tape", [Tape("feet", n) for n in (2, 4, 8, 16, 32, 64)] + [Tape("mm")], ids=str)
def test_the_browser_writes_lengths_as_the_tape_does(page: Page, tape: Tape) -> None:
    all_of = lengths()
    said = page.evaluate(
        "async ([style, lengths]) => {"
        ' const { lengthWriter } = await import("trimwright/common/lengths.js");'
        " return lengths.map(lengthWriter(style)); }",
        [{"style": tape.style, "denominator": tape.denominator}, all_of],
    )
    assert len(all_of) > 500
    assert said == [tape(length) for length in all_of]


def test_words_are_english_where_no_others_are_given(page: Page) -> None:
    pieces = ("{count} piece", "{count} pieces")
    assert called(page, WORDS, "say", "About {mark}", {"mark": "R1-1"}) == "About R1-1"
    assert called(page, WORDS, "counted", *pieces, {"count": 1234}) == "1,234 pieces"
    assert called(page, WORDS, "counted", *pieces, {"count": 1}) == "1 piece"
    assert called(page, WORDS, "say", "a {{b}}") == "a {b}"


def test_a_sentence_without_its_value_is_a_mistake(page: Page) -> None:
    with pytest.raises(Exception, match="has no value for mark"):
        called(page, WORDS, "say", "About {mark}")


class ThreeForms:
    """A language with a form for one, for a few, and for many, by the last two digits as Czech and Polish have it."""

    code = "xx"

    def sentence(self, text: str) -> str:
        return text

    def counted(self, one: str, other: str, count: int) -> str:
        if count == 1:
            return f"A {one}"
        few = count % 10 in (2, 3, 4) and count % 100 not in (12, 13, 14)
        return f"B {other}" if few else f"C {other}"


@pytest.mark.parametrize("count", [0, 1, 2, 4, 5, 11, 12, 21, 22, 101, 112, 122, 222, 1002, 1012])
def test_counts_have_the_form_that_the_language_gives_them(page: Page, count: int) -> None:
    language = ThreeForms()
    words = browser_words(language, SCRIPTS)
    one, other = "{count} piece", "{count} pieces"
    said = called(page, WORDS, "counted", one, other, {"count": count}, words=words)
    assert said == language.counted(one, other, count).format(count=f"{count:,}")


def test_every_sentence_of_the_scripts_is_handed_out() -> None:
    words = browser_words(Accented(), SCRIPTS, APP)
    assert words["sentences"]["Next step"] == accented("Next step")
    assert words["counted"]["{count} piece"]["forms"] == [
        accented("{count} pieces"),
        accented("{count} piece"),
    ]
    assert len(words["sentences"]) > 150


def test_every_call_to_say_has_its_sentence_as_it_stands() -> None:
    text = "".join(file.read_text() for folder in (SCRIPTS, APP) for file in sorted(folder.rglob("*.js")))
    calls = re.findall(r"(?<![\w.])(?:say|counted)\((?!sentence|one,)", text)
    literal = re.findall(r'(?<![\w.])(?:say|counted)\("', text)
    assert len(calls) == len(literal) > 200
    said = {one if isinstance(one, str) else one[0] for one in sentences_in((SCRIPTS, APP))}
    assert len(said) <= len(literal)


@pytest.mark.parametrize(
    ("from_", "height", "north", "said"),
    [
        (0, 30, None, "from the back, 30° high"),
        (215, 42, None, "from the front left, 42° high"),
        (345, 8, None, "from the back, 8° high"),
        (180, 60, 180, "from the front, 60° high, from the north"),
        (0, 60, 90, "from the back, 60° high, from the west"),
    ],
)
def test_the_sun_is_said_by_the_side_of_the_house_and_the_compass(
    page: Page, from_: int, height: int, north: float | None, said: str
) -> None:
    assert called(page, "trimwright/read/sun.js", "sunWords", from_, height, north) == said


def finding(severity: str, number: int, accepted: str | None = None) -> dict[str, Any]:
    return {"severity": severity, "number": number, "accepted": accepted}


def test_findings_are_grouped_the_worst_first_and_the_accepted_last(page: Page) -> None:
    some = [finding("note", 1), finding("error", 2), finding("warning", 3, "seen"), finding("error", 4)]
    blocks = called(page, "trimwright/read/findings.js", "grouped", some)
    told = [(block["heading"], [one["number"] for one in block["findings"]]) for block in blocks]
    assert told == [("2 errors", [2, 4]), ("1 note", [1]), ("1 accepted, with a reason", [3])]


def test_alike_findings_are_one_row_and_what_follows_stands_under_its_cause(page: Page) -> None:
    some = [
        {**finding("error", 1), "group": 1, "cause": None},
        {**finding("warning", 2), "group": 2, "cause": 1},
        {**finding("warning", 3), "group": 3, "cause": None},
        {**finding("warning", 4), "group": 3, "cause": None},
    ]
    blocks = called(page, "trimwright/read/findings.js", "grouped", some)
    told = [(block["heading"], [one["number"] for one in block["findings"]]) for block in blocks]
    assert told == [("1 error", [1, 2]), ("3 warnings", [3, 4])]
    rows = called(page, "trimwright/read/findings.js", "alike", some)
    assert [[one["number"] for one in row] for row in rows] == [[1], [2], [3, 4]]


@pytest.mark.parametrize(
    ("count", "said"),
    [(0, ""), (2, "m1, m2"), (6, "m1, m2, m3, m4, m5, m6"), (7, "m1, m2, m3, m4 and 3 more")],
)
def test_of_many_marks_a_few_are_said(page: Page, count: int, said: str) -> None:
    assert called(page, "trimwright/read/findings.js", "few", [f"m{n}" for n in range(1, count + 1)]) == said


def test_screws_are_in_rows_each_in_the_order_of_the_tape(page: Page) -> None:
    piece = {"screws": [[20, 5], [2, 1], [10, 1], [4, 5]]}
    assert called(page, "trimwright/read/tape_marks.js", "rowsOf", piece) == [
        {"across": 1, "marks": [2, 10]},
        {"across": 5, "marks": [4, 20]},
    ]


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("Müller.toml", "Müller"),
        ("14 Birch Ln..toml", "14 Birch Ln."),
        ("../../etc.TOML", "etc"),
        ("!!.toml", "scene"),
    ],
)
def test_a_file_from_elsewhere_keeps_its_name_as_far_as_it_can(page: Page, file: str, name: str) -> None:
    assert called(page, "trimwright-app/file_sheet.js", "sceneName", file) == name


def test_a_cut_is_what_another_library_cuts(page: Page) -> None:
    """The outline of a piece cut square across is as long, and encloses as much, as trimesh's section of its solid."""
    part = next(part for part in layout("boat-shed").parts if part.mark == "E1-2")
    vertices, faces = part.solid.vertices, part.solid.faces
    along = part.run.frame[:3, 0]
    middle = vertices.mean(axis=0)
    mesh = trimesh.Trimesh(vertices, faces, process=True)
    up, out = np.array([0.0, 0.0, 1.0]), np.cross([0.0, 0.0, 1.0], along)
    ends = trimesh.intersections.mesh_plane(mesh, along, middle) @ np.stack([out, up], axis=1)
    sides = [shapely.LineString(one) for one in ends if not np.allclose(*one)]
    inside = shapely.polygonize([shapely.node(shapely.MultiLineString(sides))])
    given = {
        "points": vertices.tolist(),
        "faces": faces.tolist(),
        "point": middle.tolist(),
        "normal": along.tolist(),
        "up": up.tolist(),
        "out": out.tolist(),
    }
    loops = page.evaluate(
        """async ({ points, faces, point, normal, up, out }) => {
          const { THREE } = await import("nicegui-scene");
          const { outlines, slices } = await import("trimwright/seen/slice.js");
          const v = (one) => new THREE.Vector3(...one), scale = 0.0254;
          const shape = new THREE.BufferGeometry();
          shape.setAttribute("position", new THREE.Float32BufferAttribute(points.flat().map((one) => one * scale), 3));
          shape.setAttribute("_side", new THREE.Float32BufferAttribute(points.map(() => 1), 1));
          shape.setIndex(faces.flat());
          shape.computeBoundingSphere();
          const mesh = new THREE.Mesh(shape);
          mesh.userData = { kind: "trim", name: "E1-2", step: 1 };
          const frame = { normal: v(normal), up: v(up), out: v(out) };
          const found = slices({ world: { bodies: [mesh] } }, v(point).multiplyScalar(scale), frame);
          return outlines(found[0]).map((loop) => loop.map(({ x, y }) => [x, y]));
        }""",
        given,
    )
    cut = shapely.union_all([shapely.Polygon(loop) for loop in loops])
    assert cut.area == pytest.approx(inside.area, rel=1e-3)
    assert sum(shapely.LinearRing(loop).length for loop in loops) == pytest.approx(
        shapely.length(sides).sum(), rel=1e-3
    )
