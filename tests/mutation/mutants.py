"""Mutants: the model with one small mistake in it, of the kinds that people make."""

import ast
from collections.abc import Iterator
from copy import copy
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

SWAPS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.And: ast.Or,
    ast.Or: ast.And,
}
CALLS = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "floor", "floor": "ceil"}


@dataclass(frozen=True, slots=True)
class Mutant:
    """One mistake in one file.

    Attributes:
        file: Path of the file below the model's folder.
        line: Where the mistake is, from 1.
        was: The code that it is in.
        now: The same code with the mistake.
        place: Which node of the file's tree it is in, in the order of `ast.walk`.
        wrong: The fields of that node that are changed.
    """

    file: str
    line: int
    was: str
    now: str
    place: int
    wrong: dict[str, object]

    @property
    def name(self) -> str:
        """What tells it from every other one, whatever its line."""
        return f"{self.file}: {self.was} -> {self.now}"

    def source(self, folder: Path) -> str:
        """Return the whole file with the mistake in it."""
        tree = _tree(folder, self.file)
        node = list(ast.walk(tree))[self.place]
        for field, value in self.wrong.items():
            setattr(node, field, value)
        return ast.unparse(tree)


def mutants_of(folder: Path, file: str) -> Iterator[Mutant]:
    """Yield every mutant of one file below the model's folder."""
    nodes = list(ast.walk(_tree(folder, file)))
    spared = {id(inner) for node in nodes for outer in _spared(node) for inner in ast.walk(outer)}
    for place, node in enumerate(nodes):
        if id(node) in spared:
            continue
        for wrong in _variants(node):
            was, now = _told(node), _told(_changed(node, wrong))
            if was != now:
                yield Mutant(file, getattr(node, "lineno", 0), was, now, place, wrong)


def some_mutants(folder: Path, count: int, seed: int) -> list[Mutant]:
    """Return ``count`` mutants of the whole model, drawn by ``seed``.

    Each is drawn by its own name, so that a change of one file leaves the draw from all others as it was.
    """
    return sorted(all_mutants(folder), key=lambda mutant: sha256(f"{seed} {mutant.name}".encode()).digest())[
        :count
    ]


def all_mutants(folder: Path) -> Iterator[Mutant]:
    """Yield every mutant of the whole model, file by file."""
    for file in sorted(str(path.relative_to(folder)) for path in folder.rglob("*.py")):
        yield from mutants_of(folder, file)


def _tree(folder: Path, file: str) -> ast.AST:
    return ast.parse(folder.joinpath(file).read_text(encoding="utf-8"))


def _changed(node: ast.AST, wrong: dict[str, object]) -> ast.AST:
    changed = copy(node)
    for field, value in wrong.items():
        setattr(changed, field, value)
    return changed


def _told(node: ast.AST) -> str:
    """Return a node's code on one line; of a statement, its condition."""
    return " ".join(ast.unparse(node.test if isinstance(node, ast.If) else node).split())


def _spared(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what of a node is no code that works: annotations, decorators, what only asserts, and errors."""
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        yield from node.decorator_list
    if isinstance(node, ast.FunctionDef):
        yield from filter(None, [node.returns, *(arg.annotation for arg in node.args.args)])
    if isinstance(node, ast.AnnAssign):
        yield node.annotation
    if isinstance(node, ast.keyword) and node.arg == "strict":
        yield node
    if isinstance(node, ast.Raise):
        yield node
    if isinstance(node, ast.JoinedStr):
        yield node


def _variants(node: ast.AST) -> Iterator[dict[str, object]]:
    """Yield the fields of a node that a mistake would change, each with its wrong value."""
    match node:
        case ast.Compare(ops=[op]) if type(op) in SWAPS:
            yield {"ops": [SWAPS[type(op)]()]}
        case ast.BinOp(op=op) | ast.BoolOp(op=op) if type(op) in SWAPS:
            yield {"op": SWAPS[type(op)]()}
        case ast.Call(func=ast.Name(id=name)) if name in CALLS:
            yield {"func": ast.Name(id=CALLS[name], ctx=ast.Load())}
        case ast.Call(func=ast.Attribute(value=value, attr=name)) if name in CALLS:
            yield {"func": ast.Attribute(value=value, attr=CALLS[name], ctx=ast.Load())}
        case ast.Constant(value=bool() as value):
            yield {"value": not value}
        case ast.Constant(value=int() | float() as value):
            yield {"value": value + 1 if isinstance(value, int) else value * 1.5 + 0.1}
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            yield {"op": ast.UAdd(), "operand": operand}
        case ast.IfExp(body=body, orelse=orelse):
            yield {"body": orelse, "orelse": body}
        case ast.If(test=test):
            yield {"test": ast.UnaryOp(op=ast.Not(), operand=test)}
