"""Small finishing plans for tests: a Monday at seven in UTC, varnish at nine for two hours, packing at five."""

from datetime import UTC, datetime, time

from plates.finishing.forecast import Hours, Spread, Work, work_days

MONDAY = datetime(2026, 11, 30, 7, 0, tzinfo=UTC)
EVERY_DAY = tuple(range(1, 8))


def hours(**changes):
    facts = {"weekdays": EVERY_DAY, "begins": time(9), "minutes": 120, "plates": 2, "packed_at": time(17)}
    return Hours(**(facts | changes))


def days(*, now=MONDAY, ahead=60, zone=UTC, closed=(), **changes):
    return work_days(hours(**changes), now=now, days=ahead, zone=zone, closed=closed)


def surely(minutes):
    return Spread(minutes, minutes, minutes)


def work(*, drying=None, curing=None, certainty=0.95):
    """An hour of drying and a day of cure to the minute, unless something else is asked for."""
    return Work(drying or surely(60), curing or surely(24 * 60), certainty)
