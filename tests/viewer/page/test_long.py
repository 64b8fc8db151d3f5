"""A page of four hundred pieces and five thousand screws: it opens, steps and answers like any other."""

import pytest
from playwright.sync_api import Browser

from tests.viewer.page.looking import Looking, long_store


@pytest.fixture(scope="module")
def looking(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> Looking:
    return long_store(chromium, tmp_path_factory.mktemp("long"))


def test_everything_is_on_it(looking: Looking) -> None:
    assert looking.roof("view.data.pieces.length") >= 380
    assert looking.roof("view.data.screws.piece.length") >= 5000
    assert looking.problems == []


def test_it_steps_forward_and_back(looking: Looking) -> None:
    looking.afresh()
    shown = []  # bodies
    for step in (119, 120, 119):
        looking.roof(f"setStep({step})")
        shown.append(looking.roof("view.world.bodies.filter((body) => body.visible).length"))
    assert shown[0] == shown[2] < shown[1]


def test_a_tap_finds_the_piece(looking: Looking) -> None:
    looking.afresh().roof("standAt('bare')")
    looking.tap("E1-2")
    assert looking.roof("view.arrangement.selected") == "E1-2"
