"""A day that runs late: the new times, and telling them."""

from collections.abc import Callable
from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from bookings.day.selectors.lateness import lateness
from bookings.day.services import lateness as service
from bookings.diary.models import SittingDay
from bookings.errors import BookingsError
from bookings.orders.models import Sitting
from plates.common.access import photographer
from plates.errors import PlatesError
from plates.schedule.selectors.late import dried


@photographer
@require_safe
def late(request: HttpRequest, day_id: int) -> HttpResponse:
    now = timezone.now()
    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    day = get_object_or_404(days, pk=day_id)
    context = {
        "day": day,
        "now": day.local(now),
        "late": lateness(day=day, now=now),
        "dried": dried(day=day.bench_day, now=now),
        "over": now >= day.bench_day.racks_empty_by,
    }
    return render(request, "bookings/day/late.html", context)


@photographer
@require_POST
def again(request: HttpRequest, day_id: int) -> HttpResponse:
    day = get_object_or_404(SittingDay, pk=day_id)
    return _attempt(request, day_id, partial(service.expect_anew, day_id=day.pk, now=timezone.now()))


@photographer
@require_POST
def notify(request: HttpRequest, sitting_id: int) -> HttpResponse:
    sitting = get_object_or_404(Sitting, pk=sitting_id)
    return _attempt(
        request, sitting.day_id, partial(service.notify, sitting_id=sitting_id, now=timezone.now())
    )


@photographer
@require_POST
def notify_all(request: HttpRequest, day_id: int) -> HttpResponse:
    day = get_object_or_404(SittingDay, pk=day_id)
    return _attempt(request, day_id, partial(service.notify_all, day_id=day.pk, now=timezone.now()))


def _attempt(request: HttpRequest, day_id: int, action: Callable[[], object]) -> HttpResponse:
    """Do it and show the new times again; a refusal is shown above them."""
    try:
        action()
    except (PlatesError, BookingsError) as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:late", day_id)
