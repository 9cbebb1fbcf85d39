"""The walk-up line: join, call, leave, strike off. Every change is made under the lock of the day's bench."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from uuid import UUID

from django.db import transaction
from django.db.models import Max, Q
from django.utils.translation import gettext as _

from bookings.diary.models import SittingDay
from bookings.diary.selectors import in_light
from bookings.errors import LineRefused, SubmissionChanged
from bookings.orders.selectors.lines import lines_for
from bookings.orders.wishes import Wish
from bookings.walkups.models import CALLING, LinePlace
from bookings.walkups.selectors import OPENS_BEFORE, REVERSIBLE_FOR
from plates.bench.models import BenchJob, PlateSize
from plates.schedule.services import jobs as bench
from plates.schedule.services import line as room
from plates.schedule.services.line import MayStart

# People come one by one to a stall; a machine that makes names up comes faster.
MOST_A_MINUTE = 6


@transaction.atomic
def open_or_close(*, day_id: int, keeps: bool) -> SittingDay:
    """Let people stand in line on a day, or take nobody else; who stands in it already stays."""
    day = SittingDay.objects.select_for_update(of=("self",)).get(pk=day_id)
    day.keeps_line = keeps
    day.save(update_fields=["keeps_line"])
    return day


@transaction.atomic
def join(
    *, day_id: int, key: UUID, name: str, size: PlateSize, now: datetime, at_desk: bool = False
) -> LinePlace:
    """Give somebody the next number, and room for one plate behind all others. The same key again is the same place.

    LineRefused when no line is kept now or too many join at once, NotForSale, and BenchFull when no plate of that
    size can be made any more.
    """
    day = _locked_day(day_id)
    if repeat := LinePlace.objects.filter(key=key).select_related("day__venue").first():
        if (repeat.day_id, repeat.size_id) != (day_id, size.pk):
            raise SubmissionChanged(_("This form was already sent with another wish. Open the page again."))
        return repeat
    _refuse_closed(day, now)
    lines_for(wish=Wish(sizes=[size]), on=day.bench_day.on, venue=day.venue)
    if not at_desk:
        _refuse_rush(day, now)
    job = _queue_up(day, size, now)
    facts = {"day": day, "key": key, "name": name, "size": size, "at_desk": at_desk, "joined_at": now}
    return LinePlace.objects.create(number=_next_number(day), agreed=str(CALLING), bench_job=job, **facts)


@transaction.atomic
def call(*, place_id: int, now: datetime) -> LinePlace:
    """Call somebody to the tent. From then on the place is no longer moved in the plan. Safe twice."""
    place = _locked(place_id)
    if place.ended:
        raise LineRefused(_("Nobody stands at this place in the line any more."))
    if place.called_at is None:
        _close_up(place.day, now)
        place.called_at = now
        place.save(update_fields=["called_at"])
    return place


@transaction.atomic
def leave(*, place_id: int, now: datetime) -> LinePlace:
    """Give the place up: the name is forgotten, and the others close up. Safe twice; not once it is an order."""
    place = _locked(place_id)
    if place.order_id is not None:
        raise LineRefused(
            _("You have come to the tent already. Tell the photographer what you would like to change.")
        )
    if place.left_at is None:
        if place.struck_at is None:
            bench.release(job_id=place.bench_job_id, now=now)
        place.left_at, place.struck_at, place.name = now, None, ""
        place.save(update_fields=["left_at", "struck_at", "name"])
        _close_up(place.day, now)
    return place


@transaction.atomic
def strike(*, place_id: int, now: datetime) -> LinePlace:
    """Strike off somebody who was called and did not come; the room is given back, the others close up. Safe twice."""
    place = _locked(place_id)
    if place.called_at is None:
        raise LineRefused(_("Call before striking anybody off."))
    if place.order_id is not None or place.left_at is not None:
        raise LineRefused(_("Nobody stands at this place in the line any more."))
    if place.struck_at is None:
        bench.release(job_id=place.bench_job_id, now=now)
        place.struck_at = now
        place.save(update_fields=["struck_at"])
        _close_up(place.day, now)
    return place


@transaction.atomic
def undo_strike(*, place_id: int, now: datetime) -> LinePlace:
    """Let somebody who was struck off a few minutes ago wait again, by the old number: that is ahead of the others.

    BenchFull when there is no room any more; LineRefused later, or for who was not struck off.
    """
    place = _locked(place_id)
    if place.struck_at is None:
        raise LineRefused(_("Nobody was struck off at this place."))
    if not place.struck_at <= now <= place.struck_at + REVERSIBLE_FOR:
        minutes = REVERSIBLE_FOR.seconds // 60
        raise LineRefused(
            _("Striking off can be taken back for {minutes} minutes; that time is over.").format(
                minutes=minutes
            )
        )
    place.bench_job = _queue_up(place.day, place.size, now)
    place.struck_at = place.called_at = None
    place.save(update_fields=["bench_job", "struck_at", "called_at"])
    _close_up(place.day, now)
    return place


def forget_names(*, now: datetime) -> int:
    """Forget the names of those who were struck off for good, and of all whose stall has closed; return how many."""
    over = Q(struck_at__lt=now - REVERSIBLE_FOR) | Q(day__bench_day__closes_at__lte=now)
    found = list(LinePlace.objects.filter(over).exclude(name="").values_list("pk", flat=True))
    # Asked every few seconds: mostly there is nothing to write, and then the rows are not locked either.
    return LinePlace.objects.filter(pk__in=found).update(name="") if found else 0


def _locked_day(day_id: int) -> SittingDay:
    days = SittingDay.objects.select_related("venue", "bench_day__bench")
    bench.lock_day(days.get(pk=day_id).bench_day_id)
    # Read again: it may have been changed while the lock was waited for.
    return days.get(pk=day_id)


def _locked(place_id: int) -> LinePlace:
    """The place with its day, read under the lock of the day."""
    day = _locked_day(LinePlace.objects.values_list("day_id", flat=True).get(pk=place_id))
    place = LinePlace.objects.select_related("size").get(pk=place_id)
    place.day = day
    return place


def _refuse_closed(day: SittingDay, now: datetime) -> None:
    if not day.keeps_line:
        raise LineRefused(_("No line is kept on this day."))
    if now < day.bench_day.opens_at - OPENS_BEFORE:
        raise LineRefused(_("The line is for the day itself. Come back when the stall is open."))
    if now >= day.bench_day.closes_at:
        raise LineRefused(_("The stall has closed for today."))


def _refuse_rush(day: SittingDay, now: datetime) -> None:
    lately = LinePlace.objects.filter(day=day, at_desk=False, joined_at__gt=now - timedelta(minutes=1))
    if lately.count() >= MOST_A_MINUTE:
        raise LineRefused(
            _("Many people are joining just now. Wait a minute and try again, or ask at the desk.")
        )


def _next_number(day: SittingDay) -> int:
    last: int | None = LinePlace.objects.filter(day=day).aggregate(last=Max("number"))["last"]
    return (last or 0) + 1


def _standing(day: SittingDay) -> Sequence[int]:
    """The jobs of those who wait to be called, first in line first."""
    waiting = LinePlace.objects.filter(day=day, called_at=None, left_at=None, struck_at=None, order=None)
    return list(waiting.order_by("number").values_list("bench_job_id", flat=True))


def _queue_up(day: SittingDay, size: PlateSize, now: datetime) -> BenchJob:
    return room.queue_up(
        day_id=day.bench_day_id, sizes=[size], line=_standing(day), may_start=_in_light(day), now=now
    )


def _close_up(day: SittingDay, now: datetime) -> None:
    room.close_up(day_id=day.bench_day_id, line=_standing(day), may_start=_in_light(day), now=now)


def _in_light(day: SittingDay) -> MayStart:
    return lambda starts_at: in_light(day, starts_at, 1)
