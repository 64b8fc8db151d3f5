"""The starting rules side by side: one row a rule for each group of runs, the short piece marked."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from zoo import layout

from trimwright.model.layout import Layout
from trimwright.viewer.display.colors import SHORT
from trimwright.viewer.render.compare import HEAD, ROW, compared, render_compare
from trimwright.viewer.render.errors import PictureError
from trimwright.viewer.report.starts import layouts_by_start


@pytest.fixture(scope="module")
def layouts() -> dict[str, Layout]:
    return layouts_by_start(layout("net-loft").scene)


def short_share(layouts: dict[str, Layout]) -> float:
    picture = np.asarray(compared(layouts), dtype=int)
    return float((np.abs(picture - np.array(SHORT)).sum(axis=2) < 12).mean())


def test_it_grows_by_a_row_for_each_rule_and_group(layouts: dict[str, Layout]) -> None:
    all_rules, one_rule = compared(layouts), compared({"low": layouts["low"]})
    groups = (all_rules.height - one_rule.height) / (ROW * (len(layouts) - 1))
    assert groups == 4, "eaves, left rakes, right rakes, ridge"
    assert all_rules.height > groups * HEAD


def test_only_rules_that_leave_a_short_piece_show_one(layouts: dict[str, Layout]) -> None:
    assert short_share({"even": layouts["even"]}) < short_share({"low": layouts["low"]}) / 4


def test_the_file_is_written_or_refused(layouts: dict[str, Layout], tmp_path: Path) -> None:
    render_compare(layouts, tmp_path / "starts.png")
    with Image.open(tmp_path / "starts.png") as image:
        assert image.width == 1600
    with pytest.raises(PictureError, match="cannot be written"):
        render_compare(layouts, tmp_path / "missing" / "starts.png")
