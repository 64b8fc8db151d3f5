"""Reading a scene file: every problem at once, one clear line each."""

# ruff: noqa: E501

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimwright.model.errors import SceneError
from trimwright.model.scene.read import LARGEST, read_scene, scene_from, scene_of

ROOF = '[roof]\nform = "gable"\nlength = 384\nwidth = 240\npitch = "6/12"\n'
GOOD = 'title = "a"\n' + ROOF


def problems(text: str) -> list[str]:
    with pytest.raises(SceneError) as caught:
        scene_from(text, "boat-shed.toml")
    return list(map(str, caught.value.problems))


def test_reads_a_file(tmp_path: Path) -> None:
    path = tmp_path / "boat-shed.toml"
    path.write_text(GOOD, encoding="utf-8")
    assert read_scene(path) == read_scene(str(path)) == scene_from(GOOD)


def test_reads_a_file_that_begins_with_a_byte_order_mark_and_has_windows_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "boat-shed.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read_scene(path) == scene_from(GOOD)


def test_a_file_may_be_as_long_as_is_said(tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    path.write_bytes(GOOD.encode().ljust(LARGEST, b"#"))
    assert read_scene(path) == scene_from(GOOD)


def test_a_file_that_cannot_be_read_says_why(tmp_path: Path) -> None:
    binary = tmp_path / "binary.toml"
    binary.write_bytes(b"title = 'a'\n\xff\xfe\n")
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * (LARGEST + 1))
    cases = {
        tmp_path: "this is a folder",
        tmp_path / "none.toml": "there is no such file",
        binary: "line 2: not UTF-8 text",
        large: "more than 1,000,000 bytes",
        binary / "under.toml": "cannot be read",
        Path("a\0b"): "cannot be read",
        tmp_path / ("a" * 300): "cannot be read",
    }
    for path, said in cases.items():
        with pytest.raises(SceneError) as caught:
            read_scene(path)
        (line,) = map(str, caught.value.problems)
        assert said in line
        assert "\n" not in line


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("title = \n", "line 1, column 9: not TOML: invalid value"),
        (GOOD + "[roof]\n", "line 7, column 6: not TOML: cannot declare [roof] twice"),
        ('title = """a', "end of file: not TOML: unterminated string"),
        ("a = " + "[" * 5000 + "]" * 5000, "tables nested too deep; a scene needs five levels"),
        ("a = " + "9" * 5000, "not TOML: a number of thousands of digits; give a measurement"),
    ],
    ids=["no value", "table twice", "unterminated", "too deep", "too many digits"],
)
def test_text_that_is_no_toml_is_refused_with_its_place(text: str, line: str) -> None:
    assert problems(text) == [f"boat-shed.toml: {line}"]


