"""Rows that the database itself refuses to change, for the ledgers. Used in migrations.

On SQLite a later migration that alters such a table rebuilds it and drops its triggers: name it again there.
SQLite refuses changes only; deletion it must allow, because that is how a test database is emptied there.
"""

from django.db import migrations
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.migrations.state import StateApps


def append_only(table: str, *, where: str | None = None) -> migrations.RunPython:
    """A migration step after which rows of `table` can be added and never changed; `where` names one database only."""

    def forbid(apps: StateApps, editor: BaseDatabaseSchemaEditor) -> None:
        if where not in (None, editor.connection.vendor):
            return
        for statement in _statements(table, editor.connection.vendor):
            editor.execute(statement, params=None)

    def allow(apps: StateApps, editor: BaseDatabaseSchemaEditor) -> None:
        if where not in (None, editor.connection.vendor):
            return
        on_table = f" ON {table}" if editor.connection.vendor == "postgresql" else ""
        editor.execute(f"DROP TRIGGER IF EXISTS {table}_append_only{on_table}", params=None)

    return migrations.RunPython(forbid, allow)


def _statements(table: str, vendor: str) -> list[str]:
    if vendor == "sqlite":
        return [SQLITE_TRIGGER.format(table=table)]
    return [POSTGRESQL_FUNCTION, POSTGRESQL_TRIGGER.format(table=table)]


SQLITE_TRIGGER = """
CREATE TRIGGER {table}_append_only BEFORE UPDATE ON {table}
BEGIN SELECT RAISE(ABORT, '{table} is append-only: add a correcting row instead.'); END
"""

POSTGRESQL_FUNCTION = """
CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
    RAISE EXCEPTION USING MESSAGE = TG_TABLE_NAME || ' is append-only: add a correcting row instead.',
    ERRCODE = 'restrict_violation';
END $$
"""

POSTGRESQL_TRIGGER = """
CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE ON {table}
FOR EACH ROW EXECUTE FUNCTION refuse_change()
"""
