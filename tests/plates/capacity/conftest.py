"""The engine knows no database (test_purity.py): it is tested once, not again where the site is on PostgreSQL."""

import os
from pathlib import Path


def pytest_collection_modifyitems(config, items):
    """Leave the engine out of the round on PostgreSQL; the other round has run it."""
    if not os.environ.get("DATABASE_URL", "").startswith("postgres"):
        return
    here = [item for item in items if Path(__file__).parent in item.path.parents]
    config.hook.pytest_deselected(items=here)
    items[:] = [item for item in items if item not in here]
