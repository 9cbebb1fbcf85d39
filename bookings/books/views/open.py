"""The books: what is open, what was paid, and the papers that go by mail."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bookings.books import services as settling
from bookings.books.forms import PeriodForm, SettleForm, last_quarter
from bookings.errors import BookingsError
from bookings.invoices.models import DocumentKind, Invoice, InvoiceRun
from bookings.invoices.selectors import status as selectors
from bookings.invoices.selectors.runs import ready_to_invoice
from bookings.invoices.selectors.sealed import refuse_shut_away
from bookings.invoices.services import issuing as invoice_letters
from plates.common.access import operator_of, photographer

LATEST_RUNS = 10
MOST_TURNS = 10_000


@photographer
@require_safe
def books(request: HttpRequest) -> HttpResponse:
    """Where everything about the books begins."""
    before = last_quarter(timezone.now().date())
    return books_page(request, PeriodForm(initial={"since": before.since, "until": before.until}))


def books_page(request: HttpRequest, form: PeriodForm) -> HttpResponse:
    """That page, with a period as it was filled in wrong."""
    now = timezone.now()
    standing = selectors.open_invoices(now=now)
    context = {
        "form": form,
        "open": len(standing),
        "overdue": sum(each.since is not None for each in standing),
        "ready": ready_to_invoice(now=now).count(),
        "runs": InvoiceRun.objects.select_related("asked_by")[:LATEST_RUNS],
    }
    return render(request, "bookings/books/books.html", context, status=400 if form.is_bound else 200)


@photographer
@require_safe
def open_invoices(request: HttpRequest) -> HttpResponse:
    rows = [(each, SettleForm()) for each in selectors.open_invoices(now=timezone.now())]
    return render(request, "bookings/books/open.html", {"rows": rows})


@photographer
@require_POST
def settle(request: HttpRequest, invoice_id: int) -> HttpResponse:
    """Enter what is left on an invoice as a transfer that has come."""
    papers = Invoice.objects.select_related("series", "order__client")
    refuse_shut_away(get_object_or_404(papers, pk=invoice_id, kind=DocumentKind.INVOICE))
    form = SettleForm(request.POST)
    if not form.is_valid():
        messages.error(request, " ".join(str(error) for found in form.errors.values() for error in found))
        return redirect("studio:open_invoices")
    try:
        payment = settling.mark_paid(
            invoice_id=invoice_id,
            reference=form.paid_under(),
            now=timezone.now(),
            recorded_by=operator_of(request),
        )
        messages.success(request, _("{note} is paid: entered in the ledger.").format(note=payment.note))
    except BookingsError as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:open_invoices")


@photographer
@require_POST
def mail_paper(request: HttpRequest, invoice_id: int) -> HttpResponse:
    """Send a paper to its client, once for each letter that is asked for."""
    paper = get_object_or_404(Invoice.objects.select_related("order__client", "series"), pk=invoice_id)
    refuse_shut_away(paper)
    turn = request.POST.get("turn", "")
    asked = int(turn) if turn.isascii() and turn.isdigit() and len(turn) < len(str(MOST_TURNS)) else 1
    invoice_letters.mail(invoice_id=paper.pk, turn=asked, now=timezone.now())
    messages.success(
        request,
        _("{kind} {label} goes out by mail.").format(kind=paper.get_kind_display(), label=paper.label),
    )
    if request.POST.get("from") == "open":
        return redirect("studio:open_invoices")
    return redirect("studio:order", paper.order.reference)
