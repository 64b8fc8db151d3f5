"""Texts that nobody means well with: refused in a line, fast, and never a fault of the program's own."""

import re
from random import Random

import pytest
from zoo import SCENES

from trimwright.model.checks.run import check
from trimwright.model.errors import SceneError, TrimwrightError
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.model.size_guard import Amount

GOOD = 'title = "a"\n[roof]\nform = "gable"\nlength = 384\nwidth = 240\npitch = "6/12"\n'


def problems(text: str) -> list[str]:
    with pytest.raises(SceneError) as caught:
        scene_from(text, "boat-shed.toml")
    return list(map(str, caught.value.problems))


DEEP = ".".join(["a"] * 2000)
CROWDED = {
    "a list": "[metal]\nstock = [" + "1," * 490_000 + "1]\n",
    "screws": "[screws.placed]\nR1-1 = [" + "1," * 490_000 + "1]\n",
    "keys": "".join(f"a{n} = 1\n" for n in range(60_000)),
    "tables": "".join(f"[a{n}]\n" for n in range(60_000)),
}
NESTED = {
    "a table": f"[{DEEP}]\nb = 1\n",
    "a lap": f"[trim.eave.lap.{DEEP}]\nb = 1\n",
    "a look": f'[[look]]\nname = "x"\n[look.metal.{DEEP}]\nb = 1\n',
    "a limit": f"[rules.limits.{DEEP}]\nb = 1\n",
    "a key": ".".join(["a"] * 300_000) + " = 1\n",
    "a quoted key": ".".join(['"a b"'] * 3000) + " = 1\n",
    "lists": "[metal]\nstock = " + "[" * 2000 + "]" * 2000 + "\n",
    "lists within reason": "[metal]\nstock = " + "[" * 30 + "]" * 30 + "\n",
    "tables in a line": "x = " + "{a = " * 2000 + "1" + "}" * 2000 + "\n",
}


@pytest.mark.parametrize("name", CROWDED)
def test_a_file_with_more_values_than_a_scene_has_is_refused_before_it_is_parsed(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tomllib.loads", None)
    (line,) = problems(GOOD + CROWDED[name])
    assert line.endswith("values, and a scene has at most 20,000; is this another file?")


@pytest.mark.parametrize("name", NESTED)
def test_what_is_nested_deep_is_refused(name: str) -> None:
    assert problems(GOOD + NESTED[name]) == [
        "boat-shed.toml: tables nested too deep; a scene needs five levels"
    ]


def test_a_long_name_is_not_printed_whole() -> None:
    (line,) = problems(GOOD + "a" * 900_000 + " = 1\n")
    assert len(line) < 400


@pytest.mark.parametrize("form", ["\\u0000", "cro\\u202es gable", "a" * 5000], ids=["zero", "turned", "long"])
def test_a_form_that_there_is_not_is_told_in_a_line_that_can_be_printed(form: str) -> None:
    (line,) = problems(GOOD.replace("gable", form))
    assert line.isprintable() and len(line) < 200 and "is not one of" in line


NASTY = (
    *(
        "0",
        "-1",
        "1e308",
        "-0.0",
        "nan",
        "inf",
        "1e-300",
        "99999999999999999999",
        "true",
        "[]",
        "{}",
        '""',
        "''",
    ),
    *(
        '"0"',
        '"1/0"',
        '"6/0"',
        '"-6 in"',
        '"1e9 m"',
        '"90 deg"',
        '"0.25 deg"',
        '"85 deg"',
        "'''\n'''",
        '"\\u0000"',
    ),
    *(
        "[[]]",
        "[{}]",
        "1979-05-27",
        "0x7f",
        '"#12345"',
        "[1, 2, 3]",
        '["1 in", "2 in"]',
        '"front eave"',
        '"R1-1"',
    ),
)
"""Values that stand where others are wanted."""

SLICE, ALL = range(120), range(20_000)
BUILT = Amount(60, 900, 90)
"""What is small enough to be laid out again and again."""


def mutant(number: int) -> str:
    """Return the text of a scene of the zoo with one to four things done to it."""
    chance = Random(f"mutant {number}")
    text = chance.choice(SCENES).read_text(encoding="utf-8")
    for _ in range(chance.randint(1, 4)):
        lines = text.split("\n")
        at = chance.randrange(len(lines))
        match chance.randrange(7):
            case 0:
                del lines[at]
            case 1:
                lines.insert(at, chance.choice(lines))
            case 2 | 3 if "=" in lines[at]:
                lines[at] = f"{lines[at].split('=')[0]}= {chance.choice(NASTY)}"
            case 4:
                other = chance.randrange(len(lines))
                lines[at], lines[other] = lines[other], lines[at]
            case 5 if lines[at]:
                place = chance.randrange(len(lines[at]))
                letter = chance.choice("0123456789.-/'\"[]{}=,# aé\u202e\x7f\t")
                lines[at] = lines[at][:place] + letter + lines[at][place + chance.randint(0, 1) :]
            case _:
                lines[at] = re.sub(
                    r"\d+", lambda _: str(chance.choice([0, 1, 2, 7, 13, 40, 999])), lines[at], count=1
                )
        text = "\n".join(lines)
    return text


def said_of(text: str) -> list[str]:
    """Return what is said of a scene: its problems, or what is found in it where it is small enough to be laid out."""
    try:
        scene = scene_from(text, "mutant.toml")
        return [str(one.message) for one in check(build(scene, BUILT))]
    except TrimwrightError as error:
        return [str(problem) for problem in error.problems]


@pytest.mark.parametrize("number", SLICE)
def test_a_mutant_is_laid_out_or_refused_in_lines(number: int) -> None:
    assert all(line.isprintable() for line in said_of(mutant(number)))


@pytest.mark.sweep
def test_no_mutant_is_a_fault_of_the_programs_own() -> None:
    faults = {}
    for number in ALL:
        try:
            assert all(line.isprintable() for line in said_of(mutant(number)))
        except Exception as error:
            faults[number] = repr(error)
    assert faults == {}
