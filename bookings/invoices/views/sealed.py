"""Invoices kept by law of people who were forgotten: a list without names, and each opened for a reason."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from bookings.common.http import pdf
from bookings.invoices.forms import LookForm
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.selectors.sealed import sealed_papers, shut_away
from bookings.invoices.services import sealed as kept_away
from bookings.studio.selectors import the_studio
from plates.common.access import operator_of, photographer


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def kept_by_law(request: HttpRequest) -> HttpResponse:
    """The list; sent with a number and a reason, that paper."""
    form = LookForm(request.POST or None, papers=shut_away())
    if request.method == "POST" and form.is_valid():
        paper = kept_away.open_sealed(
            invoice_id=get_object_or_404(shut_away(), pk=form.cleaned_data["paper"].pk).pk,
            by=operator_of(request),
            reason=form.cleaned_data["reason"],
            now=timezone.now(),
        )
        return pdf(invoice_pdf(paper), f"{paper.label}.pdf")
    context = {"form": form, "kept": sealed_papers(the_studio()), "today": timezone.now().date()}
    return render(request, "bookings/invoices/kept.html", context, status=400 if form.is_bound else 200)
