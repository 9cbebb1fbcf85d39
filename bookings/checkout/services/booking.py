"""From a wish to a placed order: hold a start time, take the client's details."""

from datetime import datetime, timedelta
from uuid import UUID

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.checkout.services import holds
from bookings.diary.models import SittingDay
from bookings.diary.selectors import refuse_dark
from bookings.errors import NotForSale, OrderCancelled, SubmissionChanged
from bookings.handover.services import pickup as pickup_codes
from bookings.handover.services import promises
from bookings.orders.models import Order, Sitting
from bookings.orders.selectors.account import account
from bookings.orders.selectors.lines import lines_for
from bookings.orders.services import discounts
from bookings.orders.services.placing import Details, enter_client, new_reference, save_lines
from bookings.orders.wishes import Wish
from bookings.outbox import services as outbox
from bookings.outbox.models import NoticeKind
from bookings.payments.services import ledger as payments
from bookings.pricing import selectors as prices
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import foreseeing

# Someone who pays on the next page is not also asked to by letter.
TIME_TO_PAY = timedelta(minutes=3)


ANOTHER_WISH = gettext_lazy("This form was already sent with another wish. Choose a time for this one again.")


@foreseeing
@transaction.atomic
def hold_sitting(
    *,
    submission_key: UUID,
    day_id: int,
    starts_at: datetime,
    wish: Wish,
    now: datetime,
    excluding_order: int | None = None,
) -> Order:
    """Hold a start time for an order that has no name yet; the same form sent twice holds it once.

    `excluding_order`: the id of an order whose place the same visitor holds and will give back for this one.
    Raises BenchFull, StartPassed, NotInLight, NotForSale, DiscountRefused, and SubmissionChanged when the key was used
    for another wish.
    """
    return hold_within(
        submission_key=submission_key,
        day_id=day_id,
        starts_at=starts_at,
        wish=wish,
        held_for=timedelta(minutes=the_studio().hold_minutes),
        now=now,
        excluding_order=excluding_order,
    )


def hold_within(
    *,
    submission_key: UUID,
    day_id: int,
    starts_at: datetime,
    wish: Wish,
    held_for: timedelta,
    now: datetime,
    excluding_order: int | None = None,
) -> Order:
    """The same for as long as is said, within the transaction of a service that tries again when BenchFull."""
    day = SittingDay.objects.select_related("venue", "bench_day").get(pk=day_id)
    # Locked before looking for a repeat: the second of two equal forms must see what the first one did.
    bench.lock_day(day.bench_day_id)
    asked = wish.fingerprint(day_id, starts_at)
    if repeat := Order.objects.filter(submission_key=submission_key).first():
        if repeat.asked != asked:
            raise SubmissionChanged(ANOTHER_WISH)
        return repeat
    if not day.published:
        raise NotForSale(_("This day is not open for booking. Choose another one."))
    refuse_dark(day=day, starts_at=starts_at, plates=len(wish.sizes))
    studio = the_studio()
    discount = discounts.claim(
        code=wish.code, on=day.local(now).date(), now=now, excluding_order=excluding_order
    )
    lines = lines_for(wish=wish, on=day.bench_day.on, venue=day.venue, discount=discount)
    job = bench.reserve(
        day_id=day.bench_day_id,
        starts_at=starts_at,
        sizes=wish.sizes,
        held_until=now + held_for,
        now=now,
    )
    order = _new_order(submission_key, asked, wish.sitters, day, studio, now)
    save_lines(order=order, lines=lines, job=job)
    Sitting.objects.create(order=order, day=day, bench_job=job)
    return order


@foreseeing
@transaction.atomic
def place_order(
    *, order_id: int, details: Details, now: datetime, another_start: datetime | None = None
) -> Order:
    """Put a name to a held order and keep its place until the deposit is due. Safe twice.

    BenchFull when the hold has lapsed and the place is gone; then `another_start` of the same day can be asked for.
    DiscountRefused when the hold has lapsed and others used the discount up meanwhile.
    """
    sitting = Sitting.objects.select_related("bench_job").get(order_id=order_id)
    bench.lock_day(sitting.bench_job.day_id)
    order = Order.objects.select_related("terms").locked(order_id)
    if order.cancelled_at is not None:
        raise OrderCancelled(_("This order was cancelled. Book a new sitting instead."))
    if order.placed_at is not None:
        return order
    discounts.lock_uses(order=order, now=now)
    if another_start is not None:
        refuse_dark(day=sitting.day, starts_at=another_start, plates=sitting.bench_job.slots.count())
        bench.move(
            job_id=sitting.bench_job_id, day_id=sitting.bench_job.day_id, starts_at=another_start, now=now
        )
    holds.until_deposit(job_id=sitting.bench_job_id, now=now)
    order.client = enter_client(details=details, now=now)
    order.placed_at = now
    order.save(update_fields=["client", "placed_at"])
    pickup_codes.give(order=order)
    order = promises.give(order_id=order.pk, now=now)
    sitting.cautions_read_at = now
    sitting.save(update_fields=["cautions_read_at"])
    if account(order).deposit_owed:
        outbox.queue(order=order, kind=NoticeKind.DEPOSIT_DUE, due_at=now + TIME_TO_PAY)
    else:
        payments.confirm_if_covered(order_id=order.pk, now=now)
    return order


@transaction.atomic
def drop_hold(*, order_id: int, now: datetime) -> None:
    """Give back a held place that nobody put a name to; an order that was placed is left alone."""
    sitting = Sitting.objects.select_related("bench_job").filter(order_id=order_id).first()
    if sitting is None:
        return
    # Locked before looking, as `place_order` does: a name may be put to it at this moment.
    bench.lock_day(sitting.bench_job.day_id)
    if Order.objects.filter(pk=order_id, placed_at=None).exists():
        bench.release(job_id=sitting.bench_job_id, now=now)


def _new_order(
    submission_key: UUID, asked: str, sitters: int, day: SittingDay, studio: Studio, now: datetime
) -> Order:
    facts = {
        "reference": new_reference(),
        "asked": asked,
        "terms": prices.current_terms(on=day.local(now).date(), venue=day.venue),
        "currency": studio.currency,
        "sitters": sitters,
        "started_at": now,
    }
    order, created = Order.objects.get_or_create(submission_key=submission_key, defaults=facts)
    if not created:
        # The same key at the same moment for another day, which has another lock.
        raise SubmissionChanged(ANOTHER_WISH)
    return order
