"""What is read in a browser, and what of it stands as it is in every language."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from trimwright.model.limits.load import rule_sets

READABLE = Path(__file__).with_name("readable.js")


def keys_of(data: Mapping[str, Any]) -> set[str]:
    """The words of what is no language's: names of runs, edges, faces, rules and rule sets, what a person typed."""
    names = [data["title"], *rule_sets()]
    names += [piece["run"] for piece in data["pieces"]]
    names += [panel["face"] for panel in data["panels"].values()]
    for finding in data["findings"]:
        names += [finding[name] or "" for name in ("rule", "where", "reason", "accepted")]
    words = {word for name in names for word in re.findall(r"[A-Za-z]+", name)}
    return words | {word.capitalize() for word in words}
