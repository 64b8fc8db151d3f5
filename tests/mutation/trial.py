"""A trial: the tests, run on the model with a mistake in it. From the command line, many of them.

``python -m pytest -m sweep tests/mutation`` asserts the score; ``PYTHONPATH=tests python tests/mutation/trial.py``
prints each mutant as it goes.
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

from mutation.mutants import Mutant, all_mutants, some_mutants

ROOT = Path(__file__, "..", "..", "..").resolve()
MODEL = ROOT / "model"
LONGEST = 300
"""Seconds after which the tests of a mutant are taken to hang, which counts as noticed."""

SUMS = ROOT / "tests/model/test_kept_sums.py"
"""What looks at every number of many layouts: most mutants show in it, within seconds."""

SEARCHES = ("improve", "mend", "sureness", "survey")
"""Folders whose tests lay out the same roof many times, at ten times the cost of a mutant."""

EXPLAINED: dict[str, str] = tomllib.loads(
    Path(__file__).with_name("explained.toml").read_text(encoding="utf-8")
)
"""Mutants that change nothing that anybody could see, by name, and why."""

Outcome = Literal["noticed", "explained", "alive"]


@dataclass(frozen=True, slots=True)
class Trial:
    """What became of one mutant."""

    mutant: Mutant
    outcome: Outcome


def tests_for(mutant: Mutant) -> list[str]:
    """Return the tests to ask: the file's own, the sums, its folder's, and all that build the zoo.

    What lays out the same roof many times is asked of its own folder only.
    """
    near = ROOT / "tests/model" / Path(mutant.file)
    own = near.with_name(f"test_{near.name}")
    folder = ROOT / "tests/model" / Path(mutant.file).parts[0]
    wanted = dict.fromkeys((own, SUMS, folder, *_of_the_zoo()))
    return [str(path.relative_to(ROOT)) for path in wanted if path.exists()]


@cache
def _of_the_zoo() -> tuple[Path, ...]:
    """Return the tests of the model that build scenes of the zoo."""
    found = sorted((ROOT / "tests/model").rglob("test_*.py"))
    return tuple(
        path
        for path in found
        if path.parent.name not in SEARCHES and "from zoo import" in path.read_text(encoding="utf-8")
    )


def tried(mutant: Mutant) -> Trial:
    """Run the tests on a copy of the model with the mutant in it, until one of them notices."""
    if mutant.name in EXPLAINED:
        return Trial(mutant, "explained")
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder, "trimwright")
        shutil.copytree(MODEL, home / "model")  # what is compiled with it, which spares most of a start
        home.joinpath("viewer").symlink_to(ROOT / "viewer", target_is_directory=True)
        home.joinpath("model", mutant.file).write_text(mutant.source(MODEL), encoding="utf-8")
        alive = _pass(tests_for(mutant), folder)
    return Trial(mutant, "alive" if alive else "noticed")


def _pass(tests: list[str], folder: str) -> bool:
    """Return whether tests pass on the model in ``folder``; the first that fails ends them."""
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", *tests]
    try:
        done = subprocess.run(
            command,
            cwd=ROOT,
            capture_output=True,
            timeout=LONGEST,
            check=False,
            env=os.environ | {"PYTHONPATH": folder, "PYTHONSAFEPATH": "1"},
        )
    except subprocess.TimeoutExpired:
        return False
    return done.returncode == 0


def trials(mutants: Iterable[Mutant], jobs: int) -> Iterator[Trial]:
    """Yield what became of each mutant, several at a time."""
    with ThreadPoolExecutor(jobs) as pool:
        yield from pool.map(tried, mutants)


def told(trial: Trial) -> str:
    """Return the line that says what became of a mutant."""
    return f"{trial.outcome:<10}{trial.mutant.name}  line {trial.mutant.line}"


def still_alive(lines: Iterable[str]) -> list[Mutant]:
    """Return the mutants that an earlier trial's lines tell as alive, wherever their code stands now."""
    names = {line[10:].rpartition("  line ")[0] for line in lines if line.startswith("alive")}
    return [mutant for mutant in all_mutants(MODEL) if mutant.name in names]


def main() -> None:
    """Print what became of each of many mutants, and the share that was noticed."""
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    ask.add_argument("--count", type=int, default=300)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    ask.add_argument("--again", type=Path, help="what an earlier trial printed: only its survivors are tried")
    asked = ask.parse_args()
    if asked.again:
        mutants = still_alive(asked.again.read_text(encoding="utf-8").splitlines())
    else:
        mutants = some_mutants(MODEL, asked.count, asked.seed)
    outcomes = []
    for trial in trials(mutants, asked.jobs):
        outcomes.append(trial.outcome)
        print(told(trial), flush=True)
    print(
        f"{outcomes.count('noticed')} noticed, {outcomes.count('explained')} change nothing, "
        f"{outcomes.count('alive')} alive, of {len(outcomes)}"
    )


if __name__ == "__main__":
    main()
