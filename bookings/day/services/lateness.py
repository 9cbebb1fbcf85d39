"""A day that runs late: its times worked out again, and its sitters told when they will begin."""

from collections.abc import Collection
from datetime import datetime

from django.contrib.auth.models import User
from django.db import models, transaction
from django.utils.translation import gettext as _

from bookings.diary.models import SittingDay
from bookings.errors import NothingToTell
from bookings.orders.models import Sitting
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind
from plates.bench.models import BenchJob, Plate
from plates.ledger.services import events as ledger
from plates.schedule.services import late


def expect_anew(*, day_id: int, now: datetime) -> late.NewTimes:
    """Work the times of a day out again, without the sitters who did not come. TimesUnknown when that cannot be."""
    day = SittingDay.objects.get(pk=day_id)
    return late.expect_anew(day_id=day.bench_day_id, now=now, absent=_absent(day))


def catch_up(*, now: datetime) -> int:
    """Bring the times of every day under way up to what was pressed or marked; return how many were worked out."""
    days = SittingDay.objects.filter(bench_day__opens_at__lte=now, bench_day__racks_empty_by__gt=now)
    return sum(
        late.catch_up(day_id=day.bench_day_id, now=now, absent=_absent(day)) for day in days.order_by("pk")
    )


def spoil(*, plate_id: int, reason: str, note: str, operator: User | None, now: datetime) -> Plate:
    """Give a plate up and, while its day is at work, work out at once when the others can be expected."""
    plate = ledger.spoil(plate_id=plate_id, reason=reason, note=note, operator=operator, now=now)
    expect_while_at_work(day=SittingDay.objects.get(bench_day__jobs__slots__plates=plate), now=now)
    return plate


def expect_while_at_work(*, day: SittingDay, now: datetime) -> None:
    """Work the times out again if the day is under way; where none can be found, nothing changes."""
    late.expect_while_at_work(day=day.bench_day, now=now, absent=_absent(day))


@transaction.atomic
def notify(*, sitting_id: int, now: datetime) -> Notice:
    """Write to a sitter when the sitting will begin. The time of the newest letter is not written again.

    NothingToTell when the sitting is in time, has begun, or nobody waits for it.
    """
    found = _later_sittings(now).select_related("order", "bench_job")
    sitting = found.filter(pk=sitting_id).first()
    if sitting is None:
        raise NothingToTell(_("This sitting is not expected to begin later, so there is nothing to tell."))
    expected_at = sitting.bench_job.expected_at
    letters = Notice.objects.filter(order=sitting.order, kind=NoticeKind.LATER).order_by("id")
    newest = letters.filter(withdrawn_at=None).last()
    if newest is not None and newest.expected_at == expected_at:
        return newest
    return outbox.queue(
        order=sitting.order,
        kind=NoticeKind.LATER,
        occasion=f"letter {letters.count() + 1}",
        expected_at=expected_at,
        due_at=now,
    )


def notify_all(*, day_id: int, now: datetime) -> int:
    """Write to every later sitter of a day; return how many letters now tell the present times."""
    ids = list(_later_sittings(now).filter(day_id=day_id).values_list("pk", flat=True))
    return len({notify(sitting_id=sitting_id, now=now).pk for sitting_id in ids})


def _later_sittings(now: datetime) -> models.QuerySet[Sitting]:
    """Those that the page of a late day shows: they hold their place at `now`, and will begin later."""
    promised = BenchJob.objects.promised(now).filter(expected_at__isnull=False)
    return Sitting.objects.not_begun().filter(bench_job__in=promised)


def _absent(day: SittingDay) -> Collection[int]:
    """The bench jobs of those who did not come."""
    return set(day.sittings.filter(absent_at__isnull=False).values_list("bench_job_id", flat=True))
