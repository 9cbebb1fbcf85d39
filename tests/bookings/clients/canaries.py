"""Strings that occur nowhere else, so that whoever is forgotten can be searched for."""

from datetime import timedelta
from uuid import uuid4

from tests.builders import NOW

LATER = NOW + timedelta(days=9)
CANARY = f"canary{uuid4().hex[:10]}"
MAIL = f"{CANARY}@example.org"


def canary(field):
    return f"{CANARY} {field}"
