"""Which days are today, and what is one press. Dates are typed here, and may be those of any place on earth."""

from datetime import date, datetime, timedelta

FURTHEST_EAST = timedelta(hours=14)  # the clocks of Kiritimati (tz database, Pacific/Kiritimati)
# A button that is pressed twice, or a form that a browser sends again, within this time is one press.
ONE_PRESS = timedelta(seconds=10)


def latest(now: datetime) -> date:
    """The latest date that it is anywhere: what is dated later has not happened yet."""
    return (now + FURTHEST_EAST).date()
