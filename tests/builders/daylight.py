"""A day by daylight near Lisbon, and when the sun stands 20 degrees high on it by the formula of the sphere.

cos H = (sin h - sin f sin d) / (cos f cos d) with h = 20, latitude f = 38.7 and, on 28 November 2026, declination
d = -21.3 degrees gives H = 38.5 degrees, which is 2 h 34 min about noon. At 9.1 degrees west the sun is in the south at
12:24 by the clock of Greenwich: 36 minutes after it is at Greenwich, where it is 12 minutes ahead (equation of time).
So from 09:50 to 14:58. Declination and equation of time are from memory, good to about two minutes.
"""

from datetime import time
from decimal import Decimal

from tests import builders

BEGINS, ENDS, WITHIN_MINUTES = time(9, 50), time(14, 58), 3


def a_lit_venue(name="North Quay"):
    return builders.a_venue(name=name, latitude=Decimal("38.7"), longitude=Decimal("-9.1"))


def a_lit_day(sun_height=20, *, venue=None, **facts):
    """A day from nine to six that works by daylight."""
    day = builders.a_day(venue=venue or a_lit_venue(), **{"opens": time(9)} | facts)
    day.by_daylight, day.sun_height = True, Decimal(sun_height)
    day.full_clean()
    day.save()
    return day
