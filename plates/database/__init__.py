"""Steps for migrations: tables that are only added to, and rows that are guarded under a condition.

Entry points: `append_only.append_only(table)`, `guards.Guard.put_up` and `.taken_down`.

Rules
- A SQLite migration that rebuilds such a table loses its triggers: put them up again in the same migration. One
  that rebuilds a guarded table takes its guard down before and puts it up after, else it stops with "error in
  trigger".

Decisions
- 2026-11-26: nothing in a ledger is deleted, on SQLite either: a second trigger, and recursive_triggers, without
  which INSERT OR REPLACE goes past it. PostgreSQL's TRUNCATE is left alone: it empties test databases.
- 2026-11-26: a check that is neither true nor false lets a row pass, so conditions ask for NULL by name.
"""

__all__ = ["append_only", "guards"]
