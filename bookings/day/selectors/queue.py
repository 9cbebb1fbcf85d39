"""The day's queue: who sits when, and where each plate is."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256

from django.db.models import OuterRef, Subquery

from bookings.common.formats import clock
from bookings.diary.models import SittingDay
from bookings.orders.models import Consent, ConsentPurpose, Order, Sitting
from bookings.orders.selectors.account import Account, account
from bookings.orders.selectors.plates import QueuePlate, _plate
from bookings.payments.models import Payment
from plates.bench import selectors as ledger
from plates.bench.models import BenchJob, PlateEvent, PlateSlot, Stage

# For so long a mark on a sitter can be undone.
REVERSIBLE_FOR = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class QueueRow:
    """One sitting of the day, its start on the venue's clock."""

    sitting: Sitting
    order: Order
    starts_at: datetime
    confirmed: bool
    lapsed: bool
    account: Account
    show_consent: bool
    plates: list[QueuePlate]
    minutes_late: int
    reversible: bool

    @property
    def attendance(self) -> str:
        """Where the sitter is: "sat", "arrived", "absent", or "expected"."""
        if self.sitting.sat_at is not None:
            return "sat"
        if self.sitting.arrived_at is not None:
            return "arrived"
        return "absent" if self.sitting.absent_at is not None else "expected"

    @property
    def label(self) -> str:
        """What the drawing of the day calls this sitting; a short bar shows only the first word."""
        return f"{clock(self.starts_at)} {self.order.client or self.order.reference}"

    @property
    def finished(self) -> bool:
        return all(plate.live is not None and plate.live.stage == Stage.HANDED_OVER for plate in self.plates)


def day_queue(*, day: SittingDay, now: datetime) -> list[QueueRow]:
    """The sittings that count on a day in promised order; the same few queries for any number of plates."""
    found = Sitting.objects.of_open_orders().filter(day=day)
    answers = Consent.objects.filter(client=OuterRef("order__client"), purpose=ConsentPurpose.SHOW)
    whole = (
        found.select_related("bench_job", "order__client", "order__terms")
        .prefetch_related("order__lines", "order__payments")
        .annotate(shown=Subquery(answers.order_by("-id").values("given")[:1]))
    )
    sittings = [sitting for sitting in whole if _expected(sitting.bench_job, now)]
    slots = ledger.slots_of(job_ids=[sitting.bench_job_id for sitting in sittings])
    return [
        _row(
            day,
            sitting,
            slots[sitting.bench_job_id],
            show_consent=bool(getattr(sitting, "shown", False)),
            now=now,
        )
        for sitting in sittings
    ]


def can_be_undone(sitting: Sitting, *, now: datetime) -> bool:
    """Whether the newest mark of a sitter can still be undone."""
    newest = newest_mark(sitting)
    return newest is not None and newest[1] <= now <= newest[1] + REVERSIBLE_FOR


def newest_mark(sitting: Sitting) -> tuple[str, datetime] | None:
    """The field of the newest mark with its time. Sitting comes after arriving, also at the same moment."""
    for name in ("absent_at", "sat_at", "arrived_at"):
        at: datetime | None = getattr(sitting, name)
        if at is not None:
            return name, at
    return None


def day_on(*, now: datetime) -> SittingDay | None:
    """The sitting day at hand: the one that is not over yet and opens soonest, else the last there was."""
    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    ahead = days.filter(bench_day__racks_empty_by__gt=now).order_by("bench_day__opens_at").first()
    return ahead or days.order_by("-bench_day__opens_at").first()


def _row(
    day: SittingDay, sitting: Sitting, slots: list[PlateSlot], *, show_consent: bool, now: datetime
) -> QueueRow:
    order = sitting.order
    return QueueRow(
        sitting=sitting,
        order=order,
        starts_at=day.local(sitting.bench_job.starts_at),
        confirmed=sitting.bench_job.confirmed_at is not None,
        lapsed=not sitting.bench_job.counts(now),
        account=account(order),
        show_consent=show_consent,
        minutes_late=max(0, (now - sitting.bench_job.starts_at) // timedelta(minutes=1)),
        reversible=can_be_undone(sitting, now=now),
        plates=[_plate(slot, day.bench_day, now) for slot in slots],
    )


def _expected(job: BenchJob, now: datetime) -> bool:
    """Whether the sitter may stand at the door: the place counts, or its time came before the deposit did."""
    unpaid = job.released_at is None and job.held_until == job.starts_at <= now
    return job.counts(now) or unpaid


SHOWN = (
    "pk", "arrived_at", "sat_at", "absent_at", "order__cancelled_at", "order__placed_at", "order__needs_new_time",
    "bench_job__starts_at", "bench_job__confirmed_at", "bench_job__held_until", "bench_job__begun_at",
    "bench_job__expected_at",
)  # fmt: skip


def day_state(*, day: SittingDay, now: datetime) -> str:
    """The same name as long as nothing has changed; another one every minute, for the clocks on the screen."""
    events = PlateEvent.objects.filter(plate__slot__job=OuterRef("bench_job")).order_by("-pk")
    payments = Payment.objects.filter(order=OuterRef("order")).order_by("-pk")
    newest = {
        "newest_event": Subquery(events.values("pk")[:1]),
        "newest_payment": Subquery(payments.values("pk")[:1]),
    }
    sittings = Sitting.objects.filter(day=day).order_by("pk")
    facts = (
        day.bench_day.version,
        list(sittings.annotate(**newest).values_list(*SHOWN, *newest)),
        now.replace(second=0, microsecond=0),
    )
    return sha256(repr(facts).encode()).hexdigest()[:20]
