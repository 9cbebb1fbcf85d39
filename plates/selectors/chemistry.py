"""What the solutions leave of each day for sale, as the capacity engine wants it. Nothing here writes.

A solution that leaves more than a whole day of work could take is no limit: it is not handed to the engine, and a
change of it makes nothing out of date.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from plates import capacity
from plates.models import BenchDay, BenchJob
from plates.selectors.pools import Pools, pools_of
from plates.selectors.promised_area import Asked, still_to_pour


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
    """What the chemistry leaves of one day. `had` are the plates that the job to be moved has on that day already."""

    rooms: tuple[Room, ...] = ()
    had: tuple[capacity.Size, ...] = ()

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


def limits_of(*, day: BenchDay, now: datetime, leaving: int = 0) -> Limits:
    """The limits of one day. `leaving` is a job that gives up its present place for what is asked for."""
    return limits(days=[day], now=now, leaving=leaving)[day.pk]


def limits(*, days: Sequence[BenchDay], now: datetime, leaving: int = 0) -> Mapping[int, Limits]:
    """The limits of each day by its id; the same few queries for any number of days, one where there are none."""
    pools = pools_of(kinds={kind for day in days for kind in day.bench.limiting()}, now=now)
    if not pools.bottles:
        return {day.pk: NONE for day in days}
    asked = still_to_pour(now=now)
    job = _leaving(leaving, now)
    elsewhere = still_to_pour(now=now, without=leaving) if job else asked
    found = {}
    for day in days:
        stays = job is not None and job.day_id == day.pk
        rooms = _rooms(pools, day, asked if stays or job is None else elsewhere)
        had = job.as_sitting().plates if stays and job is not None else ()
        found[day.pk] = Limits(rooms, had)
    return found


def _leaving(job_id: int, now: datetime) -> BenchJob | None:
    if not job_id:
        return None
    known = BenchJob.objects.promised(now).select_related("day", "retake_of__size")
    return known.prefetch_related("slots__size").filter(pk=job_id).first()


def _rooms(pools: Pools, day: BenchDay, asked: Asked) -> tuple[Room, ...]:
    """The solutions that a day of work could use up."""
    found = []
    for kind in day.bench.limiting():
        if kind in pools.bottles:
            use = pools.use[kind]
            full_day = _most_plates(day) * max(use.values(), default=0)
            room = pools.pool(kind, day.bench, asked).room(day.on, full_day)
            if room < full_day:
                found.append(
                    Room(kind, room, tuple(sorted((pools.sizes[pk].name, each) for pk, each in use.items())))
                )
    return tuple(found)


def _most_plates(day: BenchDay) -> int:
    """A number of plates that no pair of hands exceeds within the hours of the day."""
    times = day.bench.as_capacity().timings
    each = times.pour + times.load + times.expose + times.develop + times.fix
    return day.bench.operators * (day.as_capacity().closes // each + 1)
