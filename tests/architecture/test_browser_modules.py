"""The modules of the page and the app in the browser: each import names what is there, and none goes round."""

import graphlib
import re
from collections import defaultdict
from pathlib import Path

VIEWER = Path(__file__, "..", "..", "..", "viewer").resolve()
ROOTS = {"trimwright": VIEWER / "page" / "static", "trimwright-app": VIEWER / "app" / "static" / "app"}
"""Where the modules of a name lie, as the page's import map and the app say it."""

CALLERS = [
    VIEWER / "app" / "static" / "element.js",
    VIEWER / "page" / "static" / "opening" / "unpack.js",
    VIEWER / ".." / "tests" / "viewer" / "page" / "test_scripts.py",
]
"""Who else uses what they export: what the server puts into a page, what opens one, and tests of single modules."""

IMPORT = re.compile(
    r'^import (?:\{([^}]*)\} from )?"([^"]+)";|await import\("([^"]+)"\)', re.MULTILINE | re.DOTALL
)
EXPORT = re.compile(r"^export (?:async )?(?:function|class|const|let) ([A-Za-z0-9_]+)", re.MULTILINE)


def modules() -> dict[str, str]:
    """The text of every module by the name that others import it by."""
    return {
        f"{name}/{path.relative_to(root).as_posix()}": path.read_text(encoding="utf-8")
        for name, root in ROOTS.items()
        for path in sorted(root.rglob("*.js"))
    }


def imports(text: str) -> list[tuple[list[str], str]]:
    """What a module imports, and from where."""
    return [
        ([one.strip() for one in names.split(",") if one.strip()], source or late)
        for names, source, late in IMPORT.findall(text)
    ]


def test_what_is_imported_is_there() -> None:
    all_of = modules()
    missing = [
        (name, source, one)
        for name, text in all_of.items()
        for names, source in imports(text)
        if source != "nicegui-scene"
        for one in names or [""]
        if source not in all_of or (one and one not in EXPORT.findall(all_of[source]))
    ]
    assert missing == []
    assert sum(len(imports(text)) for text in all_of.values()) > 50


def test_what_is_exported_is_used_elsewhere() -> None:
    all_of = modules()
    used = {(source, one) for text in all_of.values() for names, source in imports(text) for one in names}
    by_name = "".join(path.read_text(encoding="utf-8") for path in CALLERS)
    idle = {(name, one) for name, text in all_of.items() for one in EXPORT.findall(text)} - used
    assert {(name, one) for name, one in idle if not re.search(rf"\b{one}\b", by_name)} == set()


def test_no_two_modules_import_each_other_in_a_ring() -> None:
    order = {name: {source for _, source in imports(text)} for name, text in modules().items()}
    graphlib.TopologicalSorter(order).prepare()


def test_no_two_folders_import_each_other_in_a_ring() -> None:
    order: dict[str, set[str]] = defaultdict(set)
    for name, text in modules().items():
        folder = name.rpartition("/")[0]
        order[folder] |= {source.rpartition("/")[0] for _, source in imports(text)} - {folder}
    graphlib.TopologicalSorter(order).prepare()
    assert not any(folder.startswith("trimwright-app") for folder in order["trimwright/read"])


def test_no_module_is_long() -> None:
    assert [name for name, text in modules().items() if text.count("\n") > 400] == []
