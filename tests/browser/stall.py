"""A stall with a walk-up line at nine in the morning: somebody is called, some wait, one has come, one has not."""

from datetime import date, time

from bookings.diary.models import SittingDay
from bookings.orders.services.placing import Details
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from bookings.walkups.services.orders import come
from tests import builders
from tests.builders import NOW

LONG_NAME = "Wolfeschlegelsteinhausen"  # as many letters as a name to call may have
DETAILS = Details(name="Ada Ferrol", email="ada@example.org", phone="", consents={})


def a_stall() -> SittingDay:
    """The stall on the date of NOW; it is not published, so that the other pages look as they do without it."""
    stall = builders.a_day(
        on=date(2026, 11, 20),
        opens=time(8, 30),
        bench=builders.a_bench(name="Stall"),
        venue=builders.a_venue(name="Harbour fair", finding_it="Between the ice house and the slip."),
        published=False,
    )
    for name in ("Ada", "Bartolo", "Wren", LONG_NAME, "Ottilie", "Ismay"):
        builders.a_line_place(stall, name=name, now=NOW)
    for number in (1, 2, 3):
        line.call(place_id=a_place(stall, number).pk, now=NOW)
    come(place_id=a_place(stall, 1).pk, details=DETAILS, now=NOW)
    line.strike(place_id=a_place(stall, 2).pk, now=NOW)
    line.leave(place_id=a_place(stall, 6).pk, now=NOW)
    return stall


def a_quiet_stall() -> SittingDay:
    """A day of another month that keeps no line."""
    return builders.a_day(on=date(2026, 12, 20), venue=builders.a_venue(name="Ice house"), published=False)


def a_place(stall: SittingDay, number: int) -> LinePlace:
    return LinePlace.objects.get(day=stall, number=number)
