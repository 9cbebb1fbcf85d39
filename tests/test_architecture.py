"""How the house is built, checked on the code itself: layers within the rooms, who may write, what each room tells.

Which room may import which stands in pyproject.toml (tool.importlinter). The rules are design.md s.2 and
style-anchors.md s.3-4.
"""

import ast
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest
from django.apps import apps
from django.db.migrations.loader import MigrationLoader

ROOT = Path(__file__).resolve().parents[1]
WRITES = {
    "save", "create", "update", "delete", "bulk_create", "bulk_update", "get_or_create", "update_or_create",
    "select_for_update", "add", "remove", "set", "aupdate", "acreate", "asave", "adelete",
}  # fmt: skip


@cache
def modules(*folders):
    """Every Python file in these folders, as (name, syntax tree)."""
    found = [file for folder in folders for file in sorted((ROOT / folder).rglob("*.py"))]
    assert found, f"no Python in {folders}"
    return [(file.relative_to(ROOT).as_posix(), ast.parse(file.read_text())) for file in found]


def layer(part, *folders):
    """Every module of one layer, whichever room of `folders` it lies in: `part.py`, or all of `part/`."""
    found = [
        (name, tree)
        for name, tree in modules(*(folders or ("plates", "bookings")))
        if part in name.removesuffix(".py").split("/")[1:]
    ]
    assert found, f"no {part}"
    return found


def imported(tree):
    """The dotted names that a module imports."""
    names = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            names += [f"{node.module}.{alias.name}" for alias in node.names]
    return names


def imports_of(tree, *packages):
    return [name for name in imported(tree) if any(f"{name}.".startswith(f"{each}.") for each in packages)]


def offenders(found):
    return {name: what for name, what in found if what}


def calls(tree):
    """(name of the receiver as written, method, line) of every call of an attribute."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            yield ast.unparse(node.func.value), node.func.attr, node.lineno


def test_plates_does_not_name_bookings_in_any_text_either():
    texts = [
        (name, [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)])
        for name, tree in modules("plates")
    ]

    named = [(name, [text for text in found if "bookings" in str(text)]) for name, found in texts]

    assert offenders(named) == {}


def test_no_row_of_plates_points_at_bookings_or_is_reached_from_there():
    fields = [
        (f"{model.__name__}.{field.name}", field.related_model._meta.app_label)
        for model in apps.get_app_config("plates").get_models()
        for field in model._meta.get_fields()
        if field.related_model
    ]

    assert len(fields) > 5
    assert {(name, app) for name, app in fields if app not in {"plates", "auth"}} == set()


def test_no_migration_of_plates_waits_for_bookings():
    loader = MigrationLoader(None, ignore_no_migrations=True, replace_migrations=False)
    migrations = {key: found for key, found in loader.disk_migrations.items() if key[0] == "plates"}
    reached = {
        step[0] for key in migrations for step in loader.graph.forwards_plan(key) if step[0] != "plates"
    }

    assert migrations
    assert "bookings" not in reached


def test_the_templates_of_plates_use_none_of_bookings():
    files = [file for file in (ROOT / "templates" / "plates").rglob("*") if file.is_file()]

    assert files
    assert [file.name for file in files if '"bookings/' in file.read_text()] == []


@pytest.mark.parametrize(
    "package",
    ["plates.capacity", "plates.finishing.forecast", "bookings.money", "bookings.invoices.einvoice"],
)
def test_the_pure_packages_work_without_django(package):
    code = f"import sys; sys.modules['django'] = None; import {package}; print('works')"

    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)

    assert (done.returncode, done.stdout, done.stderr) == (0, "works\n", "")


def parts_of(name):
    """The folders and the file of a dotted name, without its app."""
    return name.split(".")[1:]


@pytest.mark.parametrize(
    ("part", "above"),
    [
        ("models", {"selectors", "services", "forms", "views", "admin"}),
        ("selectors", {"services", "forms", "views", "templatetags", "admin"}),
        ("services", {"forms", "views", "admin"}),
    ],
)
def test_each_layer_leans_only_on_those_below(part, above):
    higher = [
        (name, [each for each in imports_of(tree, "plates", "bookings") if above & set(parts_of(each))])
        for name, tree in layer(part)
    ]

    assert offenders(higher) == {}


@pytest.mark.parametrize("part", ["views", "forms", "selectors"])
def test_only_services_write_rows(part):
    written = [
        (
            name,
            [
                f"{receiver}.{method}, line {line}"
                for receiver, method, line in calls(tree)
                if method in WRITES
            ],
        )
        for name, tree in layer(part)
    ]

    assert offenders(written) == {}


@pytest.mark.parametrize("part", ["models", "selectors", "services"])
def test_time_is_an_argument_below_the_views(part):
    found = [
        (
            name,
            [
                f"line {line}"
                for _, method, line in calls(tree)
                if method in {"now", "today", "utcnow", "localtime"}
            ],
        )
        for name, tree in layer(part)
    ]

    assert offenders(found) == {}


def test_nothing_happens_by_signal():
    signals = ("django.dispatch", "django.db.models.signals", "django.core.signals")

    assert offenders((name, imports_of(tree, *signals)) for name, tree in modules("plates", "bookings")) == {}


def test_what_a_service_is_told_has_a_name():
    """Arguments of public services are given by name, so that no two ids or times are ever confused."""
    by_place = [
        (f"{name}: {node.name}", [argument.arg for argument in node.args.posonlyargs + node.args.args])
        for name, tree in layer("services")
        for node in tree.body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    ]

    assert offenders(by_place) == {
        "plates/schedule/services/jobs.py: lock_day": ["day_id"],
        "plates/schedule/services/replanning.py: foreseeing": ["sale"],  # a decorator
        "bookings/diary/services.py: instant": ["on", "at", "zone"],
    }
