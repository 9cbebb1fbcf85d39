"""Cards paid online: a page to pay on is opened, and what came by it is given back.

What was paid is never learnt here, only from the card service's messages (`card_messages`).
No transaction is open while the card service is asked: it may take seconds.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.contrib.auth.models import User
from django.db.models import QuerySet
from django.utils.translation import gettext as _

from bookings.cards import gateway
from bookings.cards.models import CardCheckout, CardNotice, Outcome
from bookings.cards.selectors import Part, closed_pages, open_page, sum_of
from bookings.cards.services import polling as card_asking
from bookings.cards.services import webhooks as card_messages
from bookings.common import formats
from bookings.errors import CardRefused, NothingOwed, NotPlaced, OrderCancelled, VoucherRefused
from bookings.money import Money
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.vouchers.models import Voucher
from bookings.vouchers.selectors import facts_of

# The card service keeps a page open for half an hour at the least (its page on creating one; from memory).
OPEN_FOR = timedelta(minutes=40)
GRID = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class BackTo:
    """The full addresses that a payer comes back to, after paying and without."""

    paid: str
    left: str


def open_for_order(*, order_id: int, part: Part, back_to: BackTo, now: datetime) -> CardCheckout:
    """Have a page opened on which the deposit still owed, or everything, is paid by card.

    A page for the same sum that is open already is taken again. NotPlaced, OrderCancelled, NothingOwed, CardRefused
    or CardServiceAway changes nothing.
    """
    order = Order.objects.get(pk=order_id)
    if order.placed_at is None:
        raise NotPlaced(_("Nobody has put a name to this order yet, so it cannot be paid."))
    if order.cancelled_at is not None:
        raise OrderCancelled(_("This order was cancelled, so there is nothing to pay."))
    amount = sum_of(account(order), part)
    if not amount:
        raise NothingOwed(_("Nothing is left to pay here."))
    word = _("Deposit for sitting") if part == Part.DEPOSIT else _("Sitting")
    asked = _request(amount, order.currency, f"{word} {order.reference}", order.reference, back_to, now)
    return _opened(asked, CardCheckout.objects.filter(order=order), CardCheckout(order=order), now)


def open_for_voucher(*, voucher_id: int, back_to: BackTo, now: datetime) -> CardCheckout:
    """Have a page opened on which what a voucher still costs is paid by card.

    As for an order; VoucherRefused once it was taken back.
    """
    voucher = Voucher.objects.get(pk=voucher_id)
    facts = facts_of(voucher)
    if facts.withdrawn:
        raise VoucherRefused(_("This voucher was taken back, so there is nothing to pay."))
    if facts.owed <= 0:
        raise NothingOwed(_("Nothing is left to pay here."))
    reference = formats.voucher_reference(voucher.code)
    asked = _request(
        facts.owed,
        voucher.currency,
        _("Gift voucher {reference}").format(reference=reference),
        reference,
        back_to,
        now,
    )
    return _opened(asked, CardCheckout.objects.filter(voucher=voucher), CardCheckout(voucher=voucher), now)


def refund(*, page_id: int, amount: Money, key: UUID, given_by: User | None, now: datetime) -> Outcome:
    """Give back `amount` minor units of what came by one page to the card that paid, and enter it; once for a `key`.

    CardRefused for more than is left of it, or when the card service refuses; CardServiceAway changes nothing.
    """
    if CardNotice.objects.filter(event=gateway.answer_to(key=key)).exists():
        return Outcome.KNOWN
    page = CardCheckout.objects.get(pk=page_id)
    left = sum(each.left for each in CardCheckout.objects.filter(pk=page_id).received())
    if not 0 < amount <= left:
        raise CardRefused(
            _("At most {left} of this payment can be given back.").format(
                left=formats.amount(left, page.currency)
            )
        )
    answer = gateway.refund(
        money=page.money, session=page.session, amount=amount, currency=page.currency, key=key
    )
    return card_messages.ingest(message=answer, now=now, recorded_by=given_by)


def _request(
    amount: Money, currency: str, text: str, reference: str, back_to: BackTo, now: datetime
) -> gateway.CheckoutRequest:
    return gateway.CheckoutRequest(
        amount=amount,
        currency=currency,
        text=text,
        reference=reference,
        paid_address=back_to.paid,
        left_address=back_to.left,
        # On a grid, so that a form sent twice asks for the very same, which the card service answers with one page.
        open_until=now - (now - datetime.min.replace(tzinfo=now.tzinfo)) % GRID + OPEN_FOR,
    )


def _opened(
    asked: gateway.CheckoutRequest, pages: QuerySet[CardCheckout], page: CardCheckout, now: datetime
) -> CardCheckout:
    """The page for what is asked, of an order or voucher whose `pages` these are; `page` is a new row for it."""
    if before := open_page(pages, amount=asked.amount, currency=asked.currency, now=now):
        return before
    opened = gateway.open_checkout(asked=asked, turn=closed_pages(pages))
    facts = {
        "order": page.order,
        "voucher": page.voucher,
        "address": opened.address,
        "amount": asked.amount,
        "currency": asked.currency,
        "opened_at": now,
        "open_until": opened.open_until,
        "ask_at": opened.open_until + card_asking.GRACE,
    }
    return CardCheckout.objects.get_or_create(session=opened.session, defaults=facts)[0]
