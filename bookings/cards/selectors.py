"""What can be paid by card, which messages nobody has looked at yet, and what does not add up."""

from datetime import datetime, timedelta
from enum import StrEnum

from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from bookings.cards.events import Kind
from bookings.cards.models import OPEN, CardCheckout, CardNotice
from bookings.common import formats
from bookings.common.http import cards_are_on
from bookings.money import Money
from bookings.orders.models import Order
from bookings.orders.selectors.account import Account, account
from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher
from bookings.vouchers.selectors import facts_of

# Whoever is sent to a page that is open already needs time to find a card.
TIME_TO_PAY = timedelta(minutes=10)
# What a message can tell, marked for translation: its row keeps the word, and the page puts it into the language.
KINDS = (
    gettext_noop("paid"),
    gettext_noop("payment failed"),
    gettext_noop("page expired"),
    gettext_noop("money returned"),
    gettext_noop("return failed"),
    gettext_noop("disputed"),
    gettext_noop("other"),
)
CLOSING = (Kind.PAID, Kind.FAILED, Kind.EXPIRED)


class Part(StrEnum):
    """What of an order is paid at once."""

    DEPOSIT = "deposit"
    WHOLE = "whole"


def payable(money: Account) -> dict[Part, Money]:
    """The sums that a card can be asked for: none where cards are off or all is paid, one where both are the same."""
    if not cards_are_on():
        return {}
    sums = {part: sum_of(money, part) for part in Part}
    if sums[Part.DEPOSIT] == sums[Part.WHOLE]:
        del sums[Part.DEPOSIT]
    return {part: amount for part, amount in sums.items() if amount}


def sum_of(money: Account, part: Part) -> Money:
    """What a part of an order comes to now, in minor units; 0 when it is paid."""
    return money.deposit_owed if part == Part.DEPOSIT else max(0, money.owed)


def open_page(
    pages: QuerySet[CardCheckout], *, amount: Money, currency: str, now: datetime
) -> CardCheckout | None:
    """The one of `pages` on which just this sum can still be paid, as far as is known."""
    found = pages.filter(amount=amount, currency=currency, open_until__gt=now + TIME_TO_PAY)
    return found.exclude(session__in=_closed(pages)).last()


def closed_pages(pages: QuerySet[CardCheckout]) -> int:
    """How many of `pages` are known to be over."""
    return pages.filter(session__in=_closed(pages)).count()


def to_be_looked_at() -> QuerySet[CardNotice]:
    """The messages that nobody has looked at yet, oldest first."""
    notices = CardNotice.objects.filter(outcome__in=OPEN, looked_at__isnull=True)
    return notices.select_related("payment__order", "payment__for_voucher").order_by("received_at", "pk")


def _closed(pages: QuerySet[CardCheckout]) -> QuerySet[CardNotice, str]:
    sessions = CardNotice.objects.filter(session__in=pages.values("session"), kind__in=CLOSING)
    return sessions.values_list("session", flat=True)


def discrepancy(page: CardCheckout, payment: Payment) -> str:
    """Why somebody has to look at money that was entered, if anybody."""
    if payment.amount != page.amount:
        return _("{came} came where {asked} was asked. What came was entered.").format(
            came=amount_in_words(payment.amount, page.currency),
            asked=amount_in_words(page.amount, page.currency),
        )
    cancelled, over = _what_is_off(page)
    if cancelled:
        return _("The money came for {cancelled}. It was entered, and is to be given back.").format(
            cancelled=cancelled
        )
    if over > 0:
        return _("{over} more came than was owed. It was entered, and is to be given back.").format(
            over=amount_in_words(over, page.currency)
        )
    return ""


def _what_is_off(page: CardCheckout) -> tuple[str, Money]:
    """What is off about the thing that was paid for, if anything, and how much too much came for it."""
    if page.order_id is not None:
        order = Order.objects.get(pk=page.order_id)
        return _("an order that was cancelled") if order.cancelled_at else "", account(order).overpaid
    facts = facts_of(Voucher.objects.get(card_checkouts=page))
    return _("a voucher that was taken back") if facts.withdrawn else "", -facts.owed


def over_refunded(page: CardCheckout) -> str:
    """What to say where more went back for an order than ever came; empty where all is well."""
    paid = account(Order.objects.get(pk=page.order_id)).paid if page.order_id is not None else 0
    if paid >= 0:
        return ""
    return _("{paid} more went back for this order than came. It was entered: ask for it.").format(
        paid=amount_in_words(-paid, page.currency)
    )


def amount_in_words(amount: Money | None, currency: str) -> str:
    """A sum of minor units as people write it."""
    return _("an unknown sum") if amount is None else formats.amount(amount, currency)
