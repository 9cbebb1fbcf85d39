"""The invoices of an order: issued, read as paper and as XML, taken back; and whom they are made out to."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.common.http import pdf
from bookings.errors import BookingsError
from bookings.invoices.forms import CreditForm, MadeOutToForm, made_out_to_initial
from bookings.invoices.models import DocumentKind, Invoice
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.selectors.einvoices import einvoice
from bookings.invoices.selectors.invoices import creditable_lines
from bookings.invoices.selectors.sealed import refuse_shut_away
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Order
from bookings.orders.services import clients as people
from bookings.studio.selectors import the_studio
from plates.common.access import photographer


@photographer
@require_POST
def issue(request: HttpRequest, reference: str) -> HttpResponse:
    try:
        invoices.issue(order_id=get_object_or_404(Order, reference=reference).pk, now=timezone.now())
    except BookingsError as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:order", reference)


@photographer
@require_safe
def paper(request: HttpRequest, invoice_id: int) -> HttpResponse:
    issued = _issued(invoice_id)
    return pdf(invoice_pdf(issued), f"{issued.label}.pdf")


@photographer
@require_safe
def electronic(request: HttpRequest, invoice_id: int) -> HttpResponse:
    """The XML alone; a refusal says why there is none."""
    issued = _issued(invoice_id)
    disposition = content_disposition_header(True, f"{issued.label}.xml")
    headers = {"Content-Disposition": disposition or "attachment", "Cache-Control": "no-store"}
    return HttpResponse(einvoice(issued), content_type="application/xml", headers=headers)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def credit(request: HttpRequest, invoice_id: int) -> HttpResponse:
    """Choose the lines of an invoice that are taken back, and issue the credit note."""
    invoice = _issued(invoice_id, kind=DocumentKind.INVOICE)
    lines = list(creditable_lines(invoice))
    form = CreditForm(
        request.POST or None, lines=lines, currency=invoice.currency, locale=the_studio().locale
    )
    if request.method == "POST" and form.is_valid():
        try:
            credit_notes.issue(invoice_id=invoice.pk, now=timezone.now(), **form.credit())
            return redirect("studio:order", invoice.order.reference)
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    context = {"form": form, "invoice": invoice, "lines": lines}
    return render(request, "bookings/invoices/take_back.html", context, status=_status(request))


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def made_out_to(request: HttpRequest, reference: str) -> HttpResponse:
    """Note whom the next invoice of an order is made out to."""
    order = get_object_or_404(Order.objects.select_related("client"), reference=reference)
    form = MadeOutToForm(
        request.POST or None, initial=made_out_to_initial(order.client) if order.client else {}
    )
    if request.method == "POST" and form.is_valid():
        try:
            people.make_out_to(order_id=order.pk, to=form.made_out_to())
            return redirect("studio:order", reference)
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    return render(
        request, "bookings/invoices/made_out_to.html", {"form": form, "order": order}, status=_status(request)
    )


def _issued(invoice_id: int, **which: str) -> Invoice:
    found = Invoice.objects.select_related("series", "order__client", "corrects__series")
    issued = get_object_or_404(found, pk=invoice_id, **which)
    refuse_shut_away(issued)
    return issued


def _status(request: HttpRequest) -> int:
    """A form that is shown again after it was sent was not taken."""
    return 400 if request.method == "POST" else 200
