"""The photographer's day: the queue and each press on a plate."""

from datetime import datetime
from functools import partial

from django.db.models import Q
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.day.forms import SpoilForm
from bookings.day.selectors import alerts as troubles
from bookings.day.selectors import queue
from bookings.day.selectors.next_up import next_up
from bookings.day.selectors.queue import day_state
from bookings.day.services import lateness
from bookings.day.views.attendance import attempt
from bookings.diary.models import SittingDay
from bookings.handover.services import pickup
from bookings.orders.models import Sitting
from plates.bench.models import Plate
from plates.bench.selectors import in_the_wash
from plates.common.access import operator_of, photographer
from plates.ledger.services import events as ledger
from plates.ledger.services import undo
from plates.schedule.selectors.lanes import day_lanes

OTHER_DAYS = 6


@photographer
@require_safe
def today(request: HttpRequest) -> HttpResponse:
    day = queue.day_on(now=timezone.now())
    return redirect("studio:day", day.pk) if day else redirect("studio:planner")


@photographer
@require_safe
def day(request: HttpRequest, day_id: int) -> HttpResponse:
    now = timezone.now()
    shown, other_days = _day_and_others(day_id, now)
    rows = queue.day_queue(day=shown, now=now)
    labels = {row.sitting.bench_job_id: row.label for row in rows}
    context = {
        "day": shown,
        "rows": rows,
        "next_up": next_up(day=shown, rows=rows, now=now),
        "state": day_state(day=shown, now=now),
        "wash": in_the_wash(bench=shown.bench_day.bench),
        "lanes": day_lanes(day=shown.bench_day, labels=labels, zone=shown.venue.tz, now=now),
        "now": shown.local(now),
        "troubles": troubles.open_troubles(now=now),
        "other_days": other_days,
    }
    return render(request, "bookings/day/queue.html", context)


def _day_and_others(day_id: int, now: datetime) -> tuple[SittingDay, list[SittingDay]]:
    """The day that is asked for, and some of those still to come."""
    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    ahead = days.filter(Q(pk=day_id) | Q(bench_day__closes_at__gt=now)).order_by("bench_day__opens_at")
    found = {day.pk: day for day in ahead}
    if day_id not in found:
        raise Http404
    shown = found.pop(day_id)
    return shown, list(found.values())[:OTHER_DAYS]


@photographer
@never_cache
@require_safe
def state(request: HttpRequest, day_id: int) -> JsonResponse:
    """What a screen asks every two seconds: is there anything new?"""
    shown = get_object_or_404(SittingDay.objects.select_related("bench_day"), pk=day_id)
    return JsonResponse({"state": day_state(day=shown, now=timezone.now())})


@photographer
@require_POST
def pour(request: HttpRequest, slot_id: int) -> HttpResponse:
    sitting = get_object_or_404(Sitting, bench_job__slots__pk=slot_id)
    action = partial(ledger.pour, slot_id=slot_id, operator=operator_of(request), now=timezone.now())
    return attempt(request, sitting, action)


@photographer
@require_POST
def press(request: HttpRequest, plate_id: int) -> HttpResponse:
    sitting = get_object_or_404(Sitting, bench_job__slots__plates__pk=plate_id)
    action = partial(
        pickup.move_on,
        plate_id=plate_id,
        stage=request.POST.get("stage", ""),
        operator=operator_of(request),
        now=timezone.now(),
    )
    return attempt(request, sitting, action)


@photographer
@require_POST
def undo_press(request: HttpRequest, plate_id: int) -> HttpResponse:
    sitting = get_object_or_404(Sitting, bench_job__slots__plates__pk=plate_id)
    action = partial(undo.undo_press, plate_id=plate_id, operator=operator_of(request), now=timezone.now())
    return attempt(request, sitting, action)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def spoil(request: HttpRequest, plate_id: int) -> HttpResponse:
    plate = get_object_or_404(Plate.objects.select_related("size"), pk=plate_id)
    sitting = get_object_or_404(Sitting, bench_job__slots__plates__pk=plate_id)
    form = SpoilForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        action = partial(
            lateness.spoil,
            plate_id=plate_id,
            operator=operator_of(request),
            now=timezone.now(),
            **form.cleaned_data,
        )
        return attempt(request, sitting, action)
    status = 400 if request.method == "POST" else 200
    context = {"form": form, "plate": plate, "day_id": sitting.day_id}
    return render(request, "bookings/day/spoil.html", context, status=status)
