"""What is promised and not poured yet, by day and size: what bottles will be asked for. Nothing here writes."""

from collections import Counter
from datetime import date, datetime

from django.db.models import Count

from plates.bench.models import BenchJob, PlateSlot

# A day, the id of a size, the id of a bench.
Asked = Counter[tuple[date, int, int]]


def still_to_pour(*, now: datetime, without: int = 0) -> Asked:
    """Plates promised at `now` on days that are not over, those made again too; `without` leaves one job out."""
    promised = BenchJob.objects.promised(now).filter(day__closes_at__gt=now).exclude(pk=without).order_by()
    slots = PlateSlot.objects.filter(job__in=promised, given_up_at__isnull=True, plates__isnull=True)
    again = promised.filter(retake_of__isnull=False, begun_at__isnull=True)
    found: Asked = Counter()
    for rows in (
        slots.order_by()
        .values_list("job__day__on", "size_id", "job__day__bench_id")
        .annotate(number=Count("pk")),
        again.values_list("day__on", "retake_of__size_id", "day__bench_id").annotate(number=Count("pk")),
    ):
        for on, size, bench, number in rows:
            found[on, size, bench] += number
    return found
