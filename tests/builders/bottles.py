"""Bottles and days of plain halves for the tests of what chemistry leaves for sale.

A half plate is 107.95 mm by 139.7 mm, 150.81 cm²; at 0.03 mL/cm² (trade-facts s.3, from memory) it takes 4.525 mL of
collodion, rounded up to the microlitre.
"""

from datetime import UTC, date, datetime, timedelta

from plates.bench.models import Bench
from plates.schedule.services import jobs as bench
from plates.schedule.services.replanning import foreseeing
from plates.store.models import Batch, BatchEvent
from tests import builders
from tests.builders import NOW, SATURDAY

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
HALF_UL = 4525
HALF_HOUR = timedelta(minutes=30)


def a_batch(
    millilitres,
    *,
    label="C 1",
    kind="collodion",
    mixed_on=date(2026, 11, 1),
    ripe_from=None,
    best_before=date(2027, 5, 2),
    **changes,
):
    return Batch.objects.create(
        kind=kind,
        label=label,
        made_ul=round(millilitres * 1000),
        mixed_at=datetime.combine(mixed_on, datetime.min.time(), UTC),
        mixed_on=mixed_on,
        ripe_from=ripe_from or mixed_on,
        best_before=best_before,
        **changes,
    )


def counted(batch, millilitres, at=NOW, kind=BatchEvent.Kind.COUNTED):
    return BatchEvent.objects.create(batch=batch, kind=kind, amount_ul=round(millilitres * 1000), at=at)


def a_day_of_halves(on=SATURDAY, **bench):
    """A bench day, and the half plate in the list of sizes; without luck unless a bench says so."""
    builders.a_size("half")
    facts = {"retake_chance": 0} | bench
    found = Bench.objects.filter(name="Home bench").first() or builders.a_bench(**facts)
    return builders.a_day(on=on, bench=found).bench_day


def sold(day, number, *, plates=1):
    """A sitting of half plates at the half hour with that number."""
    return foreseeing(bench.reserve)(
        day_id=day.pk,
        starts_at=day.opens_at + number * HALF_HOUR,
        sizes=[builders.a_size("half")] * plates,
        held_until=NOW + timedelta(days=5),
        now=NOW,
    )
