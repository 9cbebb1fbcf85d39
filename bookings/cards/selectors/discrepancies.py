"""What does not add up about money that the card service told of, as sentences. Nothing here writes."""

from django.utils.translation import gettext as _

from bookings.cards.models import CardCheckout
from bookings.common import formats
from bookings.money import Money
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher
from bookings.vouchers.selectors import facts_of


def doubt(page: CardCheckout, payment: Payment) -> str:
    """Why somebody has to look at money that was entered, if anybody."""
    if payment.amount != page.amount:
        return _("{came} came where {asked} was asked. What came was entered.").format(
            came=in_words(payment.amount, page.currency), asked=in_words(page.amount, page.currency)
        )
    cancelled, over = _standing(page)
    if cancelled:
        return _("The money came for {cancelled}. It was entered, and is to be given back.").format(
            cancelled=cancelled
        )
    if over > 0:
        return _("{over} more came than was owed. It was entered, and is to be given back.").format(
            over=in_words(over, page.currency)
        )
    return ""


def _standing(page: CardCheckout) -> tuple[str, Money]:
    """What is off about the thing that was paid for, if anything, and how much too much came for it."""
    if page.order_id is not None:
        order = Order.objects.get(pk=page.order_id)
        return _("an order that was cancelled") if order.cancelled_at else "", account(order).overpaid
    facts = facts_of(Voucher.objects.get(card_checkouts=page))
    return _("a voucher that was taken back") if facts.withdrawn else "", -facts.owed


def too_far(page: CardCheckout) -> str:
    """What to say where more went back for an order than ever came; empty where all is well."""
    paid = account(Order.objects.get(pk=page.order_id)).paid if page.order_id is not None else 0
    if paid >= 0:
        return ""
    return _("{paid} more went back for this order than came. It was entered: ask for it.").format(
        paid=in_words(-paid, page.currency)
    )


def in_words(amount: Money | None, currency: str) -> str:
    """A sum of minor units as people write it."""
    return _("an unknown sum") if amount is None else formats.amount(amount, currency)
