"""Improve: the better layout of a roof, searched for among the ways in which its runs may be started."""
