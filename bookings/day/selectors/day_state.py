"""A short name for everything that the queue of a day shows, so that a screen can tell when it is out of date."""

from datetime import datetime
from hashlib import sha256

from django.db.models import OuterRef, Subquery

from bookings.diary.models import SittingDay
from bookings.orders.models import Sitting
from bookings.payments.models import Payment
from plates.bench.models import PlateEvent

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
