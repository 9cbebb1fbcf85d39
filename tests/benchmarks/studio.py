"""A studio of its own for what is measured with rows."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def scratch_studio() -> Iterator[None]:
    """Set Django up on an empty, migrated SQLite file that goes away afterwards. Import models within the block."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ.update(DATABASE_URL=f"sqlite:///{folder}/rows.sqlite3", SILVER_HOUR_DATA=folder)
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
        import django
        from django.core.management import call_command

        django.setup()
        call_command("migrate", verbosity=0)
        yield
