"""How sure lengths and miters are, from how well the roof was measured."""
