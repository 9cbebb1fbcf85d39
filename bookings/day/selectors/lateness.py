"""A day that runs late: who will begin later than promised, who knows of it, and what cannot be kept at all."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from django.db.models import Prefetch

from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay
from bookings.orders.models import Sitting
from bookings.outbox.models import Notice, NoticeKind
from plates.bench.models import BenchJob
from plates.capacity import SittingPlan

NEAREST = 3
DAYS_OFFERED = 3


@dataclass(frozen=True, slots=True)
class LaterSitting:
    """One sitting that will begin at `expected_at`; times on the venue's clock.

    told: the letter of this very time, if there is one. told_before: the time of the newest letter, where that is
    another. leaves_at, racked_at: after closing, after the racks are to be empty, else None. offers: free starts.
    """

    sitting: Sitting
    promised_at: datetime
    expected_at: datetime
    told: Notice | None
    told_before: datetime | None
    leaves_at: datetime | None
    racked_at: datetime | None
    offers: tuple[calendar.DayOpenings, ...] = ()

    @property
    def minutes(self) -> int:
        """How much later than promised."""
        return (self.expected_at - self.promised_at) // timedelta(minutes=1)

    @property
    def beyond(self) -> bool:
        """Whether it cannot be made within the hours of the day."""
        return self.leaves_at is not None or self.racked_at is not None


@dataclass(frozen=True, slots=True)
class Lateness:
    """The later sittings of a day in their new order; plates made again later; and who was told what is not true."""

    later: list[LaterSitting]
    retakes: list[BenchJob]
    in_time_again: list[tuple[Sitting, datetime]]


def lateness(*, day: SittingDay, now: datetime) -> Lateness:
    """What is known of the day as it was last worked out; `offers` are looked up where a promise cannot be kept."""
    sittings = [sitting for sitting in _ahead(day) if sitting.bench_job.counts(now)]
    later = [_later(day, sitting) for sitting in sittings if sitting.bench_job.expected_at is not None]
    told = [(sitting, _newest(sitting)) for sitting in sittings if sitting.bench_job.expected_at is None]
    retakes = BenchJob.objects.filter(
        day=day.bench_day_id, retake_of__isnull=False, expected_at__isnull=False, begun_at__isnull=True
    )
    return Lateness(
        later=sorted(_with_offers(later, day, now), key=lambda each: each.expected_at),
        retakes=list(retakes.select_related("retake_of").order_by("expected_at")),
        in_time_again=[
            (sitting, day.local(notice.expected_at))
            for sitting, notice in told
            if notice is not None and notice.sent_at is not None and notice.expected_at is not None
        ],
    )


def _ahead(day: SittingDay) -> Iterable[Sitting]:
    """The sittings of the day that have not begun and whose sitter has not been given up."""
    letters = Notice.objects.filter(kind=NoticeKind.LATER, withdrawn_at=None).order_by("id")
    found = Sitting.objects.not_begun().filter(day=day)
    return found.select_related("bench_job__day", "order__client").prefetch_related(
        Prefetch("order__notices", letters, to_attr="later_letters"), "bench_job__slots__size"
    )


def _later(day: SittingDay, sitting: Sitting) -> LaterSitting:
    job, bench = sitting.bench_job, day.bench_day.bench
    expected_at = job.expected_at or job.starts_at
    plan, newest = SittingPlan.from_json(job.plan), _newest(sitting)
    shift = expected_at - job.day.instant(plan.settle)
    leaves_at = job.day.instant(plan.farewell + bench.farewell) + shift
    racked_at = job.day.instant(max(plate.lift for plate in plan.plates) + bench.lift) + shift
    current = newest is not None and newest.expected_at == expected_at
    return LaterSitting(
        sitting=sitting,
        promised_at=day.local(job.starts_at),
        expected_at=day.local(expected_at),
        told=newest if current else None,
        told_before=day.local(newest.expected_at) if newest and newest.expected_at and not current else None,
        leaves_at=day.local(leaves_at) if leaves_at > job.day.closes_at else None,
        racked_at=day.local(racked_at) if racked_at > job.day.racks_empty_by else None,
    )


def _with_offers(late: list[LaterSitting], day: SittingDay, now: datetime) -> list[LaterSitting]:
    """Each with the nearest free starts where it waits long or goes beyond the hours; looked up once for each order."""
    days = calendar.open_days(now=now)[:DAYS_OFFERED]
    known: dict[tuple[int, ...], list[calendar.DayOpenings]] = {}
    found = []
    for each in late:
        if each.beyond or each.minutes > day.bench_day.bench.wait_limit:
            sizes = [slot.size for slot in each.sitting.bench_job.slots.all()]
            order = tuple(size.pk for size in sizes)
            if order not in known:
                known[order] = calendar.openings(days=days, sizes=sizes, now=now)
            found.append(replace(each, offers=_after(each.expected_at, known[order])))
        else:
            found.append(each)
    return found


def _after(
    expected_at: datetime, openings: Iterable[calendar.DayOpenings]
) -> tuple[calendar.DayOpenings, ...]:
    """The first starts of each day that come after the new time."""
    found = []
    for each in openings:
        starts = [start for start in each.starts if start > expected_at][:NEAREST]
        if starts:
            found.append(replace(each, starts=starts))
    return tuple(found)


def _newest(sitting: Sitting) -> Notice | None:
    letters: list[Notice] = getattr(sitting.order, "later_letters", [])
    return letters[-1] if letters else None
