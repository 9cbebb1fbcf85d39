"""What tells one news of a later start from another."""

from datetime import UTC, datetime


def later_occasion(*, expected_at: datetime | None) -> str:
    """What tells one news of a later start from another: the new time, in UTC; empty on a day that is in time."""
    return f"{expected_at.astimezone(UTC):%Y-%m-%dT%H:%MZ}" if expected_at else ""


def told_time(*, occasion: str) -> str:
    """The time that a letter of that occasion tells; a number follows where that time has been told once before."""
    return occasion.partition(" ")[0]