NOT_A_LENGTH = "is not a length; write 12' 6 3/8\", 6 3/8 in, 3810 mm, 3.2 m, 2 ft or a bare number (inches)"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            GOOD + "[trim.rake]\nlap = -4\n",
            "trim.rake.lap: -4 is not a length; give more than 0, such as 4 in",
        ),
        (GOOD + '[trim.rake]\nlap = "4 furlongs"\n', f"trim.rake.lap: 4 furlongs {NOT_A_LENGTH}"),
        (GOOD + "[trim.rake]\nlap = nan\n", f"trim.rake.lap: nan {NOT_A_LENGTH}"),
        (GOOD + "[trim.rake]\nlap = true\n", f"trim.rake.lap: true {NOT_A_LENGTH}"),
        (GOOD + "[trim.rake]\nlap = 1/2\n", None),
        (
            GOOD + '[trim.rake]\ntab = "30 in"\n',
            'trim.rake.tab: 30 in is too long; give at most 2", such as 3/8 in',
        ),
        (
            GOOD + "[trim.rake]\ntab = -1\n",
            "trim.rake.tab: -1 is not a length; give 0 or more, such as 3/8 in",
        ),
        (
            GOOD + "[metal]\nthickness = 0.001\n",
            'metal.thickness: 0.001 is too short; give at least 0.005", such as 0.0239 in',
        ),
        (GOOD + "[metal]\nstock = 126\n", "metal.stock: 126 is not a list; write [ ... ]"),
        (GOOD + "[metal]\nstock = []\n", "metal.stock: too few; give at least 1, or leave the key out"),
        (
            GOOD + '[metal]\nkind = "tin"\n',
            'metal.kind: "tin" is not one of "steel", "galvanized", "aluminum", "copper", "zinc" or "stainless"',
        ),
        (
            GOOD + '[metal]\nthickness = "24 ga"\nkind = "copper"\n',
            'metal.thickness: "24 ga" is no label of half-hard copper; give a thickness, or one of: 16 oz, 20 oz, 24 oz',
        ),
        (
            GOOD + '[metal]\ncolor = "old barn"\n',
            'metal.color: "old barn" is not a color; give a name such as "slate gray", or # and six digits '
            "0-9 or a-f",
        ),
        (
            GOOD + '[metal]\ncolor = "navvy"\n',
            'metal.color: "navvy" is not a color; did you mean "navy"?',
        ),
        (GOOD + "[metal]\ndesign_heat = -3\n", "metal.design_heat: -3 is too small; give 0 or more"),
        (GOOD + '[trim.rake]\npieces = ["10\'", {lenght = 3}]\n', None),
        (
            GOOD + "[trim]\nrake = true\n",
            "trim.rake: true says nothing; give a table, or false to leave the edge bare, or leave the key out",
        ),
        (GOOD + "[trim]\nrake = 3\n", "trim.rake: 3 is not a table; write its keys under [trim.rake]"),
        (
            GOOD + '[run]\n"front eave" = 3\n',
            'run."front eave": 3 is not a table; write its keys under [run."front eave"]',
        ),
        (
            GOOD + '[[look]]\nname = "Green"\npanels = "#224422"\n',
            'look no. 1.panels: "#224422" is not a table; in a look write colors = { panels = ... }',
        ),
        (
            GOOD + '[[look]]\nname = "Thin"\nthickness = "26 ga"\n',
            "look no. 1.thickness: no such key here; in a look write metal = { thickness = ... }",
        ),
        (
            GOOD + '[[look]]\nname = "Copper"\nmetal = "copper"\n',
            'look no. 1.metal: "copper" is not a table; write metal = { ... }',
        ),
        (GOOD + "[screws]\nends = [6]\n", "screws.ends no. 2: missing; this table needs it"),
        (
            GOOD + "[screws]\nends = [8, 6]\n",
            'screws.ends: 8" to 6" runs backward; give the smaller one first',
        ),
        (
            GOOD + "[screws]\nfirst = 9\nends = [6, 8]\n",
            'screws.first: 9" is beyond ends, 8"; give at most that',
        ),
        (
            GOOD + "[screws]\npilot = 0.4\n",
            'screws.pilot: 0.400" is no smaller than the head, 0.312"; give a smaller hole',
        ),
        (
            GOOD + "[screws.placed]\nR1-1 = [6, 6]\n",
            "screws.placed.R1-1: two screws are in one place; give each its own distance",
        ),
        (
            GOOD + "[panels]\noffset = 16\n",
            "panels.offset: 1' 4\" is no less than a panel's cover, 1' 4\"; give less",
        ),
        (
            GOOD + '[rules]\nset = "hi wind"\n',
            'rules.set: "hi wind" is not one of "common practice", "high wind" or "code minimum"',
        ),
        (
            GOOD + "[rules.accept]\nrule = 'x'\n",
            "rules.accept: one table stands where a list is wanted; write [[rules.accept]]",
        ),
        (
            GOOD + "[rules.limits]\na = [8, 6]\n",
            "rules.limits.a: [8, 6] is no limit; give 0 or more, and the smaller end of a band first",
        ),
        (
            GOOD + "[rules.limits]\na = [-1, 6]\n",
            "rules.limits.a: [-1, 6] is no limit; give 0 or more, and the smaller end of a band first",
        ),
        (
            GOOD.replace('"6/12"', "6"),
            "roof.pitch: 6 alone could be inches in 12, degrees or percent; write 6/12, 26.57 deg or 50 %",
        ),
        (
            GOOD.replace("6/12", "89 deg"),
            "roof.pitch: 89 deg is too steep; give 0.25 deg to 85 deg, such as 6/12",
        ),
        (GOOD.replace("6/12", "0/12"), "roof.pitch: 0/12 is too flat; give 0.25 deg to 85 deg, such as 6/12"),
        (GOOD.replace("384", "3"), "roof.length: 3 is too short; give at least 1' 0\", such as 32'"),
        (GOOD.replace("384", "12001"), "roof.length: 12001 is too long; give at most 1000' 0\", such as 32'"),
        (
            GOOD.replace("gable", "gabel"),
            'roof: form "gabel" is not one of "gable", "hip", "shed", "cross gable", "outline", "faces"',
        ),
        (
            GOOD.replace('form = "gable"\n', ""),
            'roof: form is missing; give form = "gable", "hip", "shed", "cross gable", "outline" or "faces"',
        ),
        ('title = "a"\nroof = "gable"\n', 'roof: "gable" is not a table; write its keys under [roof]'),
        (ROOF, "title: missing; a scene needs it"),
        ('title = "  "\n' + ROOF, "title: empty; give some text"),
        (
            'title = "a\\nb"\n' + ROOF,
            "title: 'a\\nb' has line breaks or control characters; give plain text on one line",
        ),
        ("title = 1979-05-27\n" + ROOF, "title: 1979-05-27 is not text; give text in quotation marks"),
        ("north = nan\n" + GOOD, "north: nan is not a number; give a finite one"),
        ("denominator = 3\n" + GOOD, "denominator: 3 is not one of 2, 4, 8, 16, 32 or 64"),
        ('unit = "furlong"\n' + GOOD, 'unit: "furlong" is not one of "in", "ft", "mm", "cm" or "m"'),
    ],
)
def test_each_problem_names_its_place_what_came_and_the_way_out(text: str, line: str | None) -> None:
    said = problems(text)
    if line is not None:
        assert said == [f"boat-shed.toml: {line}"]
    assert all(one.startswith("boat-shed.toml: ") and "\n" not in one for one in said)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        (GOOD.replace("pitch", "pich"), "roof.pich: no such key; did you mean pitch?"),
        (GOOD + "[trim.rake]\nlapp = 4\n", "trim.rake.lapp: no such key; did you mean lap?"),
        (GOOD + '[run."front eave"]\nlapp = 4\n', 'run."front eave".lapp: no such key; did you mean lap?'),
        (GOOD + "[trim]\nrakes = {}\n", "trim.rakes: no such key; did you mean rake?"),
        (
            GOOD + "[trim.rake]\npieces = [{length = 30, hnd = 'left'}]\n",
            "trim.rake.pieces no. 1.hnd: no such key; did you mean hand?",
        ),
        (GOOD + "[roof.overhang]\neve = 3\n", "roof.overhang.eve: no such key; did you mean eave?"),
        ("titel = 'b'\n" + GOOD, "titel: no such key; did you mean title?"),
        (GOOD + "unit = 'mm'\n", "roof.unit: no such key here; it belongs at the top, above the first table"),
        ("pitch = '6/12'\n" + GOOD, "pitch: no such key here; it belongs under [roof]"),
        (GOOD + "[trim]\nlap = 4\n", "trim.lap: no such key here; it belongs under [trim.eave]"),
        (GOOD + "end_pitch = '6/12'\n", 'roof.end_pitch: no such key here; it belongs to form = "hip"'),
        (
            GOOD + "[screws]\nzzz = 4\n",
            "screws.zzz: no such key; there are ends, first, head, kind, pilot, placed, spacing",
        ),
    ],
)
def test_a_key_that_is_not_known_gets_the_nearest_one_or_its_place(text: str, hint: str) -> None:
    assert f"boat-shed.toml: {hint}" in problems(text)


