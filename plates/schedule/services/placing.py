"""Finding room for a sitting on a locked day, and storing the plans that prove it."""

from collections.abc import Sequence
from datetime import datetime

from django.db.models import F

from plates import capacity
from plates.bench.models import BenchDay, BenchJob, Foreseen, PlateSize, PlateSlot
from plates.budgets.limits import NONE, Limits, limits_of
from plates.capacity.problem.case import Case
from plates.errors import BenchFull
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.selectors.start_times import order_key
from plates.store.models import Batch, StoreRoom

Plans = Sequence[capacity.SittingPlan]


def place(*, day: BenchDay, job: BenchJob, asked: capacity.Sitting, now: datetime) -> None:
    """Save `job` with a plan that stands beside every other promise of the locked day, or raise BenchFull.

    Its own plan is kept where it still holds, then a gap is looked for, then the day as it was foreseen.
    """
    left = lock_stock(day=day, now=now, excluding_job=job.pk)
    others = _beside(day, job, now)
    case = _case(day, others, left)
    plans = _as_before(case, job, asked) or _as_foreseen(day, case, job, others, asked)
    if not plans:
        admission = capacity.admit(case.bench, case.day, case.booked, asked, case.budgets)
        if admission.refusal is not None:
            raise BenchFull(day, admission.refusal, asked=asked, excluding_job=job.pk)
        plans = admission.plans
    _refuse_long_waits(day, case, job, plans, asked)
    *kept, mine = plans
    for other, before, plan in zip(others, case.booked, kept, strict=True):
        if plan != before.plan:
            other.plan = plan.as_json()
            other.save(update_fields=["plan"])
    job.plan = mine.as_json()
    job.save()
    changed(day=day)


def store(*, day: BenchDay, job: BenchJob, now: datetime) -> bool:
    """Whether the stored plan of a lapsed job still stands beside every other promise of the locked day.

    Who comes to the door is not sent away for what the bottles were thought to hold: whoever pours sees that better.
    """
    case = _case(day, _beside(day, job, now), NONE)
    return bool(_as_before(case, job, job.as_sitting()))


def changed(*, day: BenchDay) -> None:
    """Count a change of the locked day; what was foreseen for it before is worth nothing now."""
    BenchDay.objects.filter(pk=day.pk).update(version=F("version") + 1)
    Foreseen.objects.filter(day=day).delete()


def lock_stock(*, day: BenchDay, now: datetime, excluding_job: int | None = None) -> Limits:
    """What the chemistry leaves of the locked day, kept from being sold on another day until the transaction ends.

    The row of the store room comes after the days in the order of locks, and nothing of the bench is locked after it.
    """
    if day.bench.limiting() and Batch.objects.exists():
        StoreRoom.objects.get_or_create(pk=1)
        StoreRoom.objects.select_for_update().get(pk=1)
    return limits_of(day=day, now=now, excluding_job=excluding_job)


def add_slots(*, job: BenchJob, sizes: Sequence[PlateSize]) -> None:
    """Write down the plates that a new job promises, in their order."""
    PlateSlot.objects.bulk_create(
        PlateSlot(job=job, position=position, size=size) for position, size in enumerate(sizes, start=1)
    )


def _beside(day: BenchDay, job: BenchJob, now: datetime) -> list[BenchJob]:
    """The other promises of the day."""
    return [other for other in promised_jobs(day=day, now=now) if other.pk != job.pk]


def _case(day: BenchDay, others: Sequence[BenchJob], left: Limits) -> Case:
    """The day with the other promises and what its chemistry leaves, as the engine knows it."""
    booked = tuple(other.as_booked() for other in others)
    return Case(left.bench(day), day.as_capacity(), booked, left.budgets(booked))


def _refuse_long_waits(
    day: BenchDay, case: Case, job: BenchJob, plans: Plans, asked: capacity.Sitting
) -> None:
    """BenchFull where the bench limits the chance of a long wait and these plans would go beyond it for anybody."""
    if day.bench.wait_chance is None:
        return
    # numpy takes a moment to load, so it is loaded only where chances are asked for.
    from plates.capacity.risk.waiting import refused_for_waiting

    after = capacity.planned(case.booked, plans, asked)
    refusal = refused_for_waiting(case.bench, case.day, case.booked, after, day.bench.as_chances())
    if refusal is not None:
        raise BenchFull(day, refusal, asked=asked, excluding_job=job.pk)


def _as_before(case: Case, job: BenchJob, asked: capacity.Sitting) -> Plans:
    """The plans with the one that the job already had for that very sitting, if all still hold together."""
    if not job.plan:
        return ()
    mine = capacity.SittingPlan.from_json(job.plan)
    return _verified(case, [*(each.plan for each in case.booked), mine], asked)


def _as_foreseen(
    day: BenchDay, case: Case, job: BenchJob, others: Sequence[BenchJob], asked: capacity.Sitting
) -> Plans:
    """The plans of an exact re-plan made for this standing of the day; holds may have lapsed since."""
    key = order_key(case.bench, asked.plates)
    seen = Foreseen.objects.filter(
        day=day, version=day.version, start=asked.start, order=key, leaving=job.pk or 0
    ).first()
    if seen is None or not all(str(other.pk) in seen.plans for other in others):
        return ()
    names = [*(str(other.pk) for other in others), "asked"]
    return _verified(case, [capacity.SittingPlan.from_json(seen.plans[name]) for name in names], asked)


def _verified(case: Case, plans: Plans, asked: capacity.Sitting) -> Plans:
    """The plans if the independent verifier passes the whole day with them, else none."""
    if len(plans[-1].plates) != len(asked.plates):
        return ()
    whole = capacity.planned(case.booked, plans, asked)
    return () if capacity.problems(case.bench, case.day, whole, case.budgets) else plans
