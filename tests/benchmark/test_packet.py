"""What the packet costs, as a ratio to laying the same roof out in the same run. Nothing here asserts a time.

Run with ``pytest -m benchmark -s``. Processor time is counted, so that other work on the machine matters little.
"""

import pytest

from tests.benchmark.house import HOUSE
from tests.benchmark.timing import cost
from trimwright.model.checks.run import check
from trimwright.model.pipeline import build
from trimwright.model.scene.read import scene_from
from trimwright.viewer.buy.timed_takeoff import timed_takeoff
from trimwright.viewer.drawings.packet.packet import bind, packet_pdf
from trimwright.viewer.drawings.paper.page import imprint_of

pytestmark = pytest.mark.benchmark

MOST = 60
"""How often the house could be laid out in the time that its packet takes, at most."""


def test_the_packet_of_a_house_of_forty_pieces() -> None:
    layout = build(scene_from(HOUSE))
    findings, takeoff, imprint = check(layout), timed_takeoff(layout), imprint_of(layout.scene)
    packet = bind(layout, findings, takeoff, imprint)
    laid = cost(lambda: build(scene_from(HOUSE)), 5)
    bound = cost(lambda: bind(layout, findings, takeoff, imprint), 3)
    written = cost(lambda: packet_pdf(packet, imprint.say), 3)
    print(
        f"\n{len(layout.parts)} pieces, {len(packet.pages)} pages: {(bound + written) / laid:.0f} times laying it out"
    )
    print(f"of processor time: laid out {laid:.2f} s, bound {bound:.1f} s, written {written:.1f} s")
    assert len(layout.parts) > 35
    assert bound + written < MOST * laid
