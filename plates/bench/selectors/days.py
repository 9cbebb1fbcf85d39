"""The days of a bench that are still to come. Nothing here writes."""

from datetime import datetime

from plates.bench.models import Bench, BenchDay


def days_ahead(*, bench: Bench, now: datetime) -> list[BenchDay]:
    """The next days of a bench whose racks are not empty yet: today's first, three at most."""
    return list(BenchDay.objects.filter(bench=bench, racks_empty_by__gt=now).order_by("opens_at")[:3])
