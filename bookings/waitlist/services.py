"""The waiting list: joining it, offering what became free in its order, leaving it."""

import logging
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from time import monotonic
from uuid import UUID, uuid4

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings.checkout.services import booking
from bookings.common import formats
from bookings.diary.models import SittingDay
from bookings.diary.selectors import openings
from bookings.errors import BookingsError, NotForSale, WaitingRefused
from bookings.orders.selectors.lines import lines_for
from bookings.orders.wishes import Wish
from bookings.outbox import services as outbox
from bookings.outbox.models import NoticeKind
from bookings.outbox.services import ring
from bookings.studio.selectors import the_studio
from bookings.waitlist import selectors as the_list
from bookings.waitlist import wishes as kept_wishes
from bookings.waitlist.models import Waiting
from bookings.waitlist.selectors import State, state_of
from plates.errors import PlatesError
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import foreseeing

MOST_WAITING = 60  # for one day
MOST_A_MINUTE = 6  # who types addresses of strangers must not be able to send many letters
# What is left over is taken up at the next drain; letters do not wait for it longer than this.
SECONDS_A_ROUND = 2.0
DAY = ("venue", "bench_day__bench__largest_size")
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Request:
    """Who asks for a place, and between which starts."""

    name: str
    email: str
    earliest: datetime
    latest: datetime


def join(*, key: UUID, day_id: int, wish: Wish, asked: Request, now: datetime) -> Waiting:
    """Put somebody on the list of a day and write so; the same form, or the same address, is there once.

    NotForSale for a day that is not open or a wish that cannot be had there; WaitingRefused while a place within those
    hours is free, when they are no hours of the day, or when too many ask.
    """
    same = the_list.with_orders().filter(key=key).first()
    if same is not None:
        return same
    _refuse(SittingDay.objects.select_related(*DAY).get(pk=day_id), wish, asked, now)
    return _join(key, day_id, wish, asked, now)


@transaction.atomic
def _join(key: UUID, day_id: int, wish: Wish, asked: Request, now: datetime) -> Waiting:
    day = _locked_day(day_id)
    same = the_list.with_orders().filter(key=key).first() or _fingerprint(day, asked.email, now)
    if same is not None:
        return same
    _refuse_crowd(day, now)
    place = Waiting.objects.create(
        key=key,
        day=day,
        name=asked.name,
        email=asked.email,
        wish=kept_wishes.dump(wish),
        earliest=asked.earliest,
        latest=asked.latest,
        asked_at=now,
    )
    outbox.queue_waiting(place=place, kind=NoticeKind.WAITING, due_at=now)
    return place


@transaction.atomic
def leave(*, place_id: int, now: datetime) -> Waiting:
    """Leave the list; what is offered goes to the next. Safe twice; an offer that was taken is an order of its own."""
    return _ended(place_id, "left_at", now)


@transaction.atomic
def strike(*, place_id: int, now: datetime) -> Waiting:
    """The studio takes somebody off the list; what is offered goes to the next. Safe twice."""
    return _ended(place_id, "struck_at", now)


def offer_freed(*, now: datetime, seconds: float = SECONDS_A_ROUND) -> int:
    """Offer what is free to those who wait, in their order; return how many offers were made.

    A day that stands as it did when nobody's wish fitted is not looked at again. Begins nothing new after `seconds`.
    """
    until = monotonic() + seconds
    waiting = list(the_list.still_waiting(now=now).select_related(*(f"day__{each}" for each in DAY)))
    days = {place.day_id: place.day for place in waiting}
    known = {day_id: the_list.fingerprint_of(day, now=now) for day_id, day in days.items()}
    offered = 0
    for place in waiting:
        if place.seen == known[place.day_id]:
            continue
        if monotonic() >= until:
            break
        offered += _offer_if_free(place, known[place.day_id], now)
    return offered


def forget(*, now: datetime) -> int:
    """Forget who waited, once the day is over or the offer has become an order; return how many were forgotten."""
    # Asked every few seconds: mostly there is nothing to write, and then the rows are not locked either.
    found = list(the_list.forgettable(now=now).values_list("pk", flat=True))
    return Waiting.objects.filter(pk__in=found).update(name="", email="") if found else 0


def erase(*, emails: Sequence[str], now: datetime) -> int:
    """Take everybody with these addresses off every list and forget them; return how many places that were."""
    places = list(the_list.kept_of(emails).values_list("pk", flat=True))
    for place_id in places:
        leave(place_id=place_id, now=now)
    return Waiting.objects.filter(pk__in=places).update(name="", email="")


