"""Rows that the database itself refuses to change or to delete, for the ledgers. Used in migrations.

On SQLite a later migration that alters such a table rebuilds it and drops its triggers: name it again there.
PostgreSQL can still empty a table whole (TRUNCATE), which is how a test database is emptied there.
"""

from collections.abc import Callable

from plates.database.statements import ForVendor, Statements


def append_only(table: str, *, where: str | None = None) -> Statements:
    """A migration step after which rows of `table` can be added, never changed and never deleted.

    `where` names one database only. The step can be taken again, as after a table was rebuilt.
    """

    def here(statements: Callable[[str, str], list[str]]) -> ForVendor:
        return lambda vendor: statements(table, vendor) if where in (None, vendor) else []

    return Statements(here(_statements), here(_dropped))


def _statements(table: str, vendor: str) -> list[str]:
    if vendor == "sqlite":
        triggers = [SQLITE_TRIGGER.format(table=table, name=name, act=act) for name, act in SQLITE_NAMES]
        return [*_dropped(table, vendor), *triggers]
    return [*_dropped(table, vendor), POSTGRESQL_FUNCTION, POSTGRESQL_TRIGGER.format(table=table)]


def _dropped(table: str, vendor: str) -> list[str]:
    if vendor == "sqlite":
        return [f"DROP TRIGGER IF EXISTS {table}_{name}" for name, _ in SQLITE_NAMES]
    return [f"DROP TRIGGER IF EXISTS {table}_append_only ON {table}"]


SQLITE_NAMES = [("append_only", "UPDATE"), ("never_deleted", "DELETE")]

SQLITE_TRIGGER = """
CREATE TRIGGER {table}_{name} BEFORE {act} ON {table}
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
