"""Mutants: the model with one small mistake in it, of the kinds that people make."""

import ast
from collections import Counter
from collections.abc import Iterator
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
        within: The function or class that it is in, with those around it; "" in none.
        line: Where the mistake is, from 1.
        was: The code that it is in.
        now: The same code with the mistake.
        nth: How many like it there are before it within the same function.
        place: Which node of the file's tree it is in, in the order of `ast.walk`.
        wrong: The fields of that node that are changed.
    """

    file: str
    within: str
    line: int
    was: str
    now: str
    nth: int
    place: int
    wrong: dict[str, object]

    @property
    def name(self) -> str:
        """What tells it from every other one, whatever its line."""
        nth = f" [{self.nth + 1}]" if self.nth else ""
        return f"{self.file} {self.within}: {self.was} -> {self.now}{nth}"

    def source(self, folder: Path) -> str:
        """Return the whole file with the mistake in it."""
        tree = _tree(folder, self.file)
        node = list(ast.walk(tree))[self.place]
        _set(node, self.wrong)
        return ast.unparse(tree)


def mutants_of(folder: Path, file: str) -> Iterator[Mutant]:
    """Yield every mutant of one file below the model's folder."""
    tree = _tree(folder, file)
    around = {inner: outer for outer in ast.walk(tree) for inner in ast.iter_child_nodes(outer)}
    spared = {inner for node in around for outer in _spared(node) for inner in ast.walk(outer)}
    seen: Counter[tuple[str, str, str]] = Counter()
    for place, node in enumerate(ast.walk(tree)):
        if node in spared:
            continue
        shown = around[node] if isinstance(node, ast.Constant) else node
        for wrong in _variants(node):
            was, now = _told(shown), _told_wrong(shown, node, wrong)
            if was != now:
                within = _within(node, around)
                yield Mutant(file, within, node.lineno, was, now, seen[within, was, now], place, wrong)
                seen[within, was, now] += 1


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


def _within(node: ast.AST, around: dict[ast.AST, ast.AST]) -> str:
    """Return the names of the functions and classes that a node is in, from the outside."""
    names: list[str] = []
    while node in around:
        node = around[node]
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names.insert(0, node.name)
    return ".".join(names)


def _told_wrong(shown: ast.AST, node: ast.AST, wrong: dict[str, object]) -> str:
    """Return the code of ``shown``, with the mistake in the node within it."""
    right = {field: getattr(node, field) for field in wrong}
    _set(node, wrong)
    told = _told(shown)
    _set(node, right)
    return told


def _set(node: ast.AST, values: dict[str, object]) -> None:
    for field, value in values.items():
        setattr(node, field, value)


def _told(node: ast.AST) -> str:
    """Return a node's code on one line; of a statement, its condition."""
    return " ".join(ast.unparse(node.test if isinstance(node, ast.If | ast.While) else node).split())


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
