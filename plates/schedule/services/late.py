"""A day that runs late: the times at which its sitters can really be expected. What was promised stays promised."""

from collections.abc import Collection
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import transaction
from django.utils.translation import gettext as _

from plates.bench.models import BenchDay, BenchJob, DayTimes
from plates.capacity.late.progress import LateDay
from plates.errors import TimesUnknown
from plates.schedule.selectors.late import JobWork, day_work, fingerprint_under_way
from plates.schedule.services.jobs import lock_day

# Each further try means that something was sold or begun on the day meanwhile.
MOST_TRIES = 4
# A press that does not come tells too: after so long the times are worked out again though nothing was pressed.
UNPRESSED = timedelta(minutes=5)
# A time so near to the one that is shown already is no news, else the screens would never come to rest.
NEAR = timedelta(minutes=2)


@dataclass(frozen=True, slots=True)
class NewTimes:
    """The jobs that will begin later than promised, with the time; `late` is the engine's whole answer."""

    later: dict[int, datetime]
    late: LateDay


def expect_anew(
    *, day_id: int, now: datetime, absent: Collection[int] = (), near: timedelta = timedelta()
) -> NewTimes:
    """Work out what is left of the day, and keep for each job when it will begin, None for one in time.

    The planning, which may take a few seconds, is done without the lock of the day. `absent`: jobs whose sitter did
    not come. A time that is known already stays where the new one is as `near` to it as that. TimesUnknown when the
    day has closed, changes all the time, or could not be planned.
    """
    for _try in range(MOST_TRIES):
        day = BenchDay.objects.select_related("bench__largest_size").get(pk=day_id)
        if now >= day.racks_empty_by:
            raise TimesUnknown(_("This day is over, so no new times are worked out."))
        standing = fingerprint_under_way(day=day, absent=absent)
        times = _worked_out(day, day_work(day=day, now=now, absent=absent), now)
        if _store(day, times.later, near):
            _note_fingerprint(day, standing, now)
            return times
    raise TimesUnknown(_("The day changes all the time. Work the times out again in a moment."))


def expect_while_at_work(*, day: BenchDay, now: datetime, absent: Collection[int] = ()) -> None:
    """Expect anew if the day is under way; where no times can be found, nothing changes."""
    if day.opens_at <= now < day.racks_empty_by:
        with suppress(TimesUnknown):
            expect_anew(day_id=day.pk, now=now, absent=absent)


def catch_up(*, day_id: int, now: datetime, absent: Collection[int] = ()) -> bool:
    """Expect anew where something was pressed, marked or promised since that was done, or five minutes have gone.

    Return whether that was tried. A day that cannot be planned is tried again after the next change.
    """
    day = BenchDay.objects.select_related("bench__largest_size").get(pk=day_id)
    standing = fingerprint_under_way(day=day, absent=absent)
    lately = DayTimes.objects.filter(day=day, worked_out_at__gt=now - UNPRESSED, worked_out_at__lte=now)
    if lately.filter(standing=standing).exists():
        return False
    try:
        expect_anew(day_id=day_id, now=now, absent=absent, near=NEAR)
    except TimesUnknown:
        _note_fingerprint(day, standing, now)
    return True


def _worked_out(day: BenchDay, works: list[JobWork], now: datetime) -> NewTimes:
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.late.begun import Undecided
    from plates.capacity.late.day import late_day

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
def _store(day: BenchDay, later: dict[int, datetime], near: timedelta) -> bool:
    """Store the new times, if the day is still the one they were worked out for.

    The version of the day stays: what can be promised on it does not hang on them.
    """
    if lock_day(day.pk).version != day.version:
        return False
    changed = []
    for job in BenchJob.objects.filter(day=day):
        before, after = job.expected_at, later.get(job.pk)
        if before != after and not (before and after and abs(after - before) <= near):
            job.expected_at = after
            changed.append(job)
    BenchJob.objects.bulk_update(changed, ["expected_at"])
    return True


def _note_fingerprint(day: BenchDay, standing: str, now: datetime) -> None:
    DayTimes.objects.update_or_create(day=day, defaults={"standing": standing, "worked_out_at": now})
