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
        from trimwright.viewer.render.compile_ahead import warm

        warm()


@pytest.fixture
def kept(request: pytest.FixtureRequest) -> Callable[[str, str], str]:
    """Return what gives the text of a file of ``tests/golden``, and first writes it anew when asked to reset."""

    def text_of(name: str, now: str) -> str:
        path = GOLDEN / name
        if request.config.getoption("--reset-golden"):
            path.write_text(now, encoding="utf-8")
        assert path.exists(), f"{name} is missing: run with --reset-golden, and look at it"
        return path.read_text(encoding="utf-8")

    return text_of


@pytest.fixture
def golden(kept: Callable[[str, str], str]) -> Callable[[str, str], None]:
    """Return what compares a text with a file of ``tests/golden``, or writes it when asked to reset."""

    def compare(name: str, text: str) -> None:
        assert text == kept(name, text), f"{name} differs: if it is meant, --reset-golden"

    return compare
