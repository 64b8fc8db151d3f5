from pathlib import Path

import pytest
from mutation.mutants import mutants_of, some_mutants
from mutation.trial import EXPLAINED, MODEL, Trial, still_alive, told, trials, tried

CODE = '''
def taller(a: int = 3, b: bool = True) -> bool:
    """Say 4 < 5."""
    if a + 1 > -2 and b:
        raise ValueError(f"{a + 2} is too much")
    assert list(zip([a], [b], strict=True))
    return min(a, 5) <= 4 or (1 if b else 2) == a
'''


def test_each_kind_of_mistake_is_made_once_and_none_in_words_or_annotations(tmp_path: Path) -> None:
    tmp_path.joinpath("code.py").write_text(CODE, encoding="utf-8")
    made = {(mutant.was, mutant.now) for mutant in mutants_of(tmp_path, "code.py")}
    assert {
        ("a + 1", "a - 1"),
        ("a + 1 > -2", "a + 1 >= -2"),
        ("-2", "+2"),
        ("a + 1 > -2 and b", "a + 1 > -2 or b"),
        ("a + 1 > -2 and b", "not (a + 1 > -2 and b)"),
        ("min(a, 5)", "max(a, 5)"),
        ("a: int=3, b: bool=True", "a: int=3, b: bool=False"),
        ("1 if b else 2", "2 if b else 1"),
        ("min(a, 5)", "min(a, 6)"),
    } <= made
    assert not any("a + 2" in was or "4 < 5" in was for was, _ in made)
    assert not any("strict=False" in now for _, now in made)


def test_two_mutants_that_read_alike_have_names_of_their_own(tmp_path: Path) -> None:
    tmp_path.joinpath("code.py").write_text(
        "class A:\n    def b(c, d):\n        return c + d, c + d\n", encoding="utf-8"
    )
    assert [mutant.name for mutant in mutants_of(tmp_path, "code.py")] == [
        "code.py A.b: c + d -> c - d",
        "code.py A.b: c + d -> c - d [2]",
    ]


def test_a_mutant_is_the_file_with_one_change(tmp_path: Path) -> None:
    tmp_path.joinpath("code.py").write_text("a = 1 + b\n", encoding="utf-8")
    sources = [mutant.source(tmp_path).strip() for mutant in mutants_of(tmp_path, "code.py")]
    assert sources == ["a = 1 - b", "a = 2 + b"]


def test_what_is_explained_can_still_be_made() -> None:
    files = {name.partition(" ")[0] for name in EXPLAINED}
    names = {mutant.name for file in files for mutant in mutants_of(MODEL, file)}
    assert set(EXPLAINED) <= names


def test_a_draw_from_one_file_stays_when_another_changes(tmp_path: Path) -> None:
    tmp_path.joinpath("one.py").write_text(CODE, encoding="utf-8")
    tmp_path.joinpath("two.py").write_text("a = 1 + b\n", encoding="utf-8")
    before = [mutant.name for mutant in some_mutants(tmp_path, 100, 1) if mutant.file == "one.py"]
    tmp_path.joinpath("two.py").write_text("a = [2 * b, 3 - c]\n", encoding="utf-8")
    after = some_mutants(tmp_path, 100, 1)
    assert [mutant.name for mutant in after if mutant.file == "one.py"] == before
    assert {mutant.file for mutant in after[: len(after) // 2]} == {"one.py", "two.py"}


def test_the_survivors_that_were_printed_are_found_again() -> None:
    drawn = some_mutants(MODEL, 30, 7)
    lines = [told(Trial(mutant, "alive" if at % 2 else "noticed")) for at, mutant in enumerate(drawn)]
    assert {mutant.name for mutant in still_alive(lines)} == {mutant.name for mutant in drawn[1::2]}


def test_a_gross_mistake_is_noticed() -> None:
    gross = next(mutant for mutant in mutants_of(MODEL, "spacing.py") if "ceil" in mutant.was)
    assert tried(gross).outcome == "noticed"


@pytest.mark.sweep
def test_nine_of_ten_mistakes_are_noticed() -> None:
    outcomes = [trial.outcome for trial in trials(some_mutants(MODEL, 300, 1), 2)]
    counted = [outcome for outcome in outcomes if outcome != "explained"]
    assert counted.count("noticed") >= 0.9 * len(counted)
