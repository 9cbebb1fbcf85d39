"""Rooms: what lies at the root of an app, what each room tells of itself, and how others enter it."""

import ast
import importlib.util
import pkgutil
import re

import pytest

from tests.test_architecture import ROOT, imports_of, modules

NOT_ROOMS = {"management", "migrations", "locale", "templatetags"}
AT_THE_ROOT = {
    "plates": {"__init__", "admin", "apps", "errors", "models", "urls"},
    "bookings": {
        "__init__", "admin", "apps", "errors", "models", "urls",
        "drain", "guards", "middleware", "tasks",
    },
}  # fmt: skip


def rooms():
    """Each room as (dotted name, syntax tree of its `__init__`)."""
    return [
        (f"{app}.{folder.name}", ast.parse((folder / "__init__.py").read_text()))
        for app in AT_THE_ROOT
        for folder in sorted((ROOT / app).iterdir())
        if (folder / "__init__.py").exists() and folder.name not in NOT_ROOMS
    ]


def entrances(tree):
    """What the `__all__` of a room names."""
    for node in tree.body:
        if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "__all__":
            return set(ast.literal_eval(node.value))
    return set()


def room_of(dotted):
    return ".".join(dotted.split(".")[:2])


@pytest.mark.parametrize("app", ["plates", "bookings"])
def test_the_root_of_an_app_holds_only_what_django_and_everybody_looks_for_there(app):
    assert {file.stem for file in (ROOT / app).glob("*.py")} == AT_THE_ROOT[app]


@pytest.mark.parametrize(("name", "tree"), rooms(), ids=[name for name, _ in rooms()])
def test_each_room_tells_what_it_is_for(name, tree):
    told = (ast.get_docstring(tree) or "").splitlines()

    assert 8 <= len(told) <= 32


def is_module(dotted):
    return importlib.util.find_spec(dotted) is not None


def crossings():
    """(module, room, name) of every import from another room: `name` is what is taken from the room itself."""
    known = {name for name, _ in rooms()}
    for module, tree in modules("plates", "bookings"):
        home = room_of(module.removesuffix(".py").replace("/", "."))
        for imported_name in imports_of(tree, "plates", "bookings"):
            room, rest = room_of(imported_name), imported_name.split(".")[2:]
            if room in known and room != home and rest:
                yield module, room, rest[0]


def test_a_room_is_entered_through_what_it_names():
    named = {name: entrances(tree) | {"urls"} for name, tree in rooms()}
    by_another_way = [
        (module, f"{room}.{part}") for module, room, part in crossings() if part not in named[room]
    ]

    assert by_another_way == []


def test_no_room_names_an_entrance_that_nobody_uses():
    used = {(room, part) for _, room, part in crossings()}
    tests = {
        (room_of(name), name.split(".")[2])
        for _, tree in modules("tests")
        for name in imports_of(tree, "plates", "bookings")
        if name.count(".") >= 2
    }
    # What a pure package names besides its modules is used as an attribute of it.
    named = {
        (name, part) for name, tree in rooms() for part in entrances(tree) if is_module(f"{name}.{part}")
    }

    assert sorted(named - used - tests) == []


@pytest.mark.parametrize(("name", "tree"), rooms(), ids=[name for name, _ in rooms()])
def test_what_a_room_says_of_its_parts_is_there(name, tree):
    """Every dotted name in the docstring that begins with a module of the room: `services.ledger.record`."""
    told = re.findall(r"`([a-z_]+(?:\.[A-Za-z_]+)+)`", ast.get_docstring(tree) or "")
    parts = [each for each in told if is_module(f"{name}.{each.split('.')[0]}")]

    assert [each for each in parts if not exists(f"{name}.{each}")] == []


def exists(dotted):
    try:
        pkgutil.resolve_name(dotted)
    except (ImportError, AttributeError):
        return False
    return True
