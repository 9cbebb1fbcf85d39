"""Finding room for a sitting on a locked day, and storing the plans that prove it."""

from collections.abc import Sequence
from datetime import datetime

from django.db.models import F

from plates import capacity
from plates.errors import BenchFull
from plates.models import Batch, BenchDay, BenchJob, Foreseen, PlateSize, PlateSlot, StoreRoom
from plates.selectors.bench import promised_jobs
from plates.selectors.chemistry import Limits, limits_of
from plates.selectors.foresight import order_key

Plans = Sequence[capacity.SittingPlan]
Budgets = Sequence[capacity.Budget]


def place(*, day: BenchDay, job: BenchJob, asked: capacity.Sitting, now: datetime) -> None:
    """Save `job` with a plan that stands beside every other promise of the locked day, or raise BenchFull.

    Its own plan is kept where it still holds, then a gap is looked for, then the day as it was foreseen.
    """
    others, booked = _beside(day, job, now)
    budgets = lock_stock(day=day, now=now, leaving=job.pk or 0).budgets(booked)
    plans = _as_before(day, job, booked, asked, budgets) or _as_foreseen(
        day, job, others, booked, asked, budgets
    )
    if not plans:
        admission = capacity.admit(day.bench.as_capacity(), day.as_capacity(), booked, asked, budgets)
        if admission.refusal is not None:
            raise BenchFull(day, admission.refusal, asked=asked, leaving=job.pk or 0)
        plans = admission.plans
    _refuse_long_waits(day, job, booked, plans, asked)
    *kept, mine = plans
    for other, before, plan in zip(others, booked, kept, strict=True):
        if plan != before.plan:
            other.plan = plan.as_json()
            other.save(update_fields=["plan"])
    job.plan = mine.as_json()
    job.save()
    changed(day=day)


def keep(*, day: BenchDay, job: BenchJob, now: datetime) -> bool:
    """Whether the stored plan of a lapsed job still stands beside every other promise of the locked day.

    Who comes to the door is not sent away for what the bottles were thought to hold: whoever pours sees that better.
    """
    _, booked = _beside(day, job, now)
    return bool(_as_before(day, job, booked, job.as_sitting(), ()))


def changed(*, day: BenchDay) -> None:
    """Count a change of the locked day; what was foreseen for it before is worth nothing now."""
    BenchDay.objects.filter(pk=day.pk).update(version=F("version") + 1)
    Foreseen.objects.filter(day=day).delete()


def lock_stock(*, day: BenchDay, now: datetime, leaving: int = 0) -> Limits:
    """What the chemistry leaves of the locked day, kept from being sold on another day until the transaction ends.

    The row of the store room comes after the days in the order of locks, and nothing of the bench is locked after it.
    """
    if day.bench.limiting() and Batch.objects.exists():
        StoreRoom.objects.get_or_create(pk=1)
        StoreRoom.objects.select_for_update().get(pk=1)
    return limits_of(day=day, now=now, leaving=leaving)


def add_slots(*, job: BenchJob, sizes: Sequence[PlateSize]) -> None:
    """Write down the plates that a new job promises, in their order."""
    PlateSlot.objects.bulk_create(
        PlateSlot(job=job, position=position, size=size) for position, size in enumerate(sizes, start=1)
    )


def _beside(day: BenchDay, job: BenchJob, now: datetime) -> tuple[list[BenchJob], list[capacity.Booked]]:
    """The other promises of the day, as rows and as the engine knows them."""
    others = [other for other in promised_jobs(day=day, now=now) if other.pk != job.pk]
    return others, [other.as_booked() for other in others]


def _refuse_long_waits(
    day: BenchDay,
    job: BenchJob,
    booked: Sequence[capacity.Booked],
    plans: Plans,
    asked: capacity.Sitting,
) -> None:
    """BenchFull where the bench limits the chance of a long wait and these plans would go beyond it for anybody."""
    if day.bench.wait_chance is None:
        return
    # numpy takes a moment to load, so it is loaded only where chances are asked for.
    from plates.capacity.waiting import refused_for_waiting

    after = capacity.planned(booked, plans, asked)
    refusal = refused_for_waiting(
        day.bench.as_capacity(), day.as_capacity(), booked, after, day.bench.as_chances()
    )
    if refusal is not None:
        raise BenchFull(day, refusal, asked=asked, leaving=job.pk or 0)


def _as_before(
    day: BenchDay,
    job: BenchJob,
    booked: Sequence[capacity.Booked],
    asked: capacity.Sitting,
    budgets: Budgets,
) -> Plans:
    """The plans with the one that the job already had for that very sitting, if all still hold together."""
    if not job.plan:
        return ()
    mine = capacity.SittingPlan.from_json(job.plan)
    return _verified(day, booked, [*(each.plan for each in booked), mine], asked, budgets)


def _as_foreseen(
    day: BenchDay,
    job: BenchJob,
    others: Sequence[BenchJob],
    booked: Sequence[capacity.Booked],
    asked: capacity.Sitting,
    budgets: Budgets,
) -> Plans:
    """The plans of an exact re-plan made for this standing of the day; holds may have lapsed since."""
    key = order_key(day.bench.as_capacity(), asked.plates)
    seen = Foreseen.objects.filter(
        day=day, version=day.version, start=asked.start, order=key, leaving=job.pk or 0
    ).first()
    if seen is None or not all(str(other.pk) in seen.plans for other in others):
        return ()
    names = [*(str(other.pk) for other in others), "asked"]
    plans = [capacity.SittingPlan.from_json(seen.plans[name]) for name in names]
    return _verified(day, booked, plans, asked, budgets)


def _verified(
    day: BenchDay,
    booked: Sequence[capacity.Booked],
    plans: Plans,
    asked: capacity.Sitting,
    budgets: Budgets,
) -> Plans:
    """The plans if the independent verifier passes the whole day with them, else none."""
    if len(plans[-1].plates) != len(asked.plates):
        return ()
    whole = capacity.planned(booked, plans, asked)
    broken = capacity.problems(day.bench.as_capacity(), day.as_capacity(), whole, budgets)
    return () if broken else plans
