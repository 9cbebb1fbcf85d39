"""The payment ledger. Money that came is always kept; only then is it seen what it pays for."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.db.models import Exists, OuterRef
from django.utils.translation import gettext as _

from bookings.common import formats
from bookings.errors import NotPlaced, ReferenceTaken, TooMuchBack
from bookings.orders.models import Order, Sitting
from bookings.orders.selectors.account import account
from bookings.outbox import services as outbox
from bookings.outbox.models import NoticeKind
from bookings.payments.models import Method, Payment
from plates.errors import BenchFull, JobReleased, StartPassed
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import foreseeing

SAME_PAYMENT = ("order_id", "for_voucher_id", "with_voucher_id", "amount", "method")


def record(
    *,
    order_id: int,
    amount: int,
    method: Method,
    reference: str,
    now: datetime,
    recorded_by: User | None = None,
    note: str = "",
) -> Payment:
    """Enter money for an order, then confirm its sitting if the deposit is covered.

    `amount` is in minor units, negative for a refund. The same reference with the same amount is the same payment;
    with another it is ReferenceTaken. TooMuchBack for more than was paid; NotPlaced while nobody has put a name to it.
    """
    payment = _enter(
        order_id,
        Payment(
            amount=amount,
            method=method,
            reference=reference,
            at=now,
            recorded_by=recorded_by,
            note=note,
        ),
    )
    # In a transaction of its own: a place that is gone must not take the record of the money with it.
    confirm_if_covered(order_id=order_id, now=now)
    return payment


def confirm_if_covered(*, order_id: int, now: datetime) -> bool:
    """Confirm the sitting of an order whose deposit is covered; flag it when its place is gone. Safe twice."""
    try:
        return _confirm(order_id=order_id, now=now)
    except (BenchFull, JobReleased, StartPassed):
        _needs_new_time(order_id, now)
        return False


@foreseeing
@transaction.atomic
def _confirm(*, order_id: int, now: datetime) -> bool:
    order, sitting = _locked(order_id)
    if order.placed_at is None or order.cancelled_at is not None or account(order).deposit_owed:
        return False
    bench.confirm(job_id=sitting.bench_job_id, now=now)
    if order.needs_new_time:
        order.needs_new_time = False
        order.save(update_fields=["needs_new_time"])
    outbox.queue(order=order, kind=NoticeKind.CONFIRMED, sequence=sitting.calendar_sequence, due_at=now)
    return True


def confirm_covered(*, now: datetime) -> int:
    """Confirm every paid sitting that a crash or a lapse left unconfirmed; return how many were."""
    # Only orders that money came for: this is asked every few seconds, and each answer takes the day's lock.
    waiting = Order.objects.open().filter(
        Exists(Payment.objects.filter(order=OuterRef("pk"))),
        needs_new_time=False,
        sitting__bench_job__confirmed_at__isnull=True,
    )
    return sum(
        confirm_if_covered(order_id=order_id, now=now) for order_id in waiting.values_list("pk", flat=True)
    )


@transaction.atomic
def _enter(order_id: int, payment: Payment) -> Payment:
    """Save the payment, or return the one that was entered under its reference before."""
    payment.order = lock_payable(order_id=order_id)
    return enter_once(payment=payment)


def lock_payable(*, order_id: int) -> Order:
    """The order, locked so that its payments wait for each other; NotPlaced when nobody has put a name to it."""
    order = Order.objects.locked(order_id)
    if order.placed_at is None:
        raise NotPlaced(_("Nobody has put a name to this order yet, so it cannot take a payment."))
    return order


def enter_once(*, payment: Payment) -> Payment:
    """Add to the ledger, or return what was entered under that reference before.

    ReferenceTaken if it differs; TooMuchBack for more than was paid for the order.

    Called while the order or the voucher that it is for is locked.
    """
    if before := Payment.objects.filter(reference=payment.reference).first():
        if any(getattr(before, fact) != getattr(payment, fact) for fact in SAME_PAYMENT):
            raise _reference_taken(payment.reference)
        return before
    # What the card service gave back has gone already: it is entered, and whoever tells of it says so.
    if payment.amount < 0 and payment.order is not None and payment.method != Method.CARD:
        _refuse_too_much_back(payment.order, payment)
    payment.full_clean(validate_unique=False)
    try:
        with transaction.atomic():
            payment.save()
    except IntegrityError as error:
        # Another one was given this reference at the same moment; payments for the same thing wait for its lock.
        raise _reference_taken(payment.reference) from error
    return payment


def _refuse_too_much_back(order: Order, payment: Payment) -> None:
    """TooMuchBack when more would go back than came in; the order is locked, so no other refund comes between."""
    paid = account(order).paid
    if paid + payment.amount < 0:
        asked = formats.amount(-payment.amount, order.currency)
        there = formats.amount(max(0, paid), order.currency)
        raise TooMuchBack(
            _("{asked} is more than was paid for this order: {there} at most can be given back.").format(
                asked=asked, there=there
            )
        )


def _reference_taken(reference: str) -> ReferenceTaken:
    return ReferenceTaken(
        _(
            "The ledger already holds a different payment under {reference!r}. Check it, or use another reference."
        ).format(reference=reference)
    )


@transaction.atomic
def _needs_new_time(order_id: int, now: datetime) -> None:
    order, sitting = _locked(order_id)
    if order.cancelled_at is not None or sitting.bench_job.confirmed_at is not None:
        return
    if not order.needs_new_time:
        order.needs_new_time = True
        order.save(update_fields=["needs_new_time"])
    outbox.queue(order=order, kind=NoticeKind.NEW_TIME, due_at=now)


def _locked(order_id: int) -> tuple[Order, Sitting]:
    """The order with its sitting, locked after the day of its place, as everywhere."""
    bench.lock_day(Sitting.objects.values_list("bench_job__day_id", flat=True).get(order_id=order_id))
    order = Order.objects.select_related("terms").locked(order_id)
    return order, Sitting.objects.select_related("bench_job").get(order_id=order_id)
