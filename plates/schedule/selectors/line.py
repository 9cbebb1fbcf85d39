"""When people in a line will really be begun with, from the work that is left.

Loads numpy, which takes a moment: import it only where such times are asked for.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import numpy as np

from plates.bench.models import BenchDay, BenchJob, PlateSlot, Stage
from plates.bench.selectors import live_plate, slots_of
from plates.capacity import Booked
from plates.capacity.risk.assess import SEED
from plates.capacity.risk.draws import drawn, keys_of
from plates.capacity.risk.ordering import order_of
from plates.capacity.risk.simulate import play
from plates.schedule.selectors.openings import promised_jobs

DAYS = 500
SOONEST, LATEST = 0.1, 0.9
# The step of a plate's plan that has ended when the plate is recorded at a stage, by what of the bench it lasts.
ENDED = {
    Stage.POURED: ("pour", "pour"),
    Stage.SENSITISED: ("tank_out", None),
    Stage.EXPOSED: ("expose", "expose"),
    Stage.DEVELOPED: ("develop", "develop"),
    Stage.FIXED: ("fix", "fix"),
}


@dataclass(frozen=True, slots=True)
class Expected:
    """Four times in five the sitter is begun with between these two instants."""

    soonest: datetime
    latest: datetime


def expected_starts(
    *, day: BenchDay, line: Collection[int], gone: Collection[int], now: datetime
) -> dict[int, Expected]:
    """For each job of `line` that has not begun: when it will be, by the day played on from `now`.

    Hands are first free when what has begun is over; then come those promised a time, no sooner than it, and those in
    line as soon as it is their turn, all in the order of the plan, with the luck that the bench reckons with. Jobs in
    `gone` need no hands any more. Two operators are taken to finish what has begun each on their own.
    """
    jobs = [job for job in promised_jobs(day=day, now=now) if job.pk not in gone]
    left = [job for job in jobs if job.begun_at is None]
    if not any(job.pk in line for job in left):
        return {}
    minute = max(0, day.minute(now))
    free = _hands_free([job for job in jobs if job.begun_at is not None], day, minute)
    begun = _played([job.as_booked() for job in left], [job.pk in line for job in left], day, free)
    return {
        job.pk: Expected(*(day.opens_at + timedelta(minutes=float(at)) for at in found))
        for job, found in zip(left, begun, strict=True)
        if job.pk in line
    }


def _played(
    booked: Sequence[Booked], waits: Sequence[bool], day: BenchDay, free: int
) -> list[tuple[float, float]]:
    """The soonest and the latest minute at which each is settled on the days on which the sitter is there."""
    bench, chances = day.bench.as_capacity(), day.bench.as_chances()
    at_hand = [
        replace(each, sitting=replace(each.sitting, start=min(free, each.sitting.start))) if in_line else each
        for each, in_line in zip(booked, waits, strict=True)
    ]
    luck = drawn(bench.timings, at_hand, keys_of(booked, 0), chances, DAYS, SEED)
    played = play(bench, free, order_of(bench, at_hand), luck)
    found = []
    for number, sitter in enumerate(luck):
        settled = played.settled[number][sitter.came]
        soonest, latest = np.quantile(settled, (SOONEST, LATEST)) if len(settled) else (free, free)
        found.append((float(soonest), float(latest)))
    return found


def _hands_free(begun: Sequence[BenchJob], day: BenchDay, minute: int) -> int:
    """The minute at which the first pair of hands is free of what has begun."""
    slots = slots_of(job_ids=[job.pk for job in begun])
    ends = sorted((_ends(job, slots[job.pk], day, minute) for job in begun), reverse=True)
    operators = day.bench.operators
    return max(minute, ends[operators - 1]) if len(ends) >= operators else minute


def _ends(job: BenchJob, slots: Sequence[PlateSlot], day: BenchDay, minute: int) -> int:
    """The minute at which a sitting that has begun will be over, as far behind its plan as its newest press was."""
    plan, times = job.as_booked().plan, day.bench.as_capacity().timings
    live = [
        (plate, own) for slot, own in zip(slots, plan.plates, strict=False) if (plate := live_plate(slot))
    ]
    at_work = [(plate, own) for plate, own in live if plate.stage in ENDED]
    unpoured = any(not slot.plates.all() for slot in slots)
    if not at_work and not unpoured:
        return minute
    behind = 0
    if at_work:
        plate, own = max(at_work, key=lambda each: each[0].stage_at)
        step, lasts = ENDED[Stage(plate.stage)]
        planned = getattr(own, step) + (getattr(times, lasts) if lasts else 0)
        behind = day.minute(plate.stage_at) - planned
    return plan.farewell + times.farewell + behind
