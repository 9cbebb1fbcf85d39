"""Which letters become due by time alone. They are found by the state of the rows, so a missed look loses none."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Exists, OuterRef, QuerySet

from bookings.orders.models import Consent, Order
from bookings.outbox.models import Notice, NoticeKind
from bookings.studio.models import Studio
from plates.bench.models import Plate, PlateSlot, Stage

DAY = timedelta(hours=24)
BEFORE_A_HOLD_ENDS = timedelta(hours=12)
WASHED = (Stage.WASHING, Stage.DRYING)
PAST_FIXING = (*WASHED, Stage.VARNISHED, Stage.READY, Stage.HANDED_OVER)


@dataclass(frozen=True, slots=True)
class Reminder:
    """A letter that nobody has queued yet.

    One about the time of the sitting goes out once for its calendar `sequence`, any other once for its `occasion`.
    """

    order: Order
    kind: NoticeKind
    occasion: str
    sequence: int | None


def due(*, now: datetime) -> list[Reminder]:
    """Every letter that became due by now. Two queries where there is none, one more for each kind that there is."""
    studio = Studio.objects.first()
    if studio is None:
        return []
    kinds = {
        NoticeKind.DAY_BEFORE: a_day_before(now),
        NoticeKind.DEPOSIT_MISSING: deposit_missing(now),
        NoticeKind.IN_WASH: in_the_wash().filter(~_notified(NoticeKind.IN_WASH, withdrawn_at=None)),
        NoticeKind.CONSENT_REVIEW: to_be_asked_again(now, studio.consent_months),
    }
    there = Studio.objects.values_list(*(Exists(orders) for orders in kinds.values())).first() or ()
    return [
        _reminder(order, kind)
        for (kind, orders), any_ in zip(kinds.items(), there, strict=True)
        if any_
        for order in orders.select_related("sitting").order_by("pk")
    ]


def a_day_before(now: datetime) -> QuerySet[Order]:
    """Promised sittings of the next 24 hours; whoever was told of the time within that day needs no reminding."""
    job = "sitting__bench_job__"
    told_lately = Notice.objects.filter(
        order=OuterRef("pk"), kind=NoticeKind.CONFIRMED, due_at__gt=OuterRef(f"{job}starts_at") - DAY
    )
    return _unnotified(NoticeKind.DAY_BEFORE).filter(
        ~Exists(told_lately),
        **{f"{job}starts_at__gt": now, f"{job}starts_at__lte": now + DAY},
        **{f"{job}confirmed_at__isnull": False, f"{job}begun_at": None, f"{job}released_at": None},
    )


def deposit_missing(now: datetime) -> QuerySet[Order]:
    """Held places that run out within 12 hours, of clients who were last asked for the deposit before that time."""
    job = "sitting__bench_job__"
    asked_lately = Notice.objects.filter(
        order=OuterRef("pk"), kind=NoticeKind.DEPOSIT_DUE, due_at__gt=now - BEFORE_A_HOLD_ENDS
    )
    return _unnotified(NoticeKind.DEPOSIT_MISSING).filter(
        ~Exists(asked_lately),
        needs_new_time=False,
        **{f"{job}held_until__gt": now, f"{job}held_until__lte": now + BEFORE_A_HOLD_ENDS},
        **{f"{job}confirmed_at": None, f"{job}released_at": None},
    )


def in_the_wash() -> QuerySet[Order]:
    """Orders whose last plate is in the wash or on the rack, before its client was told that they are ready."""
    job = OuterRef("sitting__bench_job")
    made = Plate.objects.filter(slot=OuterRef("pk"), stage__in=PAST_FIXING)
    unmade = PlateSlot.objects.filter(~Exists(made), job=job)
    washing = Plate.objects.filter(slot__job=job, stage__in=WASHED)
    ready = _notified(NoticeKind.READY)
    return _reachable().filter(Exists(washing), ~Exists(unmade), ~ready)


def to_be_asked_again(now: datetime, months: int | None) -> QuerySet[Order]:
    """Orders handed over so many months ago, of clients whose yes to a question is at least as old."""
    if months is None:
        return Order.objects.none()
    then = months_before(now, months)
    newer = Consent.objects.filter(
        client=OuterRef("client"), purpose=OuterRef("purpose"), pk__gt=OuterRef("pk")
    )
    yes = Consent.objects.filter(~Exists(newer), client=OuterRef("client"), given=True, at__lte=then)
    gone = Plate.objects.filter(slot=OuterRef("pk"), stage=Stage.HANDED_OVER, stage_at__lte=then)
    job = OuterRef("sitting__bench_job")
    slots = PlateSlot.objects.filter(job=job)
    orders = _reachable().filter(~_notified(NoticeKind.CONSENT_REVIEW))
    return orders.filter(Exists(yes), Exists(slots), ~Exists(slots.filter(~Exists(gone))))


def months_before(now: datetime, months: int) -> datetime:
    """The same day and time so many months ago, or the last day of a month too short for it."""
    years, month = divmod(now.month - 1 - months, 12)
    year = now.year + years
    return now.replace(year=year, month=month + 1, day=min(now.day, monthrange(year, month + 1)[1]))


def _reachable() -> QuerySet[Order]:
    """Placed orders that stand, of clients who can be written to."""
    placed = Order.objects.open().filter(client__erased_at=None)
    return placed.exclude(client__email="")


def _unnotified(kind: NoticeKind) -> QuerySet[Order]:
    """Those not told yet of the sitting as it is promised now; a moved one is told anew."""
    return _reachable().filter(~_notified(kind, sequence=OuterRef("sitting__calendar_sequence")))


def _notified(kind: NoticeKind, **which: object) -> Exists:
    return Exists(Notice.objects.filter(order=OuterRef("pk"), kind=kind, **which))


def _reminder(order: Order, kind: NoticeKind) -> Reminder:
    if kind in (NoticeKind.DAY_BEFORE, NoticeKind.DEPOSIT_MISSING):
        return Reminder(order, kind, "", order.sitting.calendar_sequence)
    # One that was withdrawn, because a plate had to be made again, is followed by another.
    return Reminder(order, kind, str(order.notices.filter(kind=kind).count()), None)
