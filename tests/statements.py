"""Which tests ask PostgreSQL: as few as ask every statement of the program once, and all in which one was refused.

The first round, on SQLite, writes down what each test asks. The second reads that and takes a test for each statement:
most tests ask what another one asked before them, and on PostgreSQL that takes twice as long. A refused statement ends
a transaction on PostgreSQL only, so every test with one is taken, and so is every one that was left out on SQLite.
`python -m tests.statements` names their files.
"""

import json
import os
import re
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from zlib import crc32

from django.db import DatabaseError, OperationalError

# The folder between the two rounds; without it nothing is written down, and nothing left out.
FOLDER = "SILVER_HOUR_TEST_STATEMENTS"
# As many as there happen to be: one statement all the same.
LISTS = re.compile(r"\((?:%s|NULL)(?:, (?:%s|NULL))*\)(?:, \((?:%s|NULL)(?:, (?:%s|NULL))*\))*|LIMIT \d+")
PROGRAM = tuple(f"{Path(__file__).parents[1] / app}{os.sep}" for app in ("bookings", "plates"))
OF_THE_TRANSACTION = ("SAVEPOINT", "RELEASE", "ROLLBACK", "BEGIN", "COMMIT")


@dataclass
class Asked:
    """What one test asked: each statement once, by its checksum; how many in all.

    `always`: PostgreSQL is asked in any case, as one of them was refused, or the test was left out on SQLite.
    """

    statements: set[int] = field(default_factory=set)
    count: int = 0
    always: bool = False


class Record:
    """Put on the connection of a test run, it notes what is asked by the test that is on."""

    def __init__(self) -> None:
        self.tests: dict[str, Asked] = {}
        self._now: Asked | None = None
        self._known: dict[str, int] = {}

    @contextmanager
    def of(self, test: str) -> Iterator[None]:
        self._now = self.tests.setdefault(test, Asked())
        yield
        self._now = None

    def __call__(self, execute, sql, params, many, context):
        if self._now is not None and not sql.startswith(OF_THE_TRANSACTION):
            self._now.count += 1
            checksum = self._checksum(sql)
            if checksum not in self._now.statements and _asked_by_the_program():
                self._now.statements.add(checksum)
        try:
            return execute(sql, params, many, context)
        except DatabaseError as error:
            # A database that is away, as some tests play it, is no refusal.
            if self._now is not None and not isinstance(error, OperationalError):
                self._now.always = True
            raise

    def left_out(self, test: str) -> None:
        """A test that SQLite does not concern has its turn on PostgreSQL."""
        self.tests.setdefault(test, Asked()).always = True

    def _checksum(self, sql: str) -> int:
        if sql not in self._known:
            self._known[sql] = crc32(LISTS.sub("(...)", sql).encode())
        return self._known[sql]

    def write(self, folder: Path, worker: str) -> None:
        found = {
            test: {"statements": sorted(asked.statements), "count": asked.count, "always": asked.always}
            for test, asked in self.tests.items()
            if asked.statements or asked.always
        }
        (folder / f"{worker}.json").write_text(json.dumps(found))


def _asked_by_the_program() -> bool:
    """Whether the statement under way is the program's own, and not a look that the test takes at its rows."""
    frame = sys._getframe(2)
    while frame is not None:
        if frame.f_code.co_filename.startswith(PROGRAM):
            return True
        frame = frame.f_back
    return False


def folder() -> Path | None:
    """Where the rounds tell each other, if they do."""
    return Path(os.environ[FOLDER]) if os.environ.get(FOLDER) else None


def written(folder: Path) -> dict[str, Asked]:
    """What all workers of the first round wrote down."""
    found: dict[str, Asked] = {}
    for path in sorted(folder.glob("*.json")):
        for test, asked in json.loads(path.read_text()).items():
            found[test] = Asked(set(asked["statements"]), asked["count"], asked["always"])
    return found


def fewest(tests: Mapping[str, Asked]) -> set[str]:
    """Tests that ask every statement between them: all that always do, then those that ask most new for what they ask
    in all."""
    chosen = {test for test, asked in tests.items() if asked.always}
    left = {statement for asked in tests.values() for statement in asked.statements}
    left -= {statement for test in chosen for statement in tests[test].statements}
    rest = {test: asked for test, asked in sorted(tests.items()) if test not in chosen}
    while left:
        best = max(rest, key=lambda test: len(rest[test].statements & left) / rest[test].count)
        left -= rest.pop(best).statements
        chosen.add(best)
    return chosen


if __name__ == "__main__":
    between = folder()
    chosen = fewest(written(between)) if between else set()
    sys.stdout.write("\n".join(sorted({test.partition("::")[0] for test in chosen})) + "\n")
