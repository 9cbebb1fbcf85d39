"""Another sitting without charge, for one that gave no plate fit to be handed over."""

from datetime import datetime

from django.db import transaction
from django.db.models import F

from bookings.changes.selectors import refuse_other_rule
from bookings.changes.services.sittings import open_order
from bookings.diary.models import SittingDay
from bookings.diary.selectors import refuse_dark
from bookings.handover.services import promises
from bookings.orders.models import OrderLine, Sitting
from bookings.outbox import services as outbox
from bookings.outbox.models import NoticeKind
from bookings.pricing.models import NoPlate
from plates.bench.models import BenchJob, PlateSlot
from plates.schedule.services import giving_up
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import foreseeing


@foreseeing
@transaction.atomic
def rebook(*, order_id: int, day_id: int, starts_at: datetime, now: datetime) -> Sitting:
    """Promise the same plates anew at another time, without charge, and write to the client.

    The job of the first try was begun and stays as it is, with its spoilt plates; the sitting and the order's lines
    go over to a new job. StillUnderWay, NotByTheTerms, OrderCancelled, BenchFull or NotInLight change nothing.
    """
    day = SittingDay.objects.select_related("venue", "bench_day").get(pk=day_id)
    sitting = Sitting.objects.get(order_id=order_id)
    bench.locked_job(job_id=sitting.bench_job_id, and_day=day.bench_day_id)
    order = open_order(order_id=order_id)
    refuse_other_rule(order=order, wanted=NoPlate.REBOOK)
    giving_up.give_up(job_id=sitting.bench_job_id, now=now)
    job = _promised_anew(sitting, day, starts_at, now)
    Sitting.objects.filter(pk=sitting.pk).update(
        day=day,
        bench_job=job,
        arrived_at=None,
        absent_at=None,
        sat_at=None,
        calendar_sequence=F("calendar_sequence") + 1,
    )
    promises.give(order_id=order_id, now=now)
    sitting.refresh_from_db()
    outbox.queue(order=order, kind=NoticeKind.CONFIRMED, sequence=sitting.calendar_sequence, due_at=now)
    return sitting


def _promised_anew(sitting: Sitting, day: SittingDay, starts_at: datetime, now: datetime) -> BenchJob:
    slots = list(PlateSlot.objects.filter(job=sitting.bench_job_id).select_related("size"))
    refuse_dark(day=day, starts_at=starts_at, plates=len(slots))
    job = bench.reserve(
        day_id=day.bench_day_id,
        starts_at=starts_at,
        sizes=[slot.size for slot in slots],
        held_until=starts_at,
        now=now,
    )
    for before, after in zip(slots, job.slots.all(), strict=True):
        OrderLine.objects.filter(slot=before).update(slot=after)
    return bench.confirm(job_id=job.pk, now=now)
