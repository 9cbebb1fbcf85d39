"""Many invoices at once: which, how far, and all of them in one file."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from bookings.errors import NothingToInvoice
from bookings.invoices import files as invoice_files
from bookings.invoices.forms import InvoicesForm
from bookings.invoices.models import Invoice, InvoiceRun
from bookings.invoices.selectors.runs import progress, uninvoiced
from bookings.invoices.services import runs as invoice_runs
from plates.common.access import operator_of, photographer


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def to_invoice(request: HttpRequest) -> HttpResponse:
    """The orders that wait for their invoice; all that are ticked are issued at once."""
    now = timezone.now()
    form = InvoicesForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        how = {"by_mail": form.cleaned_data["by_mail"], "asked_by": operator_of(request)}
        try:
            run = invoice_runs.start(order_ids=form.order_ids(), now=now, **how)
            return redirect("studio:invoice_run", run.pk)
        except NothingToInvoice as refusal:
            messages.error(request, str(refusal))
            return redirect("studio:to_invoice")
    context = {"form": form, "rows": uninvoiced(now=now)}
    status = 400 if request.method == "POST" else 200
    return render(request, "bookings/invoices/to_invoice.html", context, status=status)


@photographer
@require_safe
def invoice_run(request: HttpRequest, run_id: int) -> HttpResponse:
    run = get_object_or_404(InvoiceRun.objects.select_related("asked_by"), pk=run_id)
    return render(request, "bookings/invoices/run.html", {"progress": progress(run)})


@photographer
@require_safe
def state(request: HttpRequest, run_id: int) -> JsonResponse:
    """What a screen asks every two seconds while a run is under way."""
    return JsonResponse({"state": progress(get_object_or_404(InvoiceRun, pk=run_id)).state})


@photographer
@require_safe
def papers(request: HttpRequest, run_id: int) -> HttpResponseBase:
    """Every invoice of a run as PDF, printed while the file is sent."""
    run = get_object_or_404(InvoiceRun, pk=run_id)
    issued = [row.invoice.pk for row in progress(run).issued]
    found = (
        Invoice.objects.filter(pk__in=issued, order__client__erased_at=None)
        .select_related("series", "order")
        .order_by("series", "number")
    )
    return StreamingHttpResponse(
        invoice_files.zipped(found.iterator(chunk_size=50)),
        content_type="application/zip",
        headers={"Content-Disposition": f'attachment; filename="invoices-{run.pk}.zip"'},
    )
