"""What an order costs, as a quote. Nothing here writes."""

from collections.abc import Sequence

from bookings.money import Quote, quote
from bookings.orders.models import Order, OrderLine
from bookings.pricing.models import Terms


def quote_lines(*, lines: Sequence[OrderLine], currency: str, terms: Terms) -> Quote:
    """What these lines cost, what is asked for now and what later."""
    return quote([line.as_priced() for line in lines], currency, terms.deposit_rule())


def quote_of(order: Order) -> Quote:
    """What an order costs by the prices and terms it was made with."""
    return quote(order.priced_lines(), order.currency, order.terms.deposit_rule())
