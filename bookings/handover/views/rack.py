"""A quiet morning: many plates varnished or packed by one press; and the days on which the studio is closed."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from bookings.handover.forms import BatchForm
from bookings.handover.selectors import rack as selector
from plates.bench.models import Stage
from plates.common.access import operator_of, photographer
from plates.errors import PlatesError
from plates.finishing import services as service


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def finishing(request: HttpRequest) -> HttpResponse:
    """Show what can be varnished and packed, and take one press for all that is ticked."""
    now = timezone.now()
    bench = selector.bench(now=now)
    form = BatchForm(request.POST or None, on_rack=bench.plate_ids())
    if request.method == "POST" and form.is_valid():
        try:
            done = service.bring_on(operator=operator_of(request), now=now, **form.batch())
            messages.success(request, _done(form.cleaned_data["stage"], len(done)))
            return redirect("studio:finishing")
        except PlatesError as refusal:
            form.add_error(None, str(refusal))
    context = {
        "bench": bench,
        "form": form,
        "ticked": form.ticked() or bench.all_of(request.GET.get("tick", "")),
    }
    return render(request, "bookings/handover/rack.html", context, status=400 if form.is_bound else 200)


def _done(stage: str, plates: int) -> str:
    if stage == Stage.VARNISHED:
        return ngettext("%(plates)d plate is varnished.", "%(plates)d plates are varnished.", plates) % {
            "plates": plates
        }
    return ngettext("%(plates)d plate is packed.", "%(plates)d plates are packed.", plates) % {
        "plates": plates
    }
