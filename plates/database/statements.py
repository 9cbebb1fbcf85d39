"""A migration step of plain statements. Used by `append_only.py` and `guards.py`.

RunPython would hand the models to what it runs, and has all of them drawn up anew for it at every step.
"""

from collections.abc import Callable, Sequence

from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.migrations.operations.base import Operation
from django.db.migrations.state import ProjectState

ForVendor = Callable[[str], Sequence[str]]


class Statements(Operation):
    """Statements that change no model, asked for by the name of the database that they are for; and those back."""

    def __init__(self, forwards: ForVendor, backwards: ForVendor) -> None:
        self.forwards, self.backwards = forwards, backwards

    def state_forwards(self, app_label: str, state: ProjectState) -> None:
        """No model changes."""

    def database_forwards(
        self,
        app_label: str,
        schema_editor: BaseDatabaseSchemaEditor,
        from_state: ProjectState,
        to_state: ProjectState,
    ) -> None:
        self._execute(self.forwards, schema_editor)

    def database_backwards(
        self,
        app_label: str,
        schema_editor: BaseDatabaseSchemaEditor,
        from_state: ProjectState,
        to_state: ProjectState,
    ) -> None:
        self._execute(self.backwards, schema_editor)

    def describe(self) -> str:
        return "Statements of its own"

    def _execute(self, statements: ForVendor, editor: BaseDatabaseSchemaEditor) -> None:
        for statement in statements(editor.connection.vendor):
            editor.execute(statement, params=None)
