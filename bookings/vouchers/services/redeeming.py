"""What a voucher pays: taken from it for an order, and given back to it. Each under the lock of order and voucher."""

from datetime import date, datetime, timedelta
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.common import formats
from bookings.common.codes import plain_code
from bookings.errors import OrderCancelled, TooManyCodes, UnknownCode, VoucherRefused
from bookings.money import Money, VoucherFacts, VoucherState, to_take, voucher_state
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from bookings.studio.selectors import the_studio
from bookings.vouchers.models import Voucher, WrongCode
from bookings.vouchers.selectors import facts_of, parts_of
from bookings.vouchers.services.selling import locked

MOST_WRONG_CODES = 10
WRONG_CODES_COUNT_FOR = timedelta(hours=1)


def redeem(
    *,
    order_id: int,
    code: str,
    key: UUID,
    now: datetime,
    amount: Money | None = None,
    recorded_by: User | None = None,
) -> Payment:
    """Pay for an order with a voucher, as much as it covers or just `amount`; then confirm what is covered.

    The same key again is the same payment. UnknownCode, or VoucherRefused with what is in the way.
    """
    payment = _redeemed(order_id, code, key, amount, now, recorded_by)
    # In a transaction of its own, as with other money: a place that is gone must not take the payment with it.
    payments.confirm_if_covered(order_id=order_id, now=now)
    return payment


def redeem_unaided(*, order_id: int, code: str, key: UUID, now: datetime) -> Payment:
    """The same for whoever is booking: codes that no voucher has are counted, and too many are refused for a while."""
    counted = WrongCode.objects.filter(order_id=order_id, at__gt=now - WRONG_CODES_COUNT_FOR)
    if counted.count() >= MOST_WRONG_CODES:
        raise TooManyCodes(
            _(
                "Too many codes that no voucher has were typed for this order. Wait an hour, or write to the studio."
            )
        )
    try:
        return redeem(order_id=order_id, code=code, key=key, now=now)
    except UnknownCode:
        WrongCode.objects.filter(at__lte=now - WRONG_CODES_COUNT_FOR).delete()
        WrongCode.objects.create(order_id=order_id, at=now)
        raise


@transaction.atomic
def refund(
    *,
    order_id: int,
    voucher_id: int,
    amount: Money,
    key: UUID,
    now: datetime,
    recorded_by: User | None = None,
) -> Payment:
    """Give money of an order back to the voucher that it came from. The same key again is the same entry.

    VoucherRefused for more than the voucher has paid of this order, and once it has run out.
    """
    order, voucher = payments.lock_payable(order_id=order_id), locked(voucher_id=voucher_id)
    reference = f"voucher back {key}"
    if not Payment.objects.filter(reference=reference).exists():
        _refuse_return(order, voucher, amount, now)
    return payments.enter_once(
        payment=_use(order, voucher, -amount, reference=reference, at=now, recorded_by=recorded_by)
    )


@transaction.atomic
def _redeemed(
    order_id: int, code: str, key: UUID, amount: Money | None, now: datetime, recorded_by: User | None
) -> Payment:
    order = payments.lock_payable(order_id=order_id)
    # The order first and then the voucher, as everywhere where both are locked.
    voucher_id = Voucher.objects.filter(code=plain_code(code)).values_list("pk", flat=True).first()
    if voucher_id is None:
        raise UnknownCode(_("No voucher has this code. Compare it with the one on the paper, sign by sign."))
    voucher = locked(voucher_id=voucher_id)
    reference = f"voucher {key}"
    if repeat := Payment.objects.filter(reference=reference, order=order, with_voucher=voucher).first():
        return repeat
    covered = _covered(order, voucher, now)
    if amount is not None and not 0 < amount <= covered:
        raise VoucherRefused(
            _("At most {covered} can be taken from this voucher now.").format(
                covered=_words(covered, voucher)
            )
        )
    return payments.enter_once(
        payment=_use(
            order, voucher, covered if amount is None else amount,
            reference=reference, at=now, recorded_by=recorded_by,
        )
    )  # fmt: skip


def _covered(order: Order, voucher: Voucher, now: datetime) -> Money:
    """What the voucher can pay of the order; VoucherRefused or OrderCancelled when that is nothing."""
    if order.cancelled_at is not None:
        raise OrderCancelled(_("This order was cancelled, so no voucher can pay for it."))
    if voucher.currency != order.currency:
        raise VoucherRefused(
            _("This voucher is in {currency} and cannot pay for an order in {currency_2}.").format(
                currency=voucher.currency, currency_2=order.currency
            )
        )
    facts, on = facts_of(voucher), _venue_day(order, now)
    _refuse_state(facts, on)
    covered = to_take(facts, account(order).owed, on)
    if not covered:
        raise VoucherRefused(
            _("Nothing is owed on this order any more, so nothing was taken from the voucher.")
        )
    return covered


def _refuse_state(facts: VoucherFacts, on: date) -> None:
    sentences = {
        VoucherState.UNPAID: _("This voucher has not been paid for in full yet, so it cannot be used."),
        VoucherState.USED_UP: _("Nothing is left on this voucher."),
        VoucherState.WITHDRAWN: _("The studio has taken this voucher back, so it cannot be used."),
    }
    if (state := voucher_state(facts, on)) in sentences:
        raise VoucherRefused(sentences[state])
    if state is VoucherState.RUN_OUT and facts.last_day is not None:
        raise VoucherRefused(_("This voucher ran out on {last_day}.").format(last_day=_date(facts.last_day)))


def _refuse_return(order: Order, voucher: Voucher, amount: Money, now: datetime) -> None:
    paid = {part.voucher.pk: part.paid for part in parts_of(order)}.get(voucher.pk, 0)
    if not 0 < amount <= paid:
        raise VoucherRefused(
            _(
                "This voucher has paid {paid} of this order. Give back that much or less, and more than nothing."
            ).format(paid=_words(paid, voucher))
        )
    if voucher.last_day is not None and _venue_day(order, now) > voucher.last_day:
        raise VoucherRefused(
            _(
                "This voucher ran out on {last_day}, so nobody could use what was given back to it. Give it back "
                "another way, or sell a new voucher for it."
            ).format(last_day=_date(voucher.last_day))
        )


def _use(order: Order, voucher: Voucher, amount: Money, **entry: object) -> Payment:
    return Payment(order=order, with_voucher=voucher, amount=amount, method=Method.VOUCHER, **entry)


def _venue_day(order: Order, now: datetime) -> date:
    """The date where the sitting is, by which a voucher runs out."""
    return order.sitting.day.local(now).date()


def _words(amount: Money, voucher: Voucher) -> str:
    return formats.amount(amount, voucher.currency, the_studio().locale)


def _date(day: date) -> str:
    return formats.long_date(day, the_studio().locale)
