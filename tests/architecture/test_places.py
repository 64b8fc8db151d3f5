"""Places along a piece are told from the end that is worked on: the tape is short, and hooks on where one stands."""

from pathlib import Path

import pytest

JOINTS = Path(__file__).parents[2] / "model" / "joints"


@pytest.mark.parametrize("file", sorted(JOINTS.glob("*.py")), ids=lambda file: file.stem)
def test_no_joint_measures_from_the_low_end(file: Path) -> None:
    """``fitting`` turns every ``Place`` of a step into inches from its own end of the blank."""
    code = "".join(file.read_text(encoding="utf-8").replace('"\n', "").split())
    assert "fromthelowend" not in code.replace('"', ""), "say: from the blank's end"