def _offer_if_free(place: Waiting, standing: str, now: datetime) -> bool:
    """Offer the first start that fits, if there is one; note for which standing of the day there was none."""
    refused = ""
    try:
        wish = kept_wishes.load(place.wish)
        starts_at = the_list.first_free(place=place, wish=wish, now=now)
        if starts_at is not None:
            return _offer(place_id=place.pk, starts_at=starts_at, wish=wish, now=now) is not None
    except PlatesError:
        pass  # somebody was quicker: the day stands otherwise now, and is looked at again at the next drain
    except BookingsError as error:
        refused = str(error)[:300]
    Waiting.objects.filter(pk=place.pk).update(seen=standing, passed_over=refused)
    return False


@foreseeing
@transaction.atomic
def _offer(*, place_id: int, starts_at: datetime, wish: Wish, now: datetime) -> Waiting | None:
    """Hold a start for somebody on the list and write so, both or neither; None for who waits no longer."""
    place = _locked(place_id)
    if state_of(place, now=now) != State.WAITS:
        return None
    place.order = booking.hold_within(
        submission_key=uuid4(),
        day_id=place.day_id,
        starts_at=starts_at,
        wish=wish,
        held_for=timedelta(minutes=the_studio().offer_minutes),
        now=now,
    )
    place.offered_at, place.passed_over = now, ""
    place.save(update_fields=["order", "offered_at", "passed_over"])
    outbox.queue_waiting(place=place, kind=NoticeKind.OFFER, due_at=now)
    return place


def _ended(place_id: int, how: str, now: datetime) -> Waiting:
    place = _locked(place_id)
    if state_of(place, now=now) not in (State.WAITS, State.OFFERED, State.LAPSED, State.OVER):
        return place
    if place.order is not None:
        booking.drop_hold(order_id=place.order.pk, now=now)
    setattr(place, how, now)
    place.name = place.email = ""
    place.save(update_fields=[how, "name", "email"])
    place.notices.filter(sent_at=None).update(withdrawn_at=now)
    transaction.on_commit(ring)
    return place


def _fingerprint(day: SittingDay, email: str, now: datetime) -> Waiting | None:
    """The place that the owner of an address has on the list of a day already, waiting or with an offer."""
    found = the_list.with_orders().filter(day=day, email__iexact=email).order_by("pk")
    standing = (State.WAITS, State.OFFERED)
    return next((place for place in found if state_of(place, now=now) in standing), None)


def _refuse(day: SittingDay, wish: Wish, asked: Request, now: datetime) -> None:
    if not day.published or day.bench_day.closes_at <= now:
        raise NotForSale(_("This day is not open for booking. Choose another one."))
    opens, closes = day.bench_day.opens_at, day.bench_day.closes_at
    earliest, latest = max(asked.earliest, opens, now + the_list.LEAST_NOTICE), min(asked.latest, closes)
    if latest < earliest:
        words = {"opens": formats.clock(day.local(opens)), "closes": formats.clock(day.local(closes))}
        raise WaitingRefused(
            _("Choose hours that are still to come, between %(opens)s and %(closes)s.") % words
        )
    lines_for(wish=wish, on=day.bench_day.on, venue=day.venue)
    [shown] = openings(days=[day], sizes=wish.sizes, now=now)
    free = [start for start in shown.starts if earliest <= start <= latest]
    if free:
        at = formats.clock(free[0])
        raise WaitingRefused(_("%(at)s is free on that day. Go back to the times and press it.") % {"at": at})


def _refuse_crowd(day: SittingDay, now: datetime) -> None:
    if the_list.count_waiting(day, now=now) >= MOST_WAITING:
        raise WaitingRefused(
            ngettext(
                "%(most)s person waits for this day already. Choose another day.",
                "%(most)s people wait for this day already. Choose another day.",
                MOST_WAITING,
            )
            % {"most": MOST_WAITING}
        )
    if Waiting.objects.filter(day=day, asked_at__gt=now - timedelta(minutes=1)).count() >= MOST_A_MINUTE:
        raise WaitingRefused(_("Many people are asking just now. Wait a minute and try again."))


def _locked_day(day_id: int) -> SittingDay:
    days = SittingDay.objects.select_related(*DAY)
    bench.lock_day(days.get(pk=day_id).bench_day_id)
    # Read again: it may have been changed while the lock was waited for.
    return days.get(pk=day_id)


def _locked(place_id: int) -> Waiting:
    """The place, read under the lock of its day."""
    bench.lock_day(the_list.with_orders().get(pk=place_id).day.bench_day_id)
    return the_list.with_orders().get(pk=place_id)
