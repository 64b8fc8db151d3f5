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

LONGEST, FUNCTION = 140, 50
"""The most characters of a line that holds no long sentence or shader, and the most lines of a function."""

WHOLE = re.compile(r"""("[^"]{70,}"|`[^`]{70,}`)""")
"""What stands whole in one line: a sentence, a piece of a shader."""

BEGINS = re.compile(
    r"^( *)(?:export )?(?:async |static |get |set )*(?:function\b.*|const \w+ = .*=>|[\w$]+\(.*\)) \{$"
)
"""A line at which a function, a method or a named arrow begins; loops and branches look alike, and are shorter."""


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


def beyond_measure(text: str) -> list[str]:
    """Return what is too long in a script: lines, and functions, which end where their indent does."""
    lines = text.splitlines()
    wrong = [
        f"line {number}: {len(line)} characters"
        for number, line in enumerate(lines, 1)
        if len(line) > LONGEST and not WHOLE.search(line)
    ]
    for start, line in enumerate(lines):
        if begins := BEGINS.match(line):
            length = next(
                n for n, end in enumerate(lines[start:], 1) if n > 1 and end.startswith(begins[1] + "}")
            )
            if length > FUNCTION:
                wrong.append(f"{line.strip()}: {length} lines")
    return wrong


def test_no_module_is_long() -> None:
    assert [name for name, text in modules().items() if text.count("\n") > 400] == []


def test_every_function_and_line_keeps_the_measure() -> None:
    assert {name: found for name, text in modules().items() if (found := beyond_measure(text))} == {}


def test_what_is_beyond_the_measure_is_found() -> None:
    body = "  cut();\n" * 49
    for head in ("function long() {", "export async function long(a, b) {", "const long = (a) => {"):
        assert beyond_measure(f"{head}\n{body}}}\n") == [f"{head}: 51 lines"]
        assert beyond_measure(f"{head}\n{body[9:]}}}\n") == []
    assert beyond_measure(f"class A {{\n  long(a) {{\n{body}  }}\n}}\n") == ["long(a) {: 51 lines"]
    assert beyond_measure(f"a({'b, ' * 50});") == ["line 1: 154 characters"]
    assert beyond_measure(f'say("{"Cut it back. " * 12}");') == []
