"""What the money package may not contain: floats, true division, a second number type, Django."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import bookings.money

PACKAGE = Path(bookings.money.__file__).parent
MODULES = sorted(PACKAGE.glob("*.py"))
INEXACT_NAMES = {"float", "round", "Decimal", "Fraction", "decimal", "math", "fractions", "complex"}


def inexact_parts(source):
    """Return the lines of `source` that hold a float, a true division or another number type."""
    return [node.lineno for node in ast.walk(ast.parse(source)) if is_inexact(node)]


def is_inexact(node):
    if isinstance(node, ast.Constant):
        return isinstance(node.value, float | complex)
    if isinstance(node, ast.BinOp | ast.AugAssign):
        return isinstance(node.op, ast.Div)
    if isinstance(node, ast.Import | ast.ImportFrom):
        return any(name.name in INEXACT_NAMES for name in node.names) or (
            isinstance(node, ast.ImportFrom) and node.module in INEXACT_NAMES
        )
    return isinstance(node, ast.Name) and node.id in INEXACT_NAMES


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.name)
def test_no_float_comes_near_money_and_only_the_standard_library_is_imported(path):
    source = path.read_text(encoding="utf-8")
    assert inexact_parts(source) == []

    nodes = list(ast.walk(ast.parse(source)))
    modules = [node.module for node in nodes if isinstance(node, ast.ImportFrom)]
    modules += [name.name for node in nodes if isinstance(node, ast.Import) for name in node.names]
    outside = [module for module in modules if module.split(".")[0] not in sys.stdlib_module_names]
    assert [module for module in outside if not module.startswith("bookings.money")] == []


@pytest.mark.parametrize(
    "source",
    [
        "tax = net * 0.23", "net = gross / 2", "net /= 2", "net = float(gross)", "tax = round(net)",
        "from decimal import Decimal", "import math",
    ],
)  # fmt: skip
def test_the_look_for_floats_finds_one(source):
    assert inexact_parts(source) == [1]


def test_money_works_where_django_cannot_be_imported():
    script = (
        "import sys; sys.modules['django'] = None\n"
        "from bookings.money import PricedLine, invoice_totals\n"
        "print(invoice_totals([PricedLine('Half plate', 1, 12300, 'S', 2300)], 'EUR', 0).due)"
    )
    finished = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=PACKAGE.parent.parent
    )

    assert finished.stdout == "12300\n"
