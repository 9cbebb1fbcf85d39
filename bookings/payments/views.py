"""The cash box and the takings of a day."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from bookings.diary import clock
from bookings.errors import BookingsError
from bookings.payments import selectors
from bookings.payments.forms import CashUpForm, TakingsForm
from bookings.payments.services import cash as services
from bookings.studio.selectors import the_studio
from plates.common.access import operator_of, photographer

COUNTS_SHOWN = 60


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def cash(request: HttpRequest) -> HttpResponse:
    """Show what should lie in the box and what a day took in; write a count down."""
    box = selectors.cash_box(currency=the_studio().currency)
    form = CashUpForm(request.POST or None, box=box)
    if request.method == "POST" and form.is_valid():
        try:
            services.count(counted_by=operator_of(request), now=timezone.now(), **form.count())
            return redirect("studio:cash")
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    return _page(request, box, form)


def _page(request: HttpRequest, box: selectors.CashBox, form: CashUpForm) -> HttpResponse:
    zone = clock.studio_zone()
    today = timezone.now().astimezone(zone).date()
    day = TakingsForm(request.GET if "on" in request.GET else {"on": today})
    on = day.cleaned_data["on"] if day.is_valid() else today
    taken = selectors.takings(on=on, zone=zone, currency=box.currency)
    context = {
        "box": box,
        "form": form,
        "day": day,
        "on": on,
        "zone": zone,
        "takings": taken,
        "together": selectors.together(taken),
        "counts": selectors.counts_in(currency=box.currency)[:COUNTS_SHOWN],
    }
    status = 400 if form.is_bound or day.errors else 200
    return render(request, "bookings/payments/cash.html", context, status=status)