def test_all_problems_come_at_once() -> None:
    said = problems(
        'titel = "a"\ndenominator = 3\n[roof]\nform = "gable"\nlength = -4\nwidth = "x"\npitch = 6\n'
        '[metal]\nkind = "tin"\ncolor = "reed"\n[trim.rake]\nlap = -4\npieces = ["10\'", "x", -3]\n'
    )
    places = [line.split(": ")[1] for line in said]
    assert places == [
        "title",
        "denominator",
        "roof.length",
        "roof.width",
        "roof.pitch",
        "metal.kind",
        "metal.color",
        "trim.rake.lap",
        "trim.rake.pieces no. 2",
        "trim.rake.pieces no. 3",
        "titel",
    ]


@pytest.mark.parametrize(
    ("tables", "said"),
    [
        (
            "[metal]\nstock = [6]\n[trim.rake]\nlap = 7\n",
            'trim.rake.lap: 7" is no shorter than the shortest stock, 6"; give less',
        ),
        (
            "[trim.rake]\nlap = 6\npieces = [5]\n",
            'trim.rake.pieces no. 1: 5" is no longer than the lap, 6"; give a longer piece',
        ),
        (
            '[run."front eave"]\nlap = 6\npieces = [60, 5]\n',
            'run."front eave".pieces no. 2: 5" is no longer than the lap, 6"; give a longer piece',
        ),
    ],
)
def test_what_cannot_both_hold_is_refused(tables: str, said: str) -> None:
    assert f"boat-shed.toml: {said}" in problems(GOOD + tables)


