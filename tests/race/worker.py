"""python -m tests.race.worker SCENE [MUTANT]: run a scene of `scenes.py` with many processes and print what came of it.

The database is the one DATABASE_URL names, already migrated and empty, with the site's own settings. Django is started
once; the contenders are forked from it before a connection is open, and let go together by a barrier.
"""

import json
import multiprocessing
import os
import sys
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

CONTENDERS = 16
PATIENCE = 60  # seconds


@dataclass(frozen=True)
class Scene:
    """`prepare()` lays out a world (plain values); `acts(world, number)` are what contender `number` does, one after
    another, each begun by all at once; `look(world)` says afterwards what is stored.
    """

    prepare: Callable[[], dict[str, Any]]
    acts: Callable[[dict[str, Any], int], list[Callable[[], object]]]
    look: Callable[[dict[str, Any]], dict[str, Any]]
    contenders: int = CONTENDERS


def outcome(act: Callable[[], object]) -> dict[str, Any]:
    """What came of one act: its answer, or the kind and words of what was raised."""
    try:
        return {"answer": act(), "error": None, "words": None}
    except Exception as error:  # noqa: BLE001 - whatever it was, the test is to see it
        return {"answer": None, "error": type(error).__name__, "words": str(error)}


def contend(scene: Scene, world: dict[str, Any], number: int, gate: Any, told: Any) -> None:
    """One contender: open a connection, then wait at the gate before each act."""
    from django.db import connection

    connection.ensure_connection()
    outcomes = []
    for act in scene.acts(world, number):
        gate.wait(PATIENCE)
        outcomes.append(outcome(act))
    connection.close()
    told.put((number, outcomes))


def race(scene: Scene) -> dict[str, Any]:
    """Run a scene; return the world, every contender's outcomes in order, and what is stored."""
    from django.db import connections

    world = scene.prepare()
    connections.close_all()
    fork = multiprocessing.get_context("fork")
    numbers = range(scene.contenders)
    gate, told = fork.Barrier(scene.contenders), fork.SimpleQueue()
    runners = [fork.Process(target=contend, args=(scene, world, number, gate, told)) for number in numbers]
    for runner in runners:
        runner.start()
    found = dict(told.get() for _ in runners)
    for runner in runners:
        runner.join(PATIENCE)
    outcomes = [found[number] for number in numbers]
    return {"world": world, "outcomes": outcomes, "stored": scene.look(world)}


def load() -> None:
    """Start Django, and load what each contender would else load for itself after the fork: solver and arithmetic."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    import django

    django.setup()
    from plates.capacity.exact import model as exact_model  # noqa: F401
    from plates.finishing.forecast import outlook  # noqa: F401
    from tests.race import mutants, scenes  # noqa: F401


def run(name: str, mutants_named: list[str]) -> dict[str, Any]:
    """Take away what the mutants take away, and run the scene of that name."""
    from tests.race import mutants, scenes

    for mutant in mutants_named:
        mutants.MUTANTS[mutant]()
    return race(scenes.SCENES[name])


def main() -> None:
    load()
    json.dump(run(sys.argv[1], sys.argv[2:]), sys.stdout, default=str)


if __name__ == "__main__":
    main()
