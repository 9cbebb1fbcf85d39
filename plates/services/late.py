"""A day that runs late: the times at which its sitters can really be expected. What was promised stays promised."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction

from plates.capacity.late import LateDay
from plates.errors import TimesUnknown
from plates.models import BenchDay, BenchJob
from plates.selectors.late import JobWork, day_work
from plates.services import placing
from plates.services.bench import lock_day

# Each further try means that something was sold or begun on the day meanwhile.
MOST_TRIES = 4


@dataclass(frozen=True, slots=True)
class NewTimes:
    """The jobs that will begin later than promised, with the time; `late` is the engine's whole answer."""

    later: dict[int, datetime]
    late: LateDay


def expect_anew(*, day_id: int, now: datetime, absent: Collection[int] = ()) -> NewTimes:
    """Work out what is left of the day, and keep for each job when it will begin, None for one in time.

    The planning, which may take a few seconds, is done without the lock of the day. `absent`: jobs whose sitter did
    not come. TimesUnknown when the day has closed, changes all the time, or could not be planned.
    """
    for _ in range(MOST_TRIES):
        day = BenchDay.objects.select_related("bench__largest_size").get(pk=day_id)
        if now >= day.racks_empty_by:
            raise TimesUnknown("This day is over, so no new times are worked out.")
        times = _worked_out(day, day_work(day=day, now=now, absent=absent), now)
        if _kept(day, times.later):
            return times
    raise TimesUnknown("The day changes all the time. Work the times out again in a moment.")


def _worked_out(day: BenchDay, works: list[JobWork], now: datetime) -> NewTimes:
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.late_begun import Undecided
    from plates.capacity.late_day import late_day

    try:
        late = late_day(
            day.bench.as_capacity(), day.as_capacity(), [each.work for each in works], day.minute(now)
        )
    except Undecided as undecided:
        raise TimesUnknown(str(undecided)) from undecided
    later = {
        each.job.pk: day.instant(expected.begins)
        for each, expected in zip(works, late.sittings, strict=True)
        if each.job is not None and expected.late and not each.work.begun
    }
    return NewTimes(later, late)


@transaction.atomic
def _kept(day: BenchDay, later: dict[int, datetime]) -> bool:
    """Store the new times, if the day is still the one they were worked out for."""
    if lock_day(day.pk).version != day.version:
        return False
    changed = []
    for job in BenchJob.objects.filter(day=day):
        if job.expected_at != later.get(job.pk):
            job.expected_at = later.get(job.pk)
            changed.append(job)
    if changed:
        BenchJob.objects.bulk_update(changed, ["expected_at"])
        placing.changed(day=day)
    return True
