"""The waiting list of a day as the studio keeps it."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from bookings.diary.models import SittingDay
from bookings.waitlist import services as waiting
from bookings.waitlist.models import Waiting
from bookings.waitlist.selectors import the_list
from plates.common.access import photographer


@photographer
@require_safe
def waiting_list(request: HttpRequest, day_id: int) -> HttpResponse:
    day = get_object_or_404(SittingDay.objects.select_related("venue", "bench_day"), pk=day_id)
    context = {"day": day, "places": the_list(day=day, now=timezone.now())}
    return render(request, "bookings/waitlist/desk.html", context)


@photographer
@require_POST
def strike(request: HttpRequest, waiting_id: int) -> HttpResponse:
    place = get_object_or_404(Waiting, pk=waiting_id)
    waiting.strike(place_id=place.pk, now=timezone.now())
    return redirect("studio:waiting_list", place.day_id)
