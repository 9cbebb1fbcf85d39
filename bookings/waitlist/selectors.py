"""Who waits for a place on a day, and what became of each."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from hashlib import sha256

from django.db.models import Q, QuerySet

from bookings.diary.models import SittingDay
from bookings.diary.selectors import in_light
from bookings.orders.wishes import Wish
from bookings.waitlist.models import Waiting
from plates.bench.models import BenchJob
from plates.schedule.selectors import openings as bench
from plates.schedule.selectors.start_times import fingerprint

# A letter has to be read, and somebody has to come: what begins sooner is offered to nobody.
LEAST_NOTICE = timedelta(minutes=30)


class State(StrEnum):
    """What became of a place on a waiting list."""

    WAITS = "waits"
    OFFERED = "offered"  # a place is kept for whom it is offered
    TAKEN = "taken"
    LAPSED = "lapsed"  # offered, and not taken in time
    LEFT = "left"
    STRUCK = "struck"
    OVER = "over"  # the day has passed


@dataclass(frozen=True, slots=True)
class Listed:
    """A place on the list, with what became of it."""

    place: Waiting
    state: State


def state_of(place: Waiting, *, now: datetime) -> State:
    """What became of a place on the list by `now`."""
    order = place.order
    if order is not None and order.placed_at is not None:
        return State.TAKEN
    if place.left_at is not None:
        return State.LEFT
    if place.struck_at is not None:
        return State.STRUCK
    if order is not None:
        return State.OFFERED if order.sitting.bench_job.counts(now) else State.LAPSED
    return State.WAITS if place.latest > now else State.OVER


def with_orders() -> QuerySet[Waiting]:
    """Places with what their pages and letters say of day and offer."""
    return Waiting.objects.select_related(
        "day__venue", "day__bench_day__bench__largest_size", "order__sitting__bench_job", "order__terms"
    )


def the_list(*, day: SittingDay, now: datetime) -> list[Listed]:
    """Everybody who asked for a day, first come first."""
    places = with_orders().filter(day=day).order_by("pk")
    return [Listed(place, state_of(place, now=now)) for place in places]


def still_waiting(*, now: datetime) -> QuerySet[Waiting]:
    """Who waits for a day that can still be had, in the order in which a day's places are offered."""
    ended = Q(left_at__isnull=False) | Q(struck_at__isnull=False) | Q(offered_at__isnull=False)
    waiting = Waiting.objects.exclude(ended).filter(latest__gt=now + LEAST_NOTICE, day__published=True)
    return waiting.order_by("day__bench_day__opens_at", "day_id", "pk")


def fingerprint_of(day: SittingDay, *, now: datetime) -> str:
    """A name for all that decides whether a place is free on a day; looked at anew once an hour all the same."""
    # A hold that lapses changes nothing that is written, so who takes room is part of it.
    promised = BenchJob.objects.promised(now).filter(day=day.bench_day_id)
    facts = (
        fingerprint(day.bench_day),
        *promised.order_by("pk").values_list("pk", flat=True),
        f"{now:%j %H}",
    )
    return sha256(repr(facts).encode()).hexdigest()[:40]


def first_free(*, place: Waiting, wish: Wish, now: datetime) -> datetime | None:
    """The first start within the hours of a place that a sale would accept, and that has light; None without one."""
    return free_between(
        day=place.day,
        wish=wish,
        earliest=max(place.earliest, now + LEAST_NOTICE),
        latest=place.latest,
        now=now,
    )


def free_between(
    *, day: SittingDay, wish: Wish, earliest: datetime, latest: datetime, now: datetime
) -> datetime | None:
    """The first start between two times that a sale would accept, and that has light; None without one."""
    while earliest <= latest:
        found = bench.first_start(
            day=day.bench_day, sizes=wish.sizes, not_before=earliest, not_after=latest, now=now
        )
        if found is None or in_light(day, found, len(wish.sizes)):
            return found
        earliest = found + timedelta(minutes=1)
    return None


def count_waiting(day: SittingDay, *, now: datetime) -> int:
    """How many wait for a day."""
    return still_waiting(now=now).filter(day=day).count()


def kept_of(emails: Sequence[str]) -> QuerySet[Waiting]:
    """Every place that is kept under one of these addresses, however they were typed."""
    found = Waiting.objects.none()
    for email in emails:
        found |= Waiting.objects.filter(email__iexact=email)
    return found.order_by("pk")


def forgettable(*, now: datetime) -> QuerySet[Waiting]:
    """Places that still name somebody, though their day is over or the offer became an order with a client."""
    over = Q(day__bench_day__closes_at__lte=now) | Q(order__placed_at__isnull=False)
    return Waiting.objects.exclude(name="", email="").filter(over)
