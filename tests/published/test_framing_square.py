"""The first line of the framing square's rafter table (pub), by the rakes of a gable."""

import pytest

from trimwright.model.roof.build import build_roof
from trimwright.model.scene.roof import GableSpec

RUN_FT = 10.0
PRINTED = {
    2: 12.17,
    3: 12.37,
    4: 12.65,
    5: 13.00,
    6: 13.42,
    7: 13.89,
    8: 14.42,
    9: 15.00,
    10: 15.62,
    11: 16.28,
    12: 16.97,
    13: 17.69,
    14: 18.44,
    15: 19.21,
    16: 20.00,
    17: 20.81,
    18: 21.63,
}
"""Length of the common rafter in inches per foot of run, by rise in 12."""


@pytest.mark.parametrize(("rise", "printed"), PRINTED.items())
def test_common_rafter_per_foot_of_run(rise: int, printed: float) -> None:
    spec = GableSpec(
        form="gable",
        length=360,
        width=24 * RUN_FT,
        pitch=f"{rise}/12",
        overhang={"eave": 0, "rake": 0},
    )
    rakes = [edge for edge in build_roof(spec).edges if edge.kind == "rake"]
    assert len(rakes) == 4
    for rake in rakes:
        assert rake.length / RUN_FT == pytest.approx(printed, abs=0.005)
