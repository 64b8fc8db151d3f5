"""Checks: what is wrong with a layout, where, by how much, and what to do about it; the rules are in `rules`."""
