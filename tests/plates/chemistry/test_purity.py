"""What the chemistry may not contain: floats, Django, anything else of ours, a clock."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import plates.chemistry

PACKAGE = Path(plates.chemistry.__file__).parent
MODULES = sorted(PACKAGE.rglob("*.py"))
INEXACT = {"float", "round", "math", "complex"}
CLOCKS = {"now", "today", "utcnow"}


def inexact_parts(source):
    """The lines of `source` that hold a float or something that makes one."""
    return [node.lineno for node in ast.walk(ast.parse(source)) if is_inexact(node)]


def is_inexact(node):
    if isinstance(node, ast.Constant):
        return isinstance(node.value, float | complex)
    return isinstance(node, ast.Name) and node.id in INEXACT


def test_the_whole_package_is_looked_at():
    assert {"dosing.py", "density.py", "scaling.py", "substances.py"} <= {path.name for path in MODULES}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.name)
def test_no_float_comes_near_a_dose(path):
    assert inexact_parts(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("source", ["grams = 0.1", "grams = float(text)", "grams = round(grams)"])
def test_the_look_for_floats_finds_one(source):
    assert inexact_parts(source) == [1]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.name)
def test_only_the_standard_library_and_the_package_itself_are_imported(path):
    tree = ast.parse(path.read_text(encoding="utf-8"))
    modules = [node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    modules += [name.name for node in ast.walk(tree) if isinstance(node, ast.Import) for name in node.names]

    assert all(
        module.startswith("plates.chemistry") or module.split(".")[0] in sys.stdlib_module_names
        for module in modules
    )


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.name)
def test_the_day_is_always_told(path):
    tree = ast.parse(path.read_text(encoding="utf-8"))

    assert [
        node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute) and node.attr in CLOCKS
    ] == []


def test_chemistry_works_where_django_cannot_be_imported():
    script = (
        "import sys; sys.modules['django'] = None\n"
        "from plates.chemistry.recipes.period_solutions import SOLUTIONS\n"
        "from plates.chemistry.recipes.scaling import scaled_to\n"
        "print(scaled_to(SOLUTIONS[0], 1000).metric().ingredients[0].quantity)"
    )
    finished = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=PACKAGE.parent.parent
    )

    assert finished.stdout == "68.42 g\n"
