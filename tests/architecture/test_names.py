"""Names: a class name stands for one thing, wherever in the code it is read."""

import ast
from collections import Counter

from tests.architecture.test_measure import FILES, ROOT


def test_no_two_classes_have_one_name() -> None:
    names = Counter(
        node.name
        for path in FILES
        if not path.is_relative_to(ROOT / "tests")
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    )
    assert [name for name, times in names.items() if times > 1] == []
