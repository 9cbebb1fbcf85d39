"""What the chemistry leaves of a month, in a database of its own: `python -m tests.benchmarks.chemistry`.

Prints the milliseconds of one core and the queries in which the limits of thirty days with ten plates on each are read:
with collodion and a bath that two hundred plates went through, and with all four solutions limiting, ample and scarce.
"""

import sys
import time
from datetime import UTC, date, datetime, timedelta
from statistics import median
from typing import Any

from tests.benchmarks.studio import scratch_studio

DAYS = 30
POURED = 200
LOOKS = 5
KINDS = ("collodion", "developer", "fixer", "varnish")
STAGES = ("poured", "sensitised", "developed", "fixed", "varnished")


def main() -> None:
    with scratch_studio():
        sys.stdout.write(report() + "\n")


def report() -> str:
    bench = fill()
    told = [f"collodion and a bath: {look()}"]
    for kind in KINDS[1:]:
        setattr(bench, f"limited_by_{kind}", True)
    bench.save()
    told.append(f"four solutions, ample: {look()}")
    count(30)
    told.append(f"four solutions, scarce: {look()}")
    return "\n".join(told)


def look() -> str:
    """The median of a few looks, in words."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    from plates.bench.models import BenchDay
    from plates.budgets.limits import limits
    from tests.builders import NOW

    days = list(BenchDay.objects.filter(opens_at__gt=NOW).select_related("bench__largest_size"))
    took = []
    for _ in range(LOOKS):
        begun = time.process_time()
        with CaptureQueriesContext(connection) as asked:
            found = limits(days=days, now=NOW)
        took.append(1000 * (time.process_time() - begun))
    limited = sum(map(bool, found.values()))
    return f"{median(took):.0f} ms, {len(asked)} queries, {limited} of {len(days)} days limited"


def fill() -> Any:
    """Thirty days with five sittings of two halves each, three bottles of each kind, and a bath long in use."""
    from plates.schedule.services import jobs as promises
    from tests import builders
    from tests.builders import NOW, SATURDAY

    half, bench = builders.a_size("half"), builders.a_bench()
    for number in range(DAYS):
        day = builders.a_day(on=SATURDAY + timedelta(days=number), bench=bench).bench_day
        for hour in range(5):
            starts_at = day.opens_at + timedelta(hours=hour)
            held = {"held_until": NOW + timedelta(days=5), "now": NOW}
            promises.reserve(day_id=day.pk, starts_at=starts_at, sizes=[half] * 2, **held)
    use_a_bath(bench)
    for kind in KINDS:
        for number in range(3):
            a_bottle(kind, f"{kind} {number}", 3_000_000)
    return bench


def use_a_bath(bench: Any) -> None:
    from plates.bench.models import BenchJob, Plate, PlateEvent
    from plates.store.models import BathCare
    from tests.builders import NOW
    from tests.builders.store import a_bath

    bath = a_bath(now=NOW - timedelta(days=30), silver_mg=150_000)
    BathCare.objects.create(batch=bath, kind="in_use", bench=bench, at=NOW - timedelta(days=29))
    slot = BenchJob.objects.all()[0].slots.all()[0]
    facts = {"slot": slot, "size": slot.size, "stage": "spoilt", "spoilt_reason": "fogged", "stage_at": NOW}
    for number in range(POURED):
        plate = Plate.objects.create(number=1000 + number, **facts)
        at = NOW - timedelta(days=20) + timedelta(minutes=number)
        for stage in STAGES:
            PlateEvent.objects.create(plate=plate, stage=stage, at=at)


def a_bottle(kind: str, label: str, amount_ul: int) -> None:
    """Three litres that were measured six times."""
    from plates.store.models import Batch
    from tests.builders import NOW

    mixed = datetime(2026, 11, 1, tzinfo=UTC)
    days = {"mixed_on": mixed.date(), "ripe_from": mixed.date(), "best_before": date(2027, 5, 1)}
    batch = Batch.objects.create(kind=kind, label=label, made_ul=amount_ul, mixed_at=mixed, **days)
    for number in range(6):
        at = NOW - timedelta(days=20 - number)
        batch.events.create(kind="counted", amount_ul=amount_ul - number * 20_000, at=at)


def count(millilitres: int) -> None:
    """Every bottle is measured, and found to hold so much."""
    from plates.store.models import Batch
    from tests.builders import NOW

    for batch in Batch.objects.exclude(kind="bath"):
        batch.events.create(kind="counted", amount_ul=millilitres * 1000, at=NOW - timedelta(hours=1))


if __name__ == "__main__":
    main()
