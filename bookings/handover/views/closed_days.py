"""The days on which the studio is closed."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bookings.handover.forms import ClosedDayForm, HolidaysForm
from bookings.handover.public_holidays import public_holidays
from bookings.studio.selectors import the_studio
from plates.common.access import photographer
from plates.finishing import services as service
from plates.finishing.models import ClosedDay


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def closed_days(request: HttpRequest) -> HttpResponse:
    """Show the closed days to come, close another one, and propose the public holidays of a year."""
    now, studio = timezone.now(), the_studio()
    form = ClosedDayForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        service.close(days={form.cleaned_data["on"]: form.cleaned_data["why"]})
        return redirect("studio:closed_days")
    year = HolidaysForm.asked_year(request.GET, now.year)
    proposed = public_holidays(studio.country, year, studio.locale)
    closed = ClosedDay.objects.filter(on__year__gte=now.year)
    context = {
        "form": form,
        "closed": closed,
        "year": year,
        "proposed": HolidaysForm.left(proposed, {day.on for day in closed}),
    }
    return render(
        request, "bookings/handover/closed_days.html", context, status=400 if form.is_bound else 200
    )


@photographer
@require_POST
def close_holidays(request: HttpRequest) -> HttpResponse:
    """Close the studio on the proposed days that are ticked."""
    studio = the_studio()
    form = HolidaysForm(request.POST, country=studio.country, locale=studio.locale)
    if form.is_valid():
        service.close(days=form.days_kept())
    else:
        messages.error(request, _("Tick at least one of the days proposed."))
    return redirect("studio:closed_days")


@photographer
@require_POST
def open_again(request: HttpRequest, closed_day_id: int) -> HttpResponse:
    service.open_again(closed_day_id=closed_day_id)
    return redirect("studio:closed_days")