def test_a_file_of_nothing_but_mistakes_is_refused_at_once() -> None:
    lines = problems(GOOD + "[panels]\n" + "".join(f"sea{n} = {n}\n" for n in range(9_000)))
    assert len(lines) == 101
    assert lines[-1] == "boat-shed.toml: and 8,900 problems more"


@pytest.mark.parametrize("key", ["denominator", "north", "unit"])
def test_a_number_too_long_to_print_is_refused(key: str) -> None:
    (line,) = problems(f"{key} = 0x" + "f" * 5000 + "\n" + GOOD)
    assert line.startswith(f"boat-shed.toml: {key}: 3.98e6020")
    assert len(line) < 200


WORDS = st.sampled_from(
    [
        "title",
        "unit",
        "roof",
        "form",
        "length",
        "width",
        "pitch",
        "overhang",
        "eave",
        "rake",
        "metal",
        "kind",
        "stock",
        "trim",
        "lap",
        "pieces",
        "hand",
        "run",
        "screws",
        "ends",
        "placed",
        "panels",
        "rules",
        "limits",
        "accept",
        "off",
        "profile",
        "legs",
        "edges",
        "anchor",
        "gable",
        "hip",
        "shed",
        "value",
        "reason",
        "set",
    ]
)
LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=8),
    WORDS,
    st.just("10'"),
    st.just("6/12"),
)
TABLES = st.recursive(
    LEAVES,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(WORDS | st.text(max_size=4), inner, max_size=4)
    ),
)


@given(st.dictionaries(WORDS | st.text(max_size=4), TABLES, max_size=6))
def test_any_tables_are_a_scene_or_a_list_of_lines(raw: dict[str, object]) -> None:
    try:
        scene_of(raw)
    except SceneError as error:
        assert error.problems
        assert all(
            line.startswith("scene: ") and "\n" not in line and len(line) < 600
            for line in map(str, error.problems)
        )


@given(TABLES, WORDS)
def test_a_good_scene_with_one_thing_put_in_is_a_scene_or_a_list_of_lines(value: object, key: str) -> None:
    roof = {"form": "gable", "length": 384, "width": 240, "pitch": "6/12"}
    for raw in ({"title": "a", "roof": {**roof, key: value}}, {"title": "a", "roof": roof, key: value}):
        try:
            scene_of(raw)
        except SceneError as error:
            assert all("\n" not in line for line in map(str, error.problems))


@given(st.text())
def test_any_text_is_a_scene_or_a_list_of_lines(text: str) -> None:
    with pytest.raises(SceneError):
        scene_from(text)


def test_a_list_is_not_called_short_for_its_refused_items() -> None:
    assert len(problems(GOOD + '[metal]\nstock = ["3 in"]\n')) == 1
    (empty,) = problems(GOOD + "[metal]\nstock = []\n")
    assert "too few" in empty
