"""A quiet morning: many plates varnished or packed by one press; and the days on which the studio is closed."""

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from bookings.forms.finishing import BatchForm, ClosedDayForm
from bookings.forms.holidays import HolidaysForm
from bookings.public_holidays import public_holidays
from bookings.selectors import finishing as selector
from bookings.selectors.prices import the_studio
from plates.errors import PlatesError
from plates.models import ClosedDay, Stage
from plates.services import finishing as service
from plates.views.access import photographer


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def finishing(request: HttpRequest) -> HttpResponse:
    """Show what can be varnished and packed, and take one press for all that is ticked."""
    now = timezone.now()
    bench = selector.bench(now=now)
    form = BatchForm(request.POST or None, on_rack=bench.plate_ids())
    if request.method == "POST" and form.is_valid():
        try:
            done = service.bring_on(operator=cast(User, request.user), now=now, **form.batch())
            messages.success(request, _done(form.cleaned_data["stage"], len(done)))
            return redirect("studio:finishing")
        except PlatesError as refusal:
            form.add_error(None, str(refusal))
    context = {
        "bench": bench,
        "form": form,
        "ticked": form.ticked() or bench.all_of(request.GET.get("tick", "")),
    }
    return render(request, "bookings/finishing/bench.html", context, status=400 if form.is_bound else 200)


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
        request, "bookings/finishing/closed_days.html", context, status=400 if form.is_bound else 200
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


def _done(stage: str, plates: int) -> str:
    if stage == Stage.VARNISHED:
        return ngettext("%(plates)d plate is varnished.", "%(plates)d plates are varnished.", plates) % {
            "plates": plates
        }
    return ngettext("%(plates)d plate is packed.", "%(plates)d plates are packed.", plates) % {
        "plates": plates
    }
