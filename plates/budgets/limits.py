"""What the solutions and the bath leave of each day for sale, as the capacity engine wants it.

A solution that leaves more than a whole day of work could take is no limit: it is not handed to the engine, and a
change of it makes nothing out of date.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from plates import capacity
from plates.bench.models import BathRule, BenchDay, BenchJob
from plates.budgets.pools import LIGHT, STRENGTH, Laid, pools_of, still_to_pour


@dataclass(frozen=True, slots=True)
class Room:
    """Units of one solution that may still be promised on a day, and what a plate of each size takes, by its name."""

    name: str
    units: int
    use: tuple[tuple[str, int], ...]

    def budget(self, plates: Iterable[capacity.Size]) -> capacity.Budget:
        """The same for a day on which these plates are promised already."""
        use = dict(self.use)
        return capacity.Budget(self.name, self.units + sum(use.get(size.name, 1) for size in plates), use)


@dataclass(frozen=True, slots=True)
class Limits:
    """What the chemistry leaves of one day.

    slow: minutes that a plate stays longer in the bath, up to its longest time. had: the plates that the job to be
    moved has on that day already.
    """

    rooms: tuple[Room, ...] = ()
    slow: int = 0
    had: tuple[capacity.Size, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.rooms or self.slow)

    def bench(self, day: BenchDay) -> capacity.Bench:
        """The bench of the day as it works with that bath. What holds on it holds on the usual bench too."""
        bench = day.bench.as_capacity()
        if not self.slow:
            return bench
        bath = bench.timings.sensitise
        longer = capacity.Span(min(bath.least + self.slow, bath.most), bath.most)
        return replace(bench, timings=replace(bench.timings, sensitise=longer))

    def budgets(self, booked: Iterable[capacity.Booked]) -> tuple[capacity.Budget, ...]:
        """The budgets of the day with what is booked on it."""
        plates = [*self.had, *(size for each in booked for size in each.sitting.plates)]
        return tuple(room.budget(plates) for room in self.rooms)

    def most(self, size: capacity.Size) -> int | None:
        """How many more plates of that size there is chemistry for; None for any number."""
        return min(
            (room.units // max(1, dict(room.use).get(size.name, 1)) for room in self.rooms), default=None
        )


NONE = Limits()


def limits_of(*, day: BenchDay, now: datetime, excluding_job: int | None = None) -> Limits:
    """The limits of one day. `excluding_job` is a job that gives up its present place for what is asked for."""
    return limits(days=[day], now=now, excluding_job=excluding_job)[day.pk]


def limits(
    *, days: Sequence[BenchDay], now: datetime, excluding_job: int | None = None
) -> Mapping[int, Limits]:
    """The limits of each day by its id; as many queries for any number of days, one where nothing limits."""
    pools = pools_of(benches={day.bench_id: day.bench for day in days}.values(), now=now)
    if not pools:
        return {day.pk: NONE for day in days}
    job = _excluding(excluding_job, now)
    asked = pools.laid_against(still_to_pour(now=now))
    elsewhere = pools.laid_against(still_to_pour(now=now, excluding_job=excluding_job)) if job else asked
    found = {}
    for day in days:
        stays = job is not None and job.day_id == day.pk
        had = job.as_sitting().plates if stays and job is not None else ()
        found[day.pk] = _limits(asked if stays else elsewhere, day, had, now)
    return found


def _excluding(job_id: int | None, now: datetime) -> BenchJob | None:
    if job_id is None:
        return None
    known = BenchJob.objects.promised(now).select_related("day", "retake_of__size")
    return known.prefetch_related("slots__size").filter(pk=job_id).first()


def _limits(laid: Laid, day: BenchDay, had: tuple[capacity.Size, ...], now: datetime) -> Limits:
    """The solutions that a day of work could use up, and what the bath asks for."""
    rules = {STRENGTH: day.bench.weak_bath, LIGHT: day.bench.unsunned_bath}
    blocking = [name for name, rule in rules.items() if rule == BathRule.BLOCKS]
    rooms = [_room(laid, name, day) for name in (*day.bench.limiting(), *blocking)]
    # A day under way is not slowed any more: what has begun could not be planned anew.
    slow = day.opens_at > now and any(
        rule == BathRule.SLOWS and _used_up(laid, name, day) for name, rule in rules.items()
    )
    return Limits(tuple(filter(None, rooms)), day.bench.slow_minutes if slow else 0, had)


def _room(laid: Laid, name: str, day: BenchDay) -> Room | None:
    """What is left of a solution or a bath, where a day of work could use it up."""
    pool = laid.pool(name, day.bench)
    if pool is None:
        return None
    use = laid.pools.use[name]
    full_day = _most_plates(day) * max(use.values(), default=0)
    units = pool.room(day.on, full_day)
    by_name = tuple(sorted((laid.pools.sizes[pk].name, each) for pk, each in use.items()))
    return Room(name, units, by_name) if units < full_day else None


def _used_up(laid: Laid, name: str, day: BenchDay) -> bool:
    """Whether the bath takes not even what is promised by the end of that day, and one plate more."""
    pool = laid.pool(name, day.bench)
    return pool is not None and pool.room(day.on, pool.a_plate) < pool.a_plate


def _most_plates(day: BenchDay) -> int:
    """A number of plates that no pair of hands exceeds within the hours of the day."""
    times = day.bench.as_capacity().timings
    each = times.pour + times.load + times.expose + times.develop + times.fix
    return day.bench.operators * (day.as_capacity().closes // each + 1)
