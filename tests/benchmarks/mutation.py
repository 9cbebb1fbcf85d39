"""Where a small fault can be made in a module, and making it. Used by tests.benchmarks.mutants."""

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass

COMPARISONS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.FloorDiv, ast.FloorDiv: ast.Mult,
}  # fmt: skip
TWINS = {"min": "max", "max": "min", "any": "all", "all": "any", "ceil": "floor", "floor": "ceil"}
# What is said, logged or typed is no rule.
SPOKEN = {"_", "gettext", "ngettext", "format", "Sentence", "warning", "info", "TypeVar", "cast"}


@dataclass(frozen=True, slots=True)
class Place:
    """A place in a module, by the number of its node in the order of ast.walk, and the kind of the fault."""

    node: int
    kind: str
    line: int
    told: str

    def turned(self, code: ast.Module) -> ast.Module:
        """The module with the fault in it; `code` is changed."""
        for number, node in enumerate(ast.walk(code)):
            if number == self.node:
                CHANGES[self.kind](node)
        return ast.fix_missing_locations(code)


def mutants_of(code: ast.Module) -> Iterator[Place]:
    """Every place at which a fault can be made, in an order that hangs on the text alone."""
    decorators = [each for node in ast.walk(code) for each in getattr(node, "decorator_list", [])]
    quiet = [*decorators, *(node for node in ast.walk(code) if _is_spoken(node))]
    spoken = {id(part) for node in quiet for part in ast.walk(node)}
    for number, node in enumerate(ast.walk(code)):
        if id(node) in spoken:
            continue
        for kind in (kind for kind, fits in KINDS.items() if fits(node)):
            before = ast.unparse(node).partition("\n")[0][:70]
            yield Place(number, kind, getattr(node, "lineno", 0), f"{kind}: {before}")


def _is_spoken(node: ast.AST) -> bool:
    if isinstance(node, ast.Call):
        return (getattr(node.func, "id", "") or getattr(node.func, "attr", "")) in SPOKEN
    if isinstance(node, ast.Expr):  # docstrings
        return isinstance(node.value, ast.Constant)
    return isinstance(node, ast.arg | ast.AnnAssign | ast.ImportFrom | ast.Import | ast.JoinedStr | ast.Raise)


KINDS: dict[str, Callable[[ast.AST], bool]] = {
    "comparison": lambda node: isinstance(node, ast.Compare) and type(node.ops[0]) in COMPARISONS,
    "operator": lambda node: isinstance(node, ast.BinOp) and type(node.op) in OPERATORS,
    "and, or": lambda node: isinstance(node, ast.BoolOp),
    "not": lambda node: isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not),
    "constant": lambda node: isinstance(node, ast.Constant) and type(node.value) in (int, bool),
    "twin": lambda node: isinstance(node, ast.Call) and getattr(node.func, "id", "") in TWINS,
    "condition": lambda node: isinstance(node, ast.If | ast.IfExp),
    "call left out": lambda node: isinstance(node, ast.Expr) and isinstance(node.value, ast.Call),
}


def _comparison(node: ast.Compare) -> None:
    node.ops[0] = COMPARISONS[type(node.ops[0])]()


def _operator(node: ast.BinOp) -> None:
    node.op = OPERATORS[type(node.op)]()


def _and_or(node: ast.BoolOp) -> None:
    node.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()


def _not(node: ast.UnaryOp) -> None:
    node.op, node.operand = ast.Not(), ast.UnaryOp(ast.Not(), node.operand)


def _constant(node: ast.Constant) -> None:
    node.value = (not node.value) if isinstance(node.value, bool) else node.value + 1


def _twin(node: ast.Call) -> None:
    assert isinstance(node.func, ast.Name)
    node.func.id = TWINS[node.func.id]


def _condition(node: ast.If | ast.IfExp) -> None:
    node.test = ast.UnaryOp(ast.Not(), node.test)


def _call_left_out(node: ast.Expr) -> None:
    node.value = ast.Constant(None)


CHANGES = {
    "comparison": _comparison, "operator": _operator, "and, or": _and_or, "not": _not, "constant": _constant,
    "twin": _twin, "condition": _condition, "call left out": _call_left_out,
}  # fmt: skip
