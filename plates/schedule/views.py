"""The minutes that a bench has learned from its own plate log: numbers only, no client's name."""

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from plates.bench.models import Bench
from plates.common.access import photographer
from plates.errors import PlatesError
from plates.schedule.selectors import timings as selector
from plates.schedule.services.timings import accept_timing


class AcceptForm(forms.Form):
    """Which step, and the minutes that stood on the button."""

    operation = forms.CharField(max_length=20)
    minutes = forms.IntegerField(min_value=1, max_value=24 * 60)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def timings(request: HttpRequest, bench_id: int) -> HttpResponse:
    """Show what was learned beside what is planned, and plan with it on a press."""
    bench = get_object_or_404(Bench, pk=bench_id)
    refusal = None
    if request.method == "POST":
        refusal = _accepted(request, bench)
        if refusal is None:
            return redirect("plates:timings", bench.pk)
    context = {"bench": bench, "timings": selector.timings(bench=bench), "refusal": refusal}
    return render(request, "plates/schedule/timings.html", context, status=409 if refusal else 200)


def _accepted(request: HttpRequest, bench: Bench) -> str | None:
    """Take the minutes over; the sentence of the refusal when that cannot be."""
    form = AcceptForm(request.POST)
    if not form.is_valid():
        return _("That is not a step with minutes. Press one of the buttons on this page.")
    try:
        accept_timing(bench_id=bench.pk, now=timezone.now(), **form.cleaned_data)
    except PlatesError as refused:
        return str(refused)
    messages.success(
        request,
        _("Planned with {minutes} minutes from now on.").format(minutes=form.cleaned_data["minutes"]),
    )
    return None
