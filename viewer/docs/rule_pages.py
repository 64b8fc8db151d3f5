"""Write a page for every rule, from the rule's own words and the limits of all rule sets.

Run ``python -m trimwright.viewer.docs.rule_pages [FOLDER]``; the folder is ``docs/rules`` unless given.
"""

from __future__ import annotations

import inspect
import sys
from pathlib import Path
from types import ModuleType

from trimwright.model.checks.run import RULES, Rule
from trimwright.model.limits.load import rule_sets
from trimwright.model.limits.record import Limit

FOLDER = Path("docs/rules")
PARTS = ("Finds", "Fix", "Source")

_INTRO = """# Rules

What is looked for in every layout. Each rule has a name that says what it finds, and a page that says why it
matters, what to do, and where its limit comes from. A scene picks a rule set, and can override a limit,
accept a finding or switch a rule off, always with its reason:

```toml
[rules]
set = "high wind"                       # common practice (default), high wind, code minimum
accept = [{ rule = "short-end-piece", where = "R1-3", reason = "hidden behind the chimney" }]
off = { "lap-faces-wind" = "the yard is sheltered on all sides" }

[rules.limits]
"screw-spacing" = { value = 12, reason = "the metal's maker asks for it" }
```

Structural and wind figures are advice: the local code, the metal's maker and licensed practice decide. The
edge tests of ES-1 are for low-slope membrane roofs and are no rule here. What the words of trust mean:
[sources](../sources.md).

"""


def rule_pages() -> dict[str, str]:
    """Return every page's text by its file name, the index among them."""
    pages = {f"{rule.RULE}.md": _page(rule) for rule in RULES}
    pages["index.md"] = _index()
    return pages


def main(arguments: list[str]) -> None:
    """Write the pages into a folder, and remove those of rules that are gone."""
    folder = Path(arguments[0]) if arguments else FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    pages = rule_pages()
    for old in folder.glob("*.md"):
        if old.name not in pages:
            old.unlink()
    for name, text in pages.items():
        (folder / name).write_text(text, encoding="utf-8")


def words_of(rule: Rule | ModuleType) -> dict[str, str]:
    """Return the parts of a rule's docstring: its first line as ``says``, and each marked part."""
    first, *rest = (inspect.getdoc(rule) or "").split("\n\n")
    words = {"says": first}
    for paragraph in rest:
        text = " ".join(paragraph.split())
        for part in PARTS:
            if text.startswith(f"**{part}** "):
                words[part] = text.removeprefix(f"**{part}** ")
    return words


def written(limit: Limit) -> str:
    """Return a limit's number and unit as a page shows them."""
    ends = limit.value if isinstance(limit.value, tuple) else (limit.value,)
    return f"{' to '.join(f'{end:g}' for end in ends)} {limit.unit}"


def _page(rule: Rule) -> str:
    """Return the page of one rule."""
    words = words_of(rule)
    lines = [f"# {rule.RULE}", "", f"{words['says']} *({rule.SEVERITY})*", ""]
    parts = {
        "Finds": words["Finds"],
        "Why it matters": str(rule.WHY),
        "Fix": words["Fix"],
        "Source": words["Source"],
    }
    for part, text in parts.items():
        lines += [f"**{part}**: {text}", ""]
    for name in rule.LIMITS:
        lines += ["## Limit" if len(rule.LIMITS) == 1 else f"## Limit {name}", ""]
        lines += ["| rule set | limit | source | trust |", "|---|---|---|---|"]
        for kind in rule_sets().values():
            limit = kind.limits[name]
            source = limit.source.whole if name in kind.own else "as common practice"
            lines.append(f"| {kind.name} | {written(limit)} | {source} | {limit.source.trust} |")
        lines.append("")
    lines += ["[All rules](index.md) · [sources and words of trust](../sources.md)", ""]
    return "\n".join(lines)


def _index() -> str:
    """Return the page that lists all rules."""
    lines = ["| rule | severity | says |", "|---|---|---|"]
    lines += [f"| [{r.RULE}]({r.RULE}.md) | {r.SEVERITY} | {words_of(r)['says']} |" for r in RULES]
    lines += ["", "## Rule sets", "", "| rule set | for |", "|---|---|"]
    lines += [f"| {kind.name} | {kind.about} |" for kind in rule_sets().values()]
    return _INTRO + "\n".join(lines) + "\n"


if __name__ == "__main__":
    main(sys.argv[1:])
