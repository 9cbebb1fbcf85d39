"""When a day runs late: working its times out again, and telling those who will begin later."""

from collections.abc import Collection
from contextlib import suppress
from datetime import datetime

from django.contrib.auth.models import User
from django.db import models, transaction
from django.utils.translation import gettext as _

from bookings.day.occasions import later_occasion, told_time
from bookings.day.services import attendance as arrivals
from bookings.diary.models import SittingDay
from bookings.errors import NothingToTell
from bookings.orders.models import Sitting
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind
from plates.bench.models import Plate
from plates.errors import TimesUnknown
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
    _at_once(SittingDay.objects.get(bench_day__jobs__slots__plates=plate), now)
    return plate


def mark(*, sitting_id: int, as_: str, now: datetime) -> Sitting:
    """Mark a sitter; who is given up frees minutes at once, and who comes after all takes them again."""
    before = Sitting.objects.get(pk=sitting_id).absent_at
    sitting = arrivals.mark(sitting_id=sitting_id, as_=as_, now=now)
    if sitting.absent_at != before:
        _at_once(sitting.day, now)
    return sitting


def take_mark_back(*, sitting_id: int, now: datetime) -> Sitting:
    """Take the newest mark back; a sitter who is not given up after all takes minutes again."""
    before = Sitting.objects.get(pk=sitting_id).absent_at
    sitting = arrivals.take_back(sitting_id=sitting_id, now=now)
    if sitting.absent_at != before:
        _at_once(sitting.day, now)
    return sitting


@transaction.atomic
def tell(*, sitting_id: int, now: datetime) -> Notice:
    """Write to a sitter when the sitting will begin; the same time is told once, another one anew.

    NothingToTell when the sitting is in time, has begun, or nobody waits for it.
    """
    sitting = _later_ones().select_related("order", "bench_job").filter(pk=sitting_id).first()
    if sitting is None:
        raise NothingToTell(_("This sitting is not expected to begin later, so there is nothing to tell."))
    news = later_occasion(expected_at=sitting.bench_job.expected_at)
    told = Notice.objects.filter(order=sitting.order, kind=NoticeKind.LATER).order_by("id")
    newest = told.filter(withdrawn_at=None).last()
    if newest is not None and told_time(occasion=newest.occasion) == news:
        return newest
    # The same time once more, after another one was told meanwhile, is news.
    occasion = f"{news} {told.count() + 1}" if told.filter(occasion=news).exists() else news
    return outbox.queue(order=sitting.order, kind=NoticeKind.LATER, due_at=now, occasion=occasion)


def tell_all(*, day_id: int, now: datetime) -> int:
    """Tell every later sitter of a day; return how many letters now tell the present times."""
    ids = list(_later_ones().filter(day_id=day_id).values_list("pk", flat=True))
    return len({tell(sitting_id=sitting_id, now=now).pk for sitting_id in ids})


def _later_ones() -> models.QuerySet[Sitting]:
    return Sitting.objects.filter(
        absent_at__isnull=True,
        bench_job__expected_at__isnull=False,
        bench_job__begun_at__isnull=True,
        bench_job__released_at__isnull=True,
        order__cancelled_at__isnull=True,
        order__client__isnull=False,
    )


def _at_once(day: SittingDay, now: datetime) -> None:
    """Expect anew while the day is at work. What was pressed or marked stands also where no times can be found."""
    if day.bench_day.opens_at <= now < day.bench_day.racks_empty_by:
        with suppress(TimesUnknown):
            expect_anew(day_id=day.pk, now=now)


def _absent(day: SittingDay) -> Collection[int]:
    """The bench jobs of those who did not come."""
    return set(day.sittings.filter(absent_at__isnull=False).values_list("bench_job_id", flat=True))
