"""What a visitor is offered for a wish: the days, their starts, and what it costs on each."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay, Venue
from bookings.diary.selectors import DayOpenings
from bookings.errors import NotForSale
from bookings.handover.selectors import promises
from bookings.money import Money, Quote
from bookings.orders.selectors import discounts
from bookings.orders.selectors import lines as quotes
from bookings.orders.selectors.lines import lines_by, not_for_sale
from bookings.orders.wishes import Wish
from bookings.pricing import selectors as prices
from bookings.pricing.models import Discount, SurchargeKind, Terms
from bookings.pricing.selectors import PriceBook, price_book
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio


@dataclass(frozen=True, slots=True)
class OfferedDay:
    """One day with its starts, what the order costs when it is made on that day, and when it would be ready."""

    openings: DayOpenings
    quote: Quote
    ready_on: date | None = None


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

    @property
    def places_differ(self) -> bool:
        """Whether the days are held at several venues."""
        return len({day.openings.day.venue_id for day in self.days}) > 1


@dataclass(frozen=True, slots=True)
class AnnouncedDay:
    """An open day, and what is charged for the way there, in minor units; 0 for nothing."""

    day: SittingDay
    travel: Money


@dataclass(frozen=True, slots=True)
class _Till:
    """Whatever the price of a wish hangs on, read once for all days."""

    wish: Wish
    book: PriceBook
    terms: Sequence[Terms]
    discount: Discount | None
    currency: str

    def quote(self, *, on: date, asked_on: date, venue: Venue | None) -> Quote | None:
        """What the wish costs on a date at a venue, on the terms of the date it is asked; None when not for sale."""
        terms = prices.terms_among(self.terms, on=asked_on, venue_id=venue.pk if venue is not None else None)
        if terms is None or not_for_sale(wish=self.wish, book=self.book, on=on):
            return None
        lines = lines_by(book=self.book, wish=self.wish, on=on, venue=venue, discount=self.discount)
        return quotes.quote_lines(lines=lines, currency=self.currency, terms=terms)


def offered(
    *, wish: Wish, now: datetime, excluding_order: int | None = None, studio: Studio | None = None
) -> Offered:
    """Every open day on which a wish is for sale, each quoted by the prices and terms of its own.

    `excluding_order`: the id of an order that the visitor holds and would give back; `studio`: what the page knows of
    it. DiscountRefused for a code that cannot
    be used now, NotForSale where nothing can be quoted.
    """
    days = calendar.open_days(now=now)
    till = _till(wish, days, now, excluding_order, studio or the_studio())
    quotes = {
        day.pk: till.quote(on=day.bench_day.on, asked_on=day.local(now).date(), venue=day.venue)
        for day in days
    }
    days = [day for day in days if quotes[day.pk] is not None]
    ready = promises.ready_days(days=days, plates=len(wish.sizes), now=now)
    priced = [
        OfferedDay(each, quote, ready[each.day.pk])
        for each in calendar.openings(days=days, sizes=wish.sizes, now=now)
        if (quote := quotes[each.day.pk]) is not None
    ]
    today = now.date()
    quote = priced[0].quote if priced else till.quote(on=today, asked_on=today, venue=None)
    if quote is None:
        raise NotForSale(prices.NO_TERMS)
    return Offered(days=priced, quote=quote)


def announced(*, now: datetime) -> list[AnnouncedDay]:
    """The open days, soonest first, each with what its venue charges for travel."""
    days = calendar.open_days(now=now)
    if not days:
        return []
    book = price_book(until=max(day.bench_day.on for day in days), sizes=())
    return [AnnouncedDay(day, _travel(book, day)) for day in days]


def _travel(book: PriceBook, day: SittingDay) -> Money:
    way = book.surcharge(kind=SurchargeKind.TRAVEL, on=day.bench_day.on, venue_id=day.venue_id)
    return way.amount if way else 0


def _till(
    wish: Wish, days: Sequence[SittingDay], now: datetime, excluding_order: int | None, studio: Studio
) -> _Till:
    # A studio works by the clock of the places it stands at; without any day there is only the one of the server.
    today = days[0].local(now).date() if days else now.date()
    discount = None
    if wish.code:
        discount = discounts.by_code(code=wish.code, on=today, now=now, excluding_order=excluding_order)
    asked_on = [today, now.date(), *(day.local(now).date() for day in days)]
    return _Till(
        wish=wish,
        book=price_book(until=max([*asked_on, *(day.bench_day.on for day in days)]), sizes=set(wish.sizes)),
        terms=prices.terms_until(on=max(asked_on)),
        discount=discount,
        currency=studio.currency,
    )
