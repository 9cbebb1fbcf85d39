"""python -m tests.race.starter: Django, solver and arithmetic loaded once; each line asked for is a race of its own.

A line of JSON names the database (of the kind that DATABASE_URL names), a folder, the scene and the mutants. The race
runs in a process that is forked for it, so that no mutant outlives it; the answer is a line with its report, or with
what broke.
"""

import json
import multiprocessing
import os
import sys
import traceback
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from tests.race import worker


def one_race(asked: dict[str, Any], answer: Connection) -> None:
    """What the forked process does: go to its own database and folder, run the scene, tell."""
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # the answers alone go there
    try:
        _move_to(asked["database"], Path(asked["folder"]))
        answer.send({"report": worker.run(asked["scene"], asked["mutants"])})
    except Exception:  # noqa: BLE001 - whatever it was, the test is to see it
        answer.send({"broke": traceback.format_exc()[-3000:]})


def _move_to(database: str, folder: Path) -> None:
    from django.conf import settings
    from django.db import connection

    from config.databases import configured

    folder.mkdir(parents=True, exist_ok=True)
    settings.DATA_DIR = folder
    connection.settings_dict["NAME"] = configured(database, folder)["NAME"]


def answered(asked: dict[str, Any]) -> dict[str, Any]:
    """Fork a process for the race and wait for what it tells; it may die without a word."""
    fork = multiprocessing.get_context("fork")
    here, there = fork.Pipe(duplex=False)
    runner = fork.Process(target=one_race, args=(asked, there))
    runner.start()
    there.close()
    try:
        return here.recv()
    except EOFError:
        runner.join()
        return {"broke": f"The race ended with {runner.exitcode} and told nothing."}
    finally:
        runner.join()


def main() -> None:
    worker.load()
    for line in sys.stdin:
        print(json.dumps(answered(json.loads(line)), default=str), flush=True)  # noqa: T201 - that is the answer


if __name__ == "__main__":
    main()
