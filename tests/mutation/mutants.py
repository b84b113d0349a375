"""Mutants of a Python file: one small change each, told in words and made by cutting and pasting text."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass

_COMPARED: dict[type[ast.cmpop], str] = {
    ast.Lt: "<=",
    ast.LtE: "<",
    ast.Gt: ">=",
    ast.GtE: ">",
    ast.Eq: "!=",
    ast.NotEq: "==",
    ast.Is: "is not",
    ast.IsNot: "is",
    ast.In: "not in",
    ast.NotIn: "in",
}
_FOR_TYPES = "TYPE_CHECKING"
_COUNTED: dict[type[ast.operator], str] = {
    ast.Add: "-",
    ast.Sub: "+",
    ast.Mult: "/",
    ast.Div: "*",
    ast.FloorDiv: "*",
    ast.Mod: "*",
    ast.Pow: "*",
}


@dataclass(frozen=True, slots=True)
class Mutant:
    """A change of one place of a text: characters `start` to `end` become `text`; within: its function."""

    within: str
    line: int
    start: int
    end: int
    was: str
    text: str

    def __str__(self) -> str:
        return f"line {self.line}, {self.within}: {self.told}"

    @property
    def told(self) -> str:
        """What becomes what, wherever it stands."""
        return f"{' '.join(self.was.split())[:70]} -> {' '.join(self.text.split())[:70]}"

    def applied(self, source: str) -> str:
        return source[: self.start] + self.text + source[self.end :]


def mutants_of(source: str) -> list[Mutant]:
    """Every mutant of a module, in the order of its lines. Imports, annotations and docstrings are left
    alone."""
    tree = ast.parse(source)
    text = _Text(source, tree)
    _leave_alone(tree)
    return sorted(
        (found for node in ast.walk(tree) for found in _of(node, text)),
        key=lambda each: (each.start, each.text),
    )


class _Text:
    """Where a node stands in its text, in characters."""

    def __init__(self, source: str, tree: ast.Module) -> None:
        self.source = source
        self.functions = [each for each in ast.walk(tree) if isinstance(each, ast.FunctionDef | ast.ClassDef)]
        self.lines = source.splitlines(keepends=True)
        self.starts = [0]
        for line in self.lines:
            self.starts.append(self.starts[-1] + len(line))

    def _at(self, line: int, column: int) -> int:
        return self.starts[line - 1] + len(self.lines[line - 1].encode()[:column].decode())

    def span(self, node: ast.expr | ast.stmt) -> tuple[int, int]:
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        return self._at(node.lineno, node.col_offset), self._at(node.end_lineno, node.end_col_offset)

    def whole(self, node: ast.expr | ast.stmt, text: str) -> Mutant:
        start, end = self.span(node)
        return Mutant(self.within(node), node.lineno, start, end, self.source[start:end], text)

    def within(self, node: ast.expr | ast.stmt) -> str:
        """The names of the classes and functions around a node, the outermost first: "Pot.fill"."""
        around = [each for each in self.functions if each.lineno <= node.lineno <= (each.end_lineno or 0)]
        return ".".join(each.name for each in around) or "the module"

    def of(self, node: ast.expr) -> str:
        start, end = self.span(node)
        return self.source[start:end]


def _leave_alone(tree: ast.Module) -> None:
    """Take away what no test could notice or what would not run: annotations, docstrings, imports,
    decorators."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            node.body = [each for each in node.body if not _is_words(each)]
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            node.decorator_list = []
        if isinstance(node, ast.FunctionDef):
            node.returns = None
        if isinstance(node, ast.arg):
            node.annotation = None
        if isinstance(node, ast.AnnAssign):
            node.annotation = ast.Name("int", ast.Load())
        if isinstance(node, ast.If) and _FOR_TYPES in ast.dump(node.test):
            node.body, node.test = [], ast.copy_location(ast.Name(_FOR_TYPES, ast.Load()), node.test)


def _is_words(node: ast.stmt) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _of(node: ast.AST, text: _Text) -> Iterator[Mutant]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1 and type(node.ops[0]) in _COMPARED:
        left, right = text.of(node.left), text.of(node.comparators[0])
        yield text.whole(node, f"{left} {_COMPARED[type(node.ops[0])]} {right}")
    elif isinstance(node, ast.BinOp) and type(node.op) in _COUNTED and not _is_type(node):
        yield text.whole(node, f"({text.of(node.left)}) {_COUNTED[type(node.op)]} ({text.of(node.right)})")
    elif isinstance(node, ast.BoolOp):
        word = " or " if isinstance(node.op, ast.And) else " and "
        yield text.whole(node, f"({word.join(f'({text.of(each)})' for each in node.values)})")
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield text.whole(node, f"bool({text.of(node.operand)})")
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield text.whole(node, str(not node.value))
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        yield text.whole(node, _other(node.value))
    elif isinstance(node, ast.If | ast.IfExp) and not _is_for_types(node.test):
        yield text.whole(node.test, f"(not ({text.of(node.test)}))")
    elif isinstance(node, ast.Return) and node.value is not None and not _is_none(node.value):
        yield text.whole(node.value, "None")
    elif isinstance(node, ast.Expr | ast.Raise):
        yield text.whole(node, "pass")


def _other(value: float) -> str:
    return f"({value!r} * 1.1)" if isinstance(value, float) and value else repr(value + 1)


def _is_for_types(test: ast.expr) -> bool:
    return isinstance(test, ast.Name) and test.id == _FOR_TYPES


def _is_type(node: ast.BinOp) -> bool:
    return any(
        isinstance(each, ast.Constant) and isinstance(each.value, str) for each in (node.left, node.right)
    )


def _is_none(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value is None
