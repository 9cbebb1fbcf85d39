"""Planning ahead of a sale. What takes the solver's time is worked out without the lock of the day.

A sale first looks for a gap under the lock, in milliseconds. Where there is none, the sale is undone, the whole day
is planned anew from what it then held, and the sale is tried again: under the lock the new plans are only verified
and stored. Whoever sells on that day meanwhile makes them worthless, and the planning starts over.
"""

from collections.abc import Callable
from datetime import datetime
from functools import wraps
from typing import ParamSpec, TypeVar, cast

from plates import capacity
from plates.bench.models import BenchDay, Foreseen
from plates.budgets.limits import limits_of
from plates.capacity.problem.case import Case
from plates.errors import BenchFull
from plates.schedule.selectors.openings import promised_jobs, starts_known
from plates.schedule.selectors.start_times import order_key

Given = ParamSpec("Given")
Answer = TypeVar("Answer")

# Each further try means that somebody else was sold a place on the day meanwhile.
MOST_TRIES = 12


def foreseeing(sale: Callable[Given, Answer]) -> Callable[Given, Answer]:
    """Let a sale, which is one whole transaction and is given `now`, be tried again with the day planned anew."""

    @wraps(sale)
    def tried(*args: Given.args, **kwargs: Given.kwargs) -> Answer:
        for _ in range(MOST_TRIES):
            try:
                return sale(*args, **kwargs)
            except BenchFull as full:
                foresee(full=full, now=cast(datetime, kwargs["now"]))
        return sale(*args, **kwargs)

    return tried


def foresee(*, full: BenchFull, now: datetime) -> None:
    """Plan the day anew for what was refused, so that it can be asked for again; else BenchFull with the last word.

    Nothing is planned where the day has changed since: then the refusal need not be true any more.
    """
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.exact.admission import admit_exactly
    from plates.capacity.exact.day_starts import nearest_open

    day = BenchDay.objects.select_related("bench__largest_size").get(pk=full.day.pk)
    if day.version != full.day.version:
        return
    hours, asked = day.as_capacity(), full.asked
    others = [job for job in promised_jobs(day=day, now=now) if job.pk != full.excluding_job]
    booked = [job.as_booked(now) for job in others]
    left = limits_of(day=day, now=now, excluding_job=full.excluding_job)
    bench, budgets = left.bench(day), left.budgets(booked)
    free = starts_known(day=day, plates=asked.plates, left=left)
    if free is None:
        case = Case(bench, hours, tuple(booked), budgets)
        gaps = capacity.openings(bench, hours, booked, asked.plates, budgets).starts
        free = nearest_open(case, asked, gaps, day.bench.as_chances())
    admission = admit_exactly(
        bench, hours, booked, asked, budgets, chances=day.bench.as_chances(), starts=free
    )
    if admission.refusal is not None:
        raise BenchFull(day, admission.refusal, asked=asked, excluding_job=full.excluding_job) from full
    _store(full, order_key(bench, asked.plates), [*(str(job.pk) for job in others), "asked"], admission.plans)


def _store(full: BenchFull, order: str, names: list[str], plans: tuple[capacity.SittingPlan, ...]) -> None:
    Foreseen.objects.update_or_create(
        day=full.day,
        start=full.asked.start,
        order=order,
        leaving=full.excluding_job or 0,
        defaults={
            "version": full.day.version,
            "plans": {name: plan.as_json() for name, plan in zip(names, plans, strict=True)},
        },
    )
