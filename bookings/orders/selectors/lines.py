"""What an order costs line by line, by the prices of its day."""

from collections.abc import Iterator, Sequence
from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from bookings.diary.models import Venue
from bookings.errors import NotForSale
from bookings.money import Quote, quote
from bookings.orders.models import LineKind, Order, OrderLine
from bookings.orders.wishes import Wish
from bookings.pricing.models import Discount, SizePrice, Surcharge, SurchargeKind, Terms
from bookings.pricing.selectors import PriceBook, price_book
from plates.bench.models import PlateSize


def lines_for(
    *, wish: Wish, on: date, venue: Venue | None, discount: Discount | None = None, travel: bool = True
) -> list[OrderLine]:
    """Unsaved lines for a wish on a date at a venue: its plates in order first, then all else.

    Without `travel` nothing is charged for the way there. NotForSale when something has no price on that date.
    """
    book = price_book(until=on, sizes=set(wish.sizes))
    if missing := not_for_sale(wish=wish, book=book, on=on):
        raise NotForSale(
            _("{sizes} plates are not for sale on {day}. Choose another size.").format(
                sizes=missing, day=date_format(on, "d F Y")
            )
        )
    return lines_by(book=book, wish=wish, on=on, venue=venue, discount=discount, travel=travel)


def not_for_sale(*, wish: Wish, book: PriceBook, on: date) -> PlateSize | None:
    """The first size of a wish that cannot be had on a date."""
    priced = book.size_prices(on=on)
    return next((size for size in wish.sizes if not (size.offered and size.pk in priced)), None)


def lines_by(
    *,
    book: PriceBook,
    wish: Wish,
    on: date,
    venue: Venue | None,
    discount: Discount | None = None,
    travel: bool = True,
) -> list[OrderLine]:
    """The same from prices that are at hand; every size of the wish has one on that date."""
    venue_id = venue.pk if venue else None
    lines = [*_plates(wish, book.size_prices(on=on)), *_extras(wish)]
    sitter = book.surcharge(kind=SurchargeKind.SITTER, on=on, venue_id=venue_id)
    if sitter and wish.sitters > 1:
        lines.append(_surcharge(sitter, wish.sitters - 1))
    way = book.surcharge(kind=SurchargeKind.TRAVEL, on=on, venue_id=venue_id)
    if way and travel:
        lines.append(_surcharge(way, 1))
    if discount:
        lines += _taken_off(lines, discount)
    for position, line in enumerate(lines, start=1):
        line.position = position
        line.tax_category, line.tax_rate_bp = line.tax_class.category, line.tax_class.rate_bp
    return lines


def _plates(wish: Wish, priced: dict[int, SizePrice]) -> Iterator[OrderLine]:
    """One line for each plate; the first of a size at its price, later ones at the further price where there is one."""
    for place, size in enumerate(wish.sizes):
        price = priced[size.pk]
        amount = price.amount
        if size in wish.sizes[:place] and price.further_amount is not None:
            amount = price.further_amount
        yield OrderLine(
            text=_("{size} plate").format(size=size),
            quantity=1,
            unit_amount=amount,
            tax_class=price.tax_class,
        )


def _extras(wish: Wish) -> Iterator[OrderLine]:
    for extra, quantity in wish.extras.items():
        yield OrderLine(
            kind=LineKind.EXTRA,
            text=extra.name,
            quantity=quantity,
            unit_amount=extra.amount,
            tax_class=extra.tax_class,
            extra=extra,
        )


def _surcharge(surcharge: Surcharge, quantity: int) -> OrderLine:
    kind = LineKind(surcharge.kind)
    return OrderLine(
        kind=kind,
        text=str(kind.label),
        quantity=quantity,
        unit_amount=surcharge.amount,
        tax_class=surcharge.tax_class,
    )


def _taken_off(lines: Sequence[OrderLine], discount: Discount) -> Iterator[OrderLine]:
    """A discount counts for everything that is sold, extras, sitters and travel too: one line for each tax class.

    A negative quantity, for a price is never negative (EN 16931, BR-27).
    """
    grosses: dict[int, int] = {}
    for line in lines:
        grosses[line.tax_class_id] = grosses.get(line.tax_class_id, 0) + line.quantity * line.unit_amount
    classes = {line.tax_class_id: line.tax_class for line in lines}
    parts = discount.rule().parts(list(grosses.values()))
    for tax_class_id, part in zip(grosses, parts, strict=True):
        if part:
            yield OrderLine(
                kind=LineKind.DISCOUNT,
                text=discount.text,
                quantity=-1,
                unit_amount=part,
                tax_class=classes[tax_class_id],
                discount=discount,
            )


def quote_lines(*, lines: Sequence[OrderLine], currency: str, terms: Terms) -> Quote:
    """What these lines cost, what is asked for now and what later."""
    return quote([line.as_priced() for line in lines], currency, terms.deposit_rule())


def quote_of(order: Order) -> Quote:
    """What an order costs by the prices and terms it was made with."""
    return quote(order.priced_lines(), order.currency, order.terms.deposit_rule())
