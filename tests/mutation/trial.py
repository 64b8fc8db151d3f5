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
from pathlib import Path
from typing import Literal

from mutation.mutants import Mutant, some_mutants

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


def tests_for(mutant: Mutant) -> list[list[str]]:
    """Return the tests to ask, the nearest first: the file's own, the sums, its folder's, and all.

    Each is the words of one run of pytest. What lays out the same roof many times is asked of its own folder only.
    """
    near = ROOT / "tests/model" / Path(mutant.file)
    own = near.with_name(f"test_{near.name}")
    folder = near.parent if near.parent.name != "model" else own
    wanted = dict.fromkeys((own, SUMS, folder))
    return [
        *([str(path.relative_to(ROOT))] for path in wanted if path.exists()),
        ["tests/model", "tests/published", *(f"--ignore=tests/model/{name}" for name in SEARCHES)],
    ]


def tried(mutant: Mutant) -> Trial:
    """Run the tests on a copy of the model with the mutant in it, until one of them notices."""
    if mutant.name in EXPLAINED:
        return Trial(mutant, "explained")
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder, "trimwright")
        shutil.copytree(MODEL, home / "model")  # what is compiled with it, which spares most of a start
        home.joinpath("viewer").symlink_to(ROOT / "viewer", target_is_directory=True)
        home.joinpath("model", mutant.file).write_text(mutant.source(MODEL), encoding="utf-8")
        alive = all(_pass(test, folder) for test in tests_for(mutant))
    return Trial(mutant, "alive" if alive else "noticed")


def _pass(tests: list[str], folder: str) -> bool:
    """Return whether a part of the tests passes on the model in ``folder``."""
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


def main() -> None:
    """Print what became of each of many mutants, and the share that was noticed."""
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    ask.add_argument("--count", type=int, default=300)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    asked = ask.parse_args()
    outcomes = []
    for trial in trials(some_mutants(MODEL, asked.count, asked.seed), asked.jobs):
        outcomes.append(trial.outcome)
        print(
            f"{trial.outcome:<10}{trial.mutant.file}:{trial.mutant.line}  {trial.mutant.was}  ->  {trial.mutant.now}",
            flush=True,
        )
    print(
        f"{outcomes.count('noticed')} noticed, {outcomes.count('explained')} change nothing, "
        f"{outcomes.count('alive')} alive, of {len(outcomes)}"
    )


if __name__ == "__main__":
    main()
