"""Settings for the whole suite: the same examples every time, and no deadline on a shared machine."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile(
    "steady", derandomize=True, deadline=None, max_examples=50, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("steady")

GOLDEN = Path(__file__).parent / "golden"
"""What the program itself drew when somebody last looked at it: a guard against change, no proof."""


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--reset-golden", action="store_true", help="Write what is drawn now as what shall be drawn."
    )


def pytest_configure(config: pytest.Config) -> None:
    """Compile what draws pictures once, before several processes would each do it."""
    if getattr(config.option, "numprocesses", None) and not hasattr(config, "workerinput"):
        from trimwright.viewer.render.warm import warm

        warm()


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Return what compares a text with a file of ``tests/golden``, or writes it when asked to reset."""

    def compare(name: str, text: str) -> None:
        path = GOLDEN / name
        if request.config.getoption("--reset-golden"):
            path.write_text(text, encoding="utf-8")
        assert path.exists(), f"{path.name} is missing: run with --reset-golden, and look at it"
        assert text == path.read_text(encoding="utf-8"), (
            f"{path.name} differs: if it is meant, --reset-golden"
        )

    return compare
