"""Taking over minutes that the plate log has taught."""

from collections.abc import Sequence
from datetime import datetime

from django.db import transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from plates.bench.models import Bench, BenchDay, BenchJob
from plates.capacity import Booked, CapacityValueError, SittingPlan, problems
from plates.errors import BenchPromised, TimingRefused
from plates.schedule.selectors.openings import promised_jobs
from plates.schedule.selectors.timings import Timing, timings
from plates.schedule.services.jobs import lock_day
from plates.schedule.services.placing import changed

# Of the solver's own work, for each day whose stored plans no longer hold.
SECONDS_A_DAY = 1.0
MOST_DAYS_NAMED = 5


@transaction.atomic
def accept_timing(*, bench_id: int, operation: str, minutes: int, now: datetime) -> Bench:
    """Plan a step of the hands with the minutes that were shown, and every day ahead anew where that is needed.

    TimingRefused when the log does not say so (any more), BenchPromised when promises could not be kept.
    """
    bench = Bench.objects.select_for_update(of=("self",)).select_related("largest_size").get(pk=bench_id)
    # In the order of their ids, as everywhere, so that two who lock several days never wait for each other.
    ahead = BenchDay.objects.filter(bench=bench, racks_empty_by__gt=now).order_by("pk")
    days = [lock_day(day_id) for day_id in ahead.values_list("pk", flat=True)]
    learned = {timing.name: timing for timing in timings(bench=bench)}
    _refuse_untaught(learned.get(operation), minutes)
    fields = _set(bench, operation, minutes)
    _keep_promises(bench, days, now)
    bench.save(update_fields=fields)
    for day in days:
        changed(day=day)
    return bench


def _refuse_untaught(timing: Timing | None, minutes: int) -> None:
    if timing is None or timing.chemistry:
        raise TimingRefused(
            _(
                "Only what the hands do is learned. The shortest bath and the shortest wash are rules of the chemistry."
            )
        )
    if timing.too_few:
        raise TimingRefused(
            _("Too few plates yet: {plates} of {least}. The planned minutes stay as they are.").format(
                plates=timing.learned.plates, least=timing.least
            )
        )
    if timing.learned.planning != minutes:
        raise TimingRefused(
            _(
                "The plate log has gone on since this page was shown and now says {minutes}. Look at the new "
                "figures first."
            ).format(minutes=timing.learned.planning)
        )


def _set(bench: Bench, operation: str, minutes: int) -> list[str]:
    """Set the minutes on the unsaved bench; the names of what changed."""
    if operation == "expose":
        # No press tells loading from exposing: loading stays as it is while there is anything left to expose in.
        bench.expose = max(1, minutes - bench.load)
        bench.load = minutes - bench.expose
        fields = ["expose", "load"]
    else:
        setattr(bench, operation, minutes)
        fields = [operation]
    try:
        bench.as_capacity()
    except CapacityValueError as error:
        raise TimingRefused(
            _("{minutes} minutes contradict other minutes of the bench ({error}).").format(
                minutes=minutes, error=error
            )
        ) from error
    return fields


def _keep_promises(bench: Bench, days: Sequence[BenchDay], now: datetime) -> None:
    """Store plans by the new minutes for every day whose plans no longer hold, or raise BenchPromised."""
    broken = []
    for day in days:
        jobs = promised_jobs(day=day, now=now)
        booked = [job.as_booked() for job in jobs]
        if problems(bench.as_capacity(), day.as_capacity(), booked):
            plans = () if day.opens_at <= now else _planned_anew(bench, day, booked)
            _store(jobs, plans)
            broken += [] if plans else [day]
    if broken:
        raise BenchPromised(_unkept(broken, now))


def _unkept(broken: Sequence[BenchDay], now: datetime) -> str:
    named = ", ".join(date_format(day.on, "d M Y") for day in broken[:MOST_DAYS_NAMED])
    if len(broken) > MOST_DAYS_NAMED:
        named = _("{days} and {number} more").format(days=named, number=len(broken) - MOST_DAYS_NAMED)
    said = [
        _("With these minutes the promises of {days} could not be kept.").format(days=named),
        _("Nothing was changed."),
    ]
    if any(day.opens_at <= now for day in broken):
        said += [_("A day that has begun is not planned anew: try again when it is over.")]
    return " ".join(said)


def _planned_anew(bench: Bench, day: BenchDay, booked: Sequence[Booked]) -> Sequence[SittingPlan]:
    """Plans by the new minutes for what is promised, or none where that was not found."""
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.exact.replan import lay_out

    sittings = [each.sitting for each in booked]
    return lay_out(bench.as_capacity(), day.as_capacity(), sittings, seconds=SECONDS_A_DAY).plans


def _store(jobs: Sequence[BenchJob], plans: Sequence[SittingPlan]) -> None:
    for job, plan in zip(jobs, plans, strict=False):
        job.plan = plan.as_json()
        job.save(update_fields=["plan"])
