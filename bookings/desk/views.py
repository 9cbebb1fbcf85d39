"""One order: its money and its papers."""

from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from bookings.changes.selectors import without_plate
from bookings.common.http import pdf, search_words
from bookings.errors import BookingsError
from bookings.handover import papers as pickup_notices
from bookings.handover.selectors.desk import goes_by_post, handed
from bookings.invoices.selectors.invoices import invoicing
from bookings.invoices.selectors.status import mailings
from bookings.letters.selectors.validity import stopped_at
from bookings.orders.models import Order
from bookings.orders.selectors.account import account, moving, order_status
from bookings.orders.selectors.plates import plates_of
from bookings.payments.forms import PaymentForm
from bookings.payments.services import ledger as payments
from bookings.vouchers.forms import DeskCodeForm, RefundForm
from bookings.vouchers.selectors import parts_of
from plates.common.access import operator_of, photographer


@photographer
@require_safe
def orders(request: HttpRequest) -> HttpResponse:
    """The placed orders, newest first, or those that match the words looked for."""
    words = search_words(request)
    found = Order.objects.placed().select_related("client", "sitting__day__venue", "sitting__bench_job")
    if words:
        found = found.filter(
            Q(reference__icontains=words)
            | Q(client__name__icontains=words)
            | Q(client__email__icontains=words)
        )
    return render(request, "bookings/desk/orders.html", {"orders": found[:100], "words": words})


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def order(request: HttpRequest, reference: str) -> HttpResponse:
    """Show an order, and record a payment for it."""
    shown = _order(reference)
    overpaid = account(shown).overpaid
    form = PaymentForm(request.POST or None, currency=shown.currency, to_give_back=overpaid)
    if request.method == "POST" and form.is_valid():
        try:
            payments.record(
                order_id=shown.pk, now=timezone.now(), recorded_by=operator_of(request), **form.payment()
            )
            return redirect("studio:order", reference)
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    return _order_page(request, shown, form)


@photographer
@require_safe
def pickup_notice(request: HttpRequest, reference: str) -> HttpResponse:
    return pdf(
        pickup_notices.pickup_notice_pdf(_order(reference), now=timezone.now()), f"pickup-{reference}.pdf"
    )


def _order(reference: str) -> Order:
    return get_object_or_404(Order.objects.with_sitting(), reference=reference)


def _order_page(request: HttpRequest, shown: Order, form: PaymentForm) -> HttpResponse:
    sitting, owing = shown.sitting, account(shown)
    parts = parts_of(shown)
    context = {
        "order": shown,
        "sitting": sitting,
        "day": sitting.day,
        "starts_at": sitting.day.local(sitting.bench_job.starts_at),
        "held_until": sitting.day.local(sitting.bench_job.held_until),
        "status": order_status(shown, now=timezone.now()),
        "plates": plates_of(sitting),
        "without": without_plate(shown),
        "cost": moving(shown, now=timezone.now()),
        "account": owing,
        "code_form": DeskCodeForm(currency=shown.currency),
        "voucher_parts": [
            (part, RefundForm.of(part, overpaid=owing.overpaid, number=number))
            for number, part in enumerate(parts, start=1)
        ],
        "payments": shown.payments.select_related("with_voucher"),
        "came_by_card": shown.card_checkouts.received(),
        "payment_form": form,
        "invoicing": invoicing(shown),
        "given": handed(shown),
        "by_post": goes_by_post(shown),
        "notices": shown.notices.all(),
        "reminders_stopped_at": stopped_at(shown),
        "mailings": mailings(order=shown),
    }
    return render(request, "bookings/desk/order.html", context, status=400 if form.is_bound else 200)
