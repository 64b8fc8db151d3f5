"""The order of the stages and what may import what, as the contracts in ``pyproject.toml`` say it."""

import ast
import graphlib
import sys
import tomllib
from functools import cache
from pathlib import Path

import grimp
import pytest
from importlinter.cli import lint_imports

ROOT = Path(__file__, "..", "..", "..").resolve()
CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
SOURCES = sorted(path for part in ("model", "viewer") for path in (ROOT / part).rglob("*.py"))


@cache
def graph() -> grimp.ImportGraph:
    return grimp.build_graph(
        "trimwright.model", "trimwright.viewer", include_external_packages=True, cache_dir=None
    )


def imports_of(path: Path) -> set[str]:
    """Return the absolute modules that a file imports, inside functions too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            found.add(node.module)
    return found


def test_every_contract_is_kept(capsys: pytest.CaptureFixture[str]) -> None:
    status = lint_imports(config_filename=str(ROOT / "pyproject.toml"), no_cache=True)
    assert status == 0, capsys.readouterr().out


def test_every_part_of_the_model_has_its_place_among_the_layers() -> None:
    layers = next(contract for contract in CONTRACTS if contract.get("containers") == ["trimwright.model"])[
        "layers"
    ]
    placed = {name.strip().split(".")[0] for layer in layers for name in layer.replace(":", "|").split("|")}
    assert {name.rsplit(".", 1)[1] for name in graph().find_children("trimwright.model")} == placed


def test_no_two_modules_import_each_other_in_a_ring() -> None:
    modules = {name for name in graph().modules if name.startswith("trimwright.")}
    order = {name: graph().find_modules_directly_imported_by(name) & modules for name in modules}
    assert len(list(graphlib.TopologicalSorter(order).static_order())) == len(modules)


def test_only_the_window_imports_pyvista() -> None:
    where = {
        path.relative_to(ROOT).parts[1]
        for path in SOURCES
        if any(name.split(".")[0] in ("pyvista", "vtk", "vtkmodules") for name in imports_of(path))
    }
    assert where == {"window"}


def test_compiled_loops_use_nothing_of_another_file() -> None:
    """What is kept compiled is made anew when its own file changes; no other file is looked at."""
    kernels = [path for path in SOURCES if "@kernel" in path.read_text(encoding="utf-8")]
    assert kernels
    for path in kernels:
        relative = [
            (node.module, name.name)
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.ImportFrom) and node.level
            for name in node.names
        ]
        assert {module for module, _ in relative} == {"compiled"}, path


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_file_is_one_idea(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 400
    stem = path.stem
    assert stem in ("__init__", "__main__") or stem not in sys.stdlib_module_names, (
        "named like a module of Python"
    )
    for name in imports_of(path):
        inside = "trimwright.model" if path.is_relative_to(ROOT / "model") else "trimwright.viewer"
        assert not name.startswith(inside), f"{name}: import it relatively"


@pytest.mark.parametrize(
    "path", [path for path in SOURCES if path.is_relative_to(ROOT / "model")], ids=lambda path: path.name
)
def test_the_model_prints_nothing_and_reads_no_clock(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    called = {
        node.func.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not called & {"print", "input", "breakpoint"}
    assert not imports_of(path) & {"time", "datetime", "random", "logging", "sys", "os"}
