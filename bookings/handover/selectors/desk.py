"""Who waits for plates, whose code that is, and what has left the house."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Count, Exists, OuterRef, Q, QuerySet, Subquery

from bookings.common.codes import plain_code
from bookings.handover.models import Handover, NamedPerson
from bookings.orders.models import Order, OrderLine
from bookings.orders.selectors.account import Account, account
from bookings.outbox.models import Notice, NoticeKind
from bookings.pricing.models import ExtraKind
from plates.bench.models import Plate, PlateSlot, Stage

LONGEST_CODE = 40


@dataclass(frozen=True, slots=True)
class ReadyOrder:
    """An order with plates that are ready: how many, what is owed, and since when its client knows."""

    order: Order
    plates: int
    account: Account
    told_at: datetime | None
    overdue: bool


@dataclass(frozen=True, slots=True)
class Desk:
    """What lies at the desk: to be collected, to be posted, and what was not collected in the agreed time."""

    to_collect: list[ReadyOrder]
    to_post: list[ReadyOrder]
    uncollected: list[ReadyOrder]


@dataclass(frozen=True, slots=True)
class Given:
    """A handover that holds: the numbers of its plates, those taken back left out."""

    handover: Handover
    numbers: list[int]


def by_code(typed: str) -> Order | None:
    """The order whose code that is."""
    code = plain_code(typed)
    return Order.objects.filter(pickup_code=code).first() if code else None


def named_person(order: Order) -> NamedPerson | None:
    """Who else may collect the plates, as the client has said."""
    return order.named_people.filter(taken_back_at=None).first()


def may_name(order: Order) -> bool:
    """Whether somebody else can still be named: the order holds, and a plate of it has not left the house."""
    slots = order.sitting.bench_job.slots.filter(given_up_at=None)
    gone = slots.filter(plates__stage=Stage.HANDED_OVER)
    return order.cancelled_at is None and slots.count() > gone.count()


def ready_plates(order: Order) -> list[Plate]:
    """The plates of an order that are ready and still here, by number."""
    found = Plate.objects.filter(slot__job=order.sitting.bench_job_id, stage=Stage.READY)
    return list(found.select_related("size").order_by("number"))


def goes_by_post(order: Order) -> bool:
    """Whether the client has the plates sent."""
    return order.lines.filter(extra__kind=ExtraKind.POST).exists()


def handed(order: Order) -> list[Given]:
    """What was handed over of an order, oldest first."""
    found = order.handovers.select_related("receipt", "operator", "parcel").prefetch_related(
        "plates__event__plate", "plates__event__undone_by"
    )
    given = [Given(each, _numbers(each)) for each in found]
    return [each for each in given if each.numbers]


def desk(*, now: datetime) -> Desk:
    """Every order with plates that are ready, who was told first on top."""
    ready = Q(sitting__bench_job__slots__plates__stage=Stage.READY)
    plates = Count("sitting__bench_job__slots__plates", filter=ready, distinct=True)
    orders = with_ready_plates().annotate(plates=plates).prefetch_related("lines", "payments")
    rows = sorted(
        (_ready_order(order, order.plates, now) for order in orders),
        key=lambda row: (row.told_at is None, row.told_at, row.order.pk),
    )
    by_post = set(_posted_orders().values_list("pk", flat=True))
    at_desk = [row for row in rows if row.order.pk not in by_post]
    return Desk(
        to_collect=[row for row in at_desk if not row.overdue],
        to_post=[row for row in rows if row.order.pk in by_post],
        uncollected=[row for row in at_desk if row.overdue],
    )


def not_reminded(*, now: datetime) -> list[Order]:
    """Orders whose plates were not collected in the agreed time, and whose client was not reminded."""
    reminded = Notice.objects.filter(order=OuterRef("pk"), kind=NoticeKind.NOT_COLLECTED)
    orders = with_ready_plates().filter(~Exists(reminded)).exclude(pk__in=_posted_orders())
    return [order for order in orders if _is_overdue(order, _notified_at(order), now)]


def with_ready_plates() -> QuerySet[Order]:
    """Orders that hold, with a plate that is ready and still here; `told_at` is when the letter of it went out."""
    here = Plate.objects.filter(slot__job=OuterRef("sitting__bench_job"), stage=Stage.READY)
    told = Notice.objects.filter(order=OuterRef("pk"), kind=NoticeKind.READY, sent_at__isnull=False)
    orders = Order.objects.open().filter(Exists(here))
    return orders.select_related("client", "terms", "sitting").annotate(
        told_at=Subquery(told.order_by("sent_at").values("sent_at")[:1])
    )


def _ready_order(order: Order, plates: int, now: datetime) -> ReadyOrder:
    told_at = _notified_at(order)
    return ReadyOrder(order, plates, account(order), told_at, _is_overdue(order, told_at, now))


def _notified_at(order: Order) -> datetime | None:
    told: datetime | None = getattr(order, "told_at", None)
    return told


def _is_overdue(order: Order, told_at: datetime | None, now: datetime) -> bool:
    return told_at is not None and now >= told_at + timedelta(days=order.terms.kept_days)


def _posted_orders() -> QuerySet[Order]:
    return Order.objects.filter(
        pk__in=OrderLine.objects.filter(extra__kind=ExtraKind.POST).values("order_id")
    )


def _numbers(handover: Handover) -> list[int]:
    """The numbers of its plates whose event was not taken back."""
    events = [each.event for each in handover.plates.all()]
    return sorted(event.plate.number for event in events if not hasattr(event, "undone_by"))


def ready_untold() -> list[Order]:
    """Placed orders whose every promised plate is ready, some still here, and whose client was not told."""
    finished = Plate.objects.filter(slot=OuterRef("pk"), stage__in=[Stage.READY, Stage.HANDED_OVER])
    unfinished = PlateSlot.objects.filter(~Exists(finished), job=OuterRef("sitting__bench_job"))
    waiting = Plate.objects.filter(slot__job=OuterRef("sitting__bench_job"), stage=Stage.READY)
    orders = Order.objects.open().filter(~Exists(unfinished), Exists(waiting))
    return list(orders.exclude(notices__kind=NoticeKind.READY))
