"""Whether a letter is still true when its time comes, and whom reminders reach."""

from collections.abc import Callable
from datetime import datetime

from bookings.handover.selectors.desk import ready_plates
from bookings.letters import unsubscribe as stop_links
from bookings.letters.selectors.reminders import in_the_wash
from bookings.orders.models import Client, Order
from bookings.orders.selectors.account import account
from bookings.outbox.models import REMINDERS, Notice, NoticeKind, ReminderStop
from bookings.vouchers.selectors import is_paid
from bookings.waitlist.selectors import State, state_of

Check = Callable[[Notice, Order, datetime], bool]


def still_valid(notice: Notice, *, now: datetime) -> bool:
    """Whether a letter may still go out: one that asks for what has come meanwhile would only worry its reader."""
    order = notice.order
    if order is None:
        return _without_an_order(notice, now)
    if order.client is not None and order.client.erased_at is not None:
        return False
    if notice.kind in (NoticeKind.CANCELLED, NoticeKind.INVOICE):
        return True
    if notice.kind == NoticeKind.STEP_UP:
        link = notice.step_up
        return link is not None and link.used_at is None and link.runs_out_at > now
    if order.cancelled_at is not None or (notice.kind in REMINDERS and stopped_at(order) is not None):
        return False
    asked = VALID_WHILE.get(NoticeKind(notice.kind))
    return asked is None or asked(notice, order, now)


def _without_an_order(notice: Notice, now: datetime) -> bool:
    """Whether a letter about a voucher, or to somebody on a waiting list, may still go out."""
    if notice.waiting is None:
        return notice.voucher is None or bool(notice.voucher.buyer_email and is_paid(notice.voucher))
    wanted = State.OFFERED if notice.kind == NoticeKind.OFFER else State.WAITS
    return state_of(notice.waiting, now=now) == wanted


def stopped_at(order: Order) -> datetime | None:
    """When the client of an order stopped reminders to their address; None while they want them."""
    if order.client is None or not order.client.email:
        return None
    digests = stop_links.digests(order.client.email)
    return ReminderStop.objects.filter(digest__in=digests).values_list("at", flat=True).first()


def consents_given(client: Client) -> list[str]:
    """What a client allowed and has not taken back, in the words that were asked."""
    newest = {consent.purpose: consent for consent in client.consents.order_by("pk")}
    return [consent.wording for consent in newest.values() if consent.given]


def tells_current_time(notice: Notice, order: Order) -> bool:
    """Whether a letter tells of the sitting as it is promised now, and not as it was before it was moved."""
    return notice.sequence == order.sitting.calendar_sequence


def _not_overtaken(notice: Notice, order: Order, now: datetime) -> bool:
    """A confirmation is overtaken by that of the next change; what it would say is said there."""
    return notice.sequence is None or notice.sequence >= order.sitting.calendar_sequence


def _tells_later_start(notice: Notice, order: Order, now: datetime) -> bool:
    return notice.expected_at == order.sitting.bench_job.expected_at


def _still_to_come(notice: Notice, order: Order, now: datetime) -> bool:
    job = order.sitting.bench_job
    ahead = job.starts_at > now and job.begun_at is None and job.confirmed_at is not None
    return ahead and tells_current_time(notice, order)


def _deposit_missing(notice: Notice, order: Order, now: datetime) -> bool:
    job = order.sitting.bench_job
    waits = job.confirmed_at is None and job.released_at is None and job.held_until > now
    return waits and tells_current_time(notice, order) and bool(account(order).deposit_owed)


def _has_consents(notice: Notice, order: Order, now: datetime) -> bool:
    return order.client is not None and bool(consents_given(order.client))


VALID_WHILE: dict[NoticeKind, Check] = {
    NoticeKind.DEPOSIT_DUE: lambda notice, order, now: bool(account(order).deposit_owed),
    NoticeKind.CONFIRMED: _not_overtaken,
    NoticeKind.LATER: _tells_later_start,
    NoticeKind.NEW_TIME: lambda notice, order, now: order.needs_new_time,
    NoticeKind.DAY_BEFORE: _still_to_come,
    NoticeKind.DEPOSIT_MISSING: _deposit_missing,
    NoticeKind.IN_WASH: lambda notice, order, now: in_the_wash().filter(pk=order.pk).exists(),
    NoticeKind.NOT_COLLECTED: lambda notice, order, now: bool(ready_plates(order)),
    NoticeKind.CONSENT_REVIEW: _has_consents,
}
