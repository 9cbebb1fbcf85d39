"""Necessary bounds over stretches of the day: work that must be done in a stretch against the minutes it has.

Each promised sitting must do its work between the earliest and the latest minute its rules allow. Where the work of
some sittings that all lie between two minutes is more than the resource has, no plan exists, whatever the order.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from plates.capacity.gaps.bounds import Bound, attended, head, shortest
from plates.capacity.problem.bench import Bench, Day, Sitting, Timings


class Task(NamedTuple):
    """`work` minutes (times places) of a resource, to be done between two minutes."""

    resource: str
    earliest: int
    latest: int
    work: int


def latest_fixed(timings: Timings, plates: int) -> int:
    """The most minutes from settling to the end of the last fix."""
    each = timings.pour + timings.sensitise.most + timings.wet_window + timings.fix_within
    waits = timings.first_pour_within + (plates - 1) * timings.next_pour_within
    return waits + plates * each + timings.fix


def overloaded(bench: Bench, day: Day, sittings: Sequence[Sitting]) -> Bound | None:
    """The first resource and stretch of the day that these sittings cannot share, or None if no bound shows it."""
    limits = {
        "operator": bench.operators,
        "tank": bench.tank_places,
        "wash": bench.wash_places,
        "sitters": bench.sitters_at_once,
    }
    tasks = sorted(task for sitting in sittings for task in _tasks(bench, day, sitting))
    for resource, group in groupby(tasks, key=lambda task: task.resource):
        found = _overfull(resource, list(group), limits[resource])
        if found:
            return found
    return None


def _tasks(bench: Bench, day: Day, sitting: Sitting) -> Iterator[Task]:
    times, start, plates = bench.timings, sitting.start, len(sitting.plates)
    fixed = start + bench.tolerance + latest_fixed(times, plates)
    gone = min(day.closes, fixed + times.farewell_within + times.farewell)
    yield Task("operator", start, gone, attended(times, plates))
    yield Task("sitters", start, gone, shortest(bench, plates))
    yield Task("tank", start, gone, plates * times.sensitise.least)
    first = start + head(times, bench.operators)
    lifted = min(day.racks_empty_by, fixed + times.wash.most + times.lift)
    yield Task("operator", first + times.wash.least, lifted, plates * times.lift)
    places = sum(size.wash_places for size in sitting.plates)
    yield Task("wash", first, lifted - times.lift, places * times.wash.least)


def _overfull(resource: str, tasks: list[Task], limit: int) -> Bound | None:
    by_end = sorted(tasks, key=lambda task: task.latest)
    for begin in sorted({task.earliest for task in tasks}):
        work = 0
        for task in by_end:
            if task.earliest >= begin:
                work += task.work
                if work > limit * max(0, task.latest - begin):
                    return Bound(resource, begin, task.latest)
    return None
