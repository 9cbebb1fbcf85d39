"""Working out beforehand at which times the usual orders can begin, so that pages read it and need not think."""

from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from time import monotonic

from plates import capacity
from plates.bench.models import BenchDay, BenchJob, DayStarts, PlateSize
from plates.budgets.limits import Limits, limits
from plates.capacity.problem.case import Case
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.selectors.start_times import fingerprint, usual_orders

# What is left over is taken up at the next round; letters do not wait for it longer than this.
SECONDS_A_ROUND = 2.0
WORK_AN_ORDER = 8.0


def work_out(*, now: datetime, seconds: float = SECONDS_A_ROUND) -> int:
    """Bring the known starts of days still to come up to date, the nearest first; return how many orders were.

    Begins nothing new after `seconds`. Safe to be done by several at once: each writes what is true.
    """
    until = monotonic() + seconds
    done = 0
    for day, left, order, plates in _out_of_date(now):
        _work_out_order(day, left, order, plates, now)
        done += 1
        if monotonic() >= until:
            break
    return done


def _out_of_date(now: datetime) -> Iterator[tuple[BenchDay, Limits, str, tuple[capacity.Size, ...]]]:
    # This is asked every two seconds: as many queries for any number of days.
    ahead = BenchDay.objects.filter(closes_at__gt=now).select_related("bench__largest_size")
    days = list(ahead.order_by("opens_at"))
    left = limits(days=days, now=now)
    known = {(row.day_id, row.order): row for row in DayStarts.objects.filter(day__closes_at__gt=now)}
    offered = list(PlateSize.objects.filter(offered=True))
    for day in days:
        now_standing = fingerprint(day, left[day.pk])
        for order, plates in usual_orders(day.bench, offered, left[day.pk]).items():
            row = known.get((day.pk, order))
            lapsed = row is not None and row.holds_until is not None and row.holds_until <= now
            if row is None or row.standing != now_standing or lapsed:
                yield day, left[day.pk], order, plates


def _work_out_order(
    day: BenchDay, left: Limits, order: str, plates: tuple[capacity.Size, ...], now: datetime
) -> None:
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.exact.day_starts import WORK_A_START, day_starts

    at = fingerprint(
        day, left
    )  # looked at before the promises: a change in between makes the row out of date
    jobs = promised_jobs(day=day, now=now)
    booked = tuple(job.as_booked(now) for job in jobs)
    case = Case(left.bench(day), day.as_capacity(), booked, left.budgets(booked))
    found = day_starts(case, plates, day.bench.as_chances(), seconds=WORK_A_START, in_all=WORK_AN_ORDER)
    starts = found.of("open")
    DayStarts.objects.update_or_create(
        day=day,
        order=order,
        defaults={
            "standing": at,
            "starts": starts,
            "undecided": found.of("undecided"),
            "bound_by": "" if starts else "waiting" if found.of("waiting") else _bound_by(case, plates),
            "holds_until": _first_lapse(jobs),
        },
    )


def _bound_by(case: Case, plates: tuple[capacity.Size, ...]) -> str:
    """What keeps the order out of most starts of the day."""
    found = capacity.openings(case.bench, case.day, case.booked, plates, case.budgets)
    reasons = Counter(refusal.why for refusal in found.refused)
    return reasons.most_common(1)[0][0] if reasons else ""


def _first_lapse(jobs: list[BenchJob]) -> datetime | None:
    held = [job.held_until for job in jobs if job.confirmed_at is None and job.begun_at is None]
    return min(held, default=None)
