"""The pages of the rules say what the rules say, and are up to date."""

from pathlib import Path

import pytest

from trimwright.model.checks.run import RULES
from trimwright.viewer.docs.rule_pages import PARTS, main, rule_pages, words_of

DOCS = Path(__file__).parents[3] / "docs" / "rules"


def test_pages_on_disk_are_those_the_rules_make():
    kept = {path.name: path.read_text(encoding="utf-8") for path in DOCS.glob("*.md")}
    assert kept == rule_pages(), "run python -m trimwright.viewer.docs.rule_pages"


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.RULE)
def test_a_rule_says_all_its_parts(rule):
    words = words_of(rule)
    assert set(words) == {"says", *PARTS}
    assert "\n" not in words["says"] and words["says"].endswith(".")


def test_pages_of_rules_that_are_gone_are_removed(tmp_path):
    (tmp_path / "gone-rule.md").write_text("old")
    main([str(tmp_path)])
    assert {path.name for path in tmp_path.iterdir()} == set(rule_pages())
