"""What a visitor is offered for a wish: the days, their starts, and what it costs on each. Nothing here writes."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from bookings.models import Extra
from bookings.money import Quote
from bookings.selectors import calendar, prices
from bookings.selectors.calendar import DayOpenings
from plates.models import PlateSize


@dataclass(frozen=True, slots=True)
class OfferedDay:
    """One day with its starts, and what the order costs when it is made on that day."""

    openings: DayOpenings
    quote: Quote


@dataclass(frozen=True, slots=True)
class Offered:
    """The days soonest first, and what the order costs on the soonest; without any day, what it would cost today."""

    days: list[OfferedDay]
    quote: Quote

    @property
    def prices_differ(self) -> bool:
        """Whether a later day asks for another sum, now or later."""
        sums = {(day.quote.gross, day.quote.deposit_now) for day in self.days}
        return len(sums) > 1


def offered(*, sizes: Sequence[PlateSize], extras: Mapping[Extra, int], now: datetime) -> Offered:
    """Every open day on which these plates are for sale. Each is sold at its own prices, so each is quoted by them."""
    days, today = calendar.open_days(now=now), now.date()
    quoted = prices.quotes(
        sizes=sizes,
        extras=extras,
        dates={today, *(day.bench_day.on for day in days)},
        currency=prices.the_studio().currency,
        terms=prices.current_terms(on=today, venue=days[0].venue if days else None),
    )
    days = [day for day in days if day.bench_day.on in quoted]
    openings = calendar.openings(days=days, sizes=sizes, now=now)
    priced = [OfferedDay(each, quoted[each.day.bench_day.on]) for each in openings]
    return Offered(days=priced, quote=priced[0].quote if priced else quoted[today])
