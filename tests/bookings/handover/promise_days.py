"""A Saturday whose plates are promised for Tuesday, and the days after it: by hand, see `test_promises.py`."""

from datetime import UTC, date, datetime, timedelta

from tests import builders

MON, TUE, WED, THU = date(2026, 11, 30), *(date(2026, 12, day) for day in (1, 2, 3))
HOUR = timedelta(hours=1)
SITTING = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


def a_day_to_promise():
    """Plates dry for an hour and cure for a day, to the minute."""
    builders.finishing()
    return builders.a_day(bench=builders.a_bench(operators=2, tank_places=2, wash_places=20))
