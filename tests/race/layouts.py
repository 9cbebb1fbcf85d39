"""The worlds that races are run in, and what is read from them afterwards. Plain values only: they cross processes."""

from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from typing import Any

from bookings.diary.models import SittingDay
from bookings.outbox.models import Notice
from plates import capacity
from plates.errors import BenchFull
from plates.schedule.selectors.openings import promised_jobs
from tests import builders
from tests.builders import NOW

World = dict[str, Any]
PLACES = 3


def three_at_once(**changes: object) -> Any:
    """A bench with hands, tanks and wash enough, and room for three sitters.

    A sitting of one plate lasts 14 minutes or more and begins at most 5 minutes late (the defaults of the design page),
    so exactly three can have the same start, whatever the engine thinks of.
    """
    facts: dict[str, object] = {
        "operators": 9,
        "tank_places": 9,
        "wash_places": 30,
        "sitters_at_once": PLACES,
    }
    return builders.a_bench(**(facts | changes))


def some_days(count: int, bench: Any) -> list[SittingDay]:
    return [
        builders.a_day(on=date(2026, 11, 28) + timedelta(days=number), bench=bench) for number in range(count)
    ]


def many_orders(count: int, *, placed: Callable[..., Any], sizes: Sequence[str] = ("quarter",)) -> list[Any]:
    """So many orders, spread over days on which many can start at once, as `placed` makes them."""
    bench = three_at_once(operators=20, tank_places=20, wash_places=60, sitters_at_once=20)
    days = some_days(7, bench)
    return [placed(days[number % len(days)], sizes=sizes) for number in range(count)]


def sold_one_after_another(day: SittingDay) -> int:
    """How many the engine sells of one start when nobody hurries."""
    sold = 0
    while True:
        try:
            builders.a_held_order(day)
        except BenchFull:
            return sold
        sold += 1


def problems_of(day_id: int, *, now: datetime = NOW) -> tuple[str, ...]:
    """What the independent verifier finds wrong with the stored day."""
    day = SittingDay.objects.select_related("bench_day__bench__largest_size").get(pk=day_id).bench_day
    booked = [job.as_booked() for job in promised_jobs(day=day, now=now)]
    return capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked)


def sold_on(day_id: int, *, now: datetime = NOW) -> int:
    day = SittingDay.objects.select_related("bench_day").get(pk=day_id)
    return len(promised_jobs(day=day.bench_day, now=now))


def letters_by_kind() -> dict[str, int]:
    found: dict[str, int] = {}
    for kind in Notice.objects.values_list("kind", flat=True):
        found[kind] = found.get(kind, 0) + 1
    return found
