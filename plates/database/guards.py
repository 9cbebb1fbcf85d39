"""Changes that the database itself refuses under a condition, with a sentence. Used in migrations.

Two traps of SQLite. A migration that alters the guarded table rebuilds it without the guard: put it up again there.
One that alters another table which the condition names fails ("error in trigger"): take the guard down before it and
put it up again behind it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from plates.database.statements import Statements


@dataclass(frozen=True, slots=True)
class Guard:
    """What may not be done `on` a row of `table` (UPDATE, DELETE) while `condition` holds.

    The condition is SQL that both databases know, over OLD and, for an UPDATE only, NEW. Neither it nor the sentence
    comes from outside the code, and the sentence has no quotation mark.
    """

    table: str
    name: str
    on: Sequence[str]
    condition: str
    sentence: str

    def put_up(self) -> Statements:
        """A migration step that puts the guard up; it can be taken again."""
        return Statements(self._up, self._down)

    def taken_down(self) -> Statements:
        """A migration step that takes the guard away, for what comes after it."""
        return Statements(self._down, self._up)

    def _up(self, vendor: str) -> list[str]:
        return [*self._down(vendor), *self._statements(vendor)]

    def _down(self, vendor: str) -> list[str]:
        on_table = f" ON {self.table}" if vendor == "postgresql" else ""
        return [f"DROP TRIGGER IF EXISTS {self._trigger(act)}{on_table}" for act in self.on]

    def _trigger(self, act: str) -> str:
        return f"{self.table}_{self.name}_{act.lower()}"

    def _statements(self, vendor: str) -> list[str]:
        facts = {"table": self.table, "name": self.name, "condition": self.condition, "words": self.sentence}
        begun, each = (SQLITE, []) if vendor == "sqlite" else (POSTGRESQL, [POSTGRESQL_FUNCTION])
        triggers = [begun.format(trigger=self._trigger(act), act=act, **facts) for act in self.on]
        return [function.format(**facts) for function in each] + triggers


SQLITE = """
CREATE TRIGGER {trigger} BEFORE {act} ON {table} WHEN {condition}
BEGIN SELECT RAISE(ABORT, '{words}'); END
"""

POSTGRESQL_FUNCTION = """
CREATE OR REPLACE FUNCTION {table}_{name}() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
    IF {condition} THEN
        RAISE EXCEPTION USING MESSAGE = '{words}', ERRCODE = 'restrict_violation';
    END IF;
    IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
    RETURN NEW;
END $$
"""

POSTGRESQL = """
CREATE TRIGGER {trigger} BEFORE {act} ON {table} FOR EACH ROW EXECUTE FUNCTION {table}_{name}()
"""
