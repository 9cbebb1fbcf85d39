"""Room on a day for people who stand in a line: one after another, each at the earliest whole minute.

Nobody in a line is promised a time on the clock, so the line may be planned anew whenever somebody joins or leaves.
What is promised to others is never moved for it, and every plan has passed the verifier beside all of them.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from django.db import transaction

from plates import capacity
from plates.bench.models import BenchDay, BenchJob, PlateSize
from plates.budgets.limits import Limits
from plates.capacity.gaps.reading import lowest
from plates.capacity.problem.case import Case
from plates.capacity.refusals.reasons import Refusing
from plates.errors import BenchFull
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.services import placing
from plates.schedule.services.jobs import lock_day

MayStart = Callable[[datetime], bool]
# Where somebody promised a time would wait too often, a place so many minutes later is tried, so many times at most.
LEAP = 10
MOST_TRIES = 6


@dataclass(frozen=True, slots=True)
class LineState:
    """The jobs of a locked day that are promised a time or have begun, and those in line, first in line first."""

    day: BenchDay
    promised: list[BenchJob]
    waiting: list[BenchJob]
    may_start: MayStart
    first: int
    left: Limits

    def case(self, *, with_line: bool) -> Case:
        """The day as the engine knows it, with a start at any whole minute."""
        jobs = [*self.promised, *self.waiting] if with_line else self.promised
        hours = replace(self.day.as_capacity(), start_every=1)
        # What is in the bottles is left for those in line too, wherever they are laid.
        budgets = self.left.budgets(job.as_booked() for job in (*self.promised, *self.waiting))
        return Case(self.day.bench.as_capacity(), hours, tuple(job.as_booked() for job in jobs), budgets)

    def rooms(self, case: Case, plates: tuple[capacity.Size, ...], first: int) -> Iterator[capacity.Booked]:
        """Every verified place for these plates from minute `first` on, earliest first."""
        free = case.placing(plates).starts >> first << first
        while free:
            minute = lowest(free)
            free &= free - 1
            plan = case.insert(capacity.Sitting(minute, plates))
            if plan and self.may_start(self.day.instant(plan.settle)):
                yield capacity.Booked(capacity.Sitting(plan.settle, plates), plan)


@transaction.atomic
def queue_up(
    *, day_id: int, sizes: Sequence[PlateSize], line: Sequence[int], may_start: MayStart, now: datetime
) -> BenchJob:
    """Keep the earliest room behind the jobs of `line` (their ids, first in line first).

    Where the minutes of some of them have passed, those in line are planned anew before.

    BenchFull when no minute is left at which `may_start` and at which nobody promised a time waits too often by it.
    """
    standing = _state(day_id, line, may_start, now)
    if any(job.as_sitting().start < standing.first for job in standing.waiting):
        _close_up(standing)
    mine = _room(standing, tuple(size.as_capacity() for size in sizes))
    start = standing.day.instant(mine.sitting.start)
    job = BenchJob.objects.create(
        day=standing.day, starts_at=start, held_until=start, confirmed_at=now, plan=mine.plan.as_json()
    )
    placing.add_slots(job=job, sizes=sizes)
    placing.changed(day=standing.day)
    return job


@transaction.atomic
def close_up(*, day_id: int, line: Sequence[int], may_start: MayStart, now: datetime) -> None:
    """Let the jobs of `line` move up into room that has come free, or back behind minutes that have passed.

    They keep their order. Where they do not all fit any more, all of them stay as they are planned.
    """
    _close_up(_state(day_id, line, may_start, now))


def _state(day_id: int, line: Sequence[int], may_start: MayStart, now: datetime) -> LineState:
    day = lock_day(day_id)
    jobs = {job.pk: job for job in promised_jobs(day=day, now=now)}
    waiting = [jobs.pop(job_id) for job_id in line if job_id in jobs and jobs[job_id].begun_at is None]
    first = max(0, day.minute(now) + 1)
    left = placing.lock_stock(day=day, now=now)
    return LineState(day, list(jobs.values()), waiting, may_start, first, left)


def _close_up(standing: LineState) -> None:
    found = _one_after_another(standing)
    moved = [(job, new) for job, new in zip(standing.waiting, found, strict=False) if job.as_booked() != new]
    if len(found) < len(standing.waiting) or not moved:
        return
    for job, new in moved:
        job.starts_at = job.held_until = standing.day.instant(new.sitting.start)
        job.plan, job.expected_at = new.plan.as_json(), None
        job.save(update_fields=["starts_at", "held_until", "plan", "expected_at"])
    placing.changed(day=standing.day)


def _one_after_another(standing: LineState) -> list[capacity.Booked]:
    """Room for each in turn; fewer than are in line where one does not fit."""
    found: list[capacity.Booked] = []
    case, first = standing.case(with_line=False), standing.first
    for job in standing.waiting:
        new = _stored(standing, case, job.as_booked(), first)
        if new is None:
            break
        found.append(new)
        first, case = new.sitting.start, case.with_booked(new.sitting, new.plan)
    return found


def _stored(standing: LineState, case: Case, old: capacity.Booked, first: int) -> capacity.Booked | None:
    """The earliest room for which nobody waits, or the one there was; without either, the earliest of all.

    Who stands in line already is not sent away on a day that runs late: the line was there first.
    """
    earliest = None
    waits = _Tries()
    for new in standing.rooms(case, old.sitting.plates, first):
        earliest = earliest or new
        if new == old or (waits.worth(new) and _nobody_waits_for(standing, case, new)):
            return new
        waits.failed(new)
    return earliest


def _room(standing: LineState, plates: tuple[capacity.Size, ...]) -> capacity.Booked:
    """The earliest room behind the last in line for which nobody waits; BenchFull where there is none."""
    case = standing.case(with_line=True)
    first = max([standing.first, *(job.as_sitting().start for job in standing.waiting[-1:])])
    waits = _Tries()
    for mine in standing.rooms(case, plates, first):
        if waits.worth(mine) and _nobody_waits_for(standing, case, mine):
            return mine
        waits.failed(mine)
    asked = capacity.Sitting(first, plates)
    waiting = capacity.Refusal(first, "waiting", first, first + standing.day.bench.wait_limit, None)
    raise BenchFull(standing.day, waiting if waits.count else Refusing(case, ()).refusal(asked), asked=asked)


class _Tries:
    """Which of many places are worth playing the day for: one every LEAP minutes, MOST_TRIES in all."""

    def __init__(self) -> None:
        self.count, self.not_before = 0, 0

    def worth(self, place: capacity.Booked) -> bool:
        return self.count < MOST_TRIES and place.sitting.start >= self.not_before

    def failed(self, place: capacity.Booked) -> None:
        if self.worth(place):
            self.count, self.not_before = self.count + 1, place.sitting.start + LEAP


def _nobody_waits_for(standing: LineState, case: Case, mine: capacity.Booked) -> bool:
    """Whether those who were promised a time wait too long no more often than before, or seldom enough.

    Those in line are not asked: they are told a range, and wait in any case.
    """
    chances = standing.day.bench.as_chances()
    if chances.chance_limit is None or not standing.promised:
        return True
    # numpy takes a moment to load, so it is loaded only where chances are asked for.
    from plates.capacity.risk.assess import risk
    from plates.capacity.risk.waiting import FEW_DAYS

    after = risk(case.bench, case.day, (*case.booked, mine), chances, days=FEW_DAYS).sitters
    over = [
        number for number, _ in enumerate(standing.promised) if after[number].upper >= chances.chance_limit
    ]
    if not over:
        return True
    before = risk(case.bench, case.day, case.booked, chances, days=FEW_DAYS).sitters
    return all(after[number].chance <= before[number].chance for number in over)
