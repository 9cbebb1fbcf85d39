"""The days ahead: what is open, what is sold, what binds."""

from collections.abc import Sequence

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay
from bookings.diary.services import open_day
from bookings.planner.forms.days import OpenDayForm
from bookings.planner.selectors import days as selector
from bookings.planner.selectors.what_if import prospects
from plates.bench.models import PlateSize
from plates.budgets.levels_of_day import levels_of_day
from plates.common.access import photographer
from plates.schedule.selectors.lanes import day_lanes


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def planner(request: HttpRequest) -> HttpResponse:
    """Show the days ahead, and open another one."""
    now = timezone.now()
    form = OpenDayForm(request.POST or None, now=now)
    if request.method == "POST" and form.is_valid():
        try:
            cleaned = form.cleaned_data
            opened = open_day(
                venue=cleaned["venue"],
                bench=cleaned["bench"],
                on=cleaned["on"],
                hours=form.hours(),
                sun_height=form.least_sun_height(),
            )
            return redirect("studio:plan_day", opened.pk)
        except ValidationError as error:
            form.add_error(None, error.messages)
    context = {"form": form, "days": selector.days_ahead(now=now)}
    return render(request, "bookings/planner/planner.html", context, status=400 if form.is_bound else 200)


@photographer
@require_safe
def plan_day(request: HttpRequest, day_id: int) -> HttpResponse:
    now = timezone.now()
    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    day = get_object_or_404(days, pk=day_id)
    sizes = _offered()
    size = _asked_size(request, sizes)
    context = {
        "day": day,
        "sizes": sizes,
        "size": size,
        "lanes": day_lanes(
            day=day.bench_day, labels=selector.references(day=day), zone=day.venue.tz, now=now
        ),
        "hours": selector.hours(day=day, size=size, now=now) if size else [],
        "starts": calendar.openings(days=[day], sizes=[size], now=now)[0].starts if size else [],
        "light": calendar.light_in_words(day),
        "chemistry": levels_of_day(day=day.bench_day, now=now),
    }
    return render(request, "bookings/planner/plan_day.html", context)


@photographer
@require_safe
def chances(request: HttpRequest, day_id: int) -> HttpResponse:
    # The solver and numpy take a moment to load, so they are loaded only where chances are asked for.
    from plates.schedule.selectors.chances import day_chances, suggested_spacings

    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    day, size = get_object_or_404(days, pk=day_id), _asked_size(request, _offered())
    found = day_chances(day=day.bench_day, now=timezone.now())
    context = {
        "day": day,
        "bench": day.bench_day.bench,
        "size": size,
        "chances": found,
        "sitters": selector.named(day=day, jobs=found.sitters),
        "spacings": suggested_spacings(day=day.bench_day, size=size) if size else [],
    }
    return render(request, "bookings/planner/chances.html", context)


@photographer
@require_safe
def what_if(request: HttpRequest, day_id: int) -> HttpResponse:
    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    day, sizes = get_object_or_404(days, pk=day_id), _offered()
    size = _asked_size(request, sizes)
    context = {
        "day": day,
        "sizes": sizes,
        "size": size,
        "prospects": prospects(day=day, size=size, now=timezone.now()) if size else None,
    }
    return render(request, "bookings/planner/what_if.html", context)


def _asked_size(request: HttpRequest, offered: Sequence[PlateSize]) -> PlateSize | None:
    """The size that the address names; the first one where it names none that is offered."""
    asked = request.GET.get("size", "")
    return next((size for size in offered if str(size.pk) == asked), offered[0] if offered else None)


def _offered() -> list[PlateSize]:
    return list(PlateSize.objects.filter(offered=True))
