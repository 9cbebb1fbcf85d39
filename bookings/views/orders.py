"""One order: its money, its papers, another time, or none."""

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings import documents
from bookings.errors import BookingsError
from bookings.forms.public import parse_start
from bookings.forms.studio import PaymentForm
from bookings.forms.vouchers import BackForm, DeskCodeForm
from bookings.models import Invoice, Order, SittingDay
from bookings.selectors import calendar
from bookings.selectors.books import mailings
from bookings.selectors.orders import account, cancelling, standing
from bookings.selectors.queue import plates_of
from bookings.selectors.vouchers import parts_of
from bookings.services import invoices, payments, sittings
from bookings.views.papers import pdf
from plates.errors import BenchFull, PlatesError
from plates.views.access import photographer

LONGEST_WORDS = 100  # as the page's field says


@photographer
@require_safe
def orders(request: HttpRequest) -> HttpResponse:
    """The placed orders, newest first, or those that match the words looked for."""
    words = request.GET.get("q", "").replace("\0", "")[:LONGEST_WORDS].strip()
    found = Order.objects.filter(placed_at__isnull=False).select_related(
        "client", "sitting__day__venue", "sitting__bench_job"
    )
    if words:
        found = found.filter(
            Q(reference__icontains=words)
            | Q(client__name__icontains=words)
            | Q(client__email__icontains=words)
        )
    return render(request, "bookings/studio/orders.html", {"orders": found[:100], "words": words})


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def order(request: HttpRequest, reference: str) -> HttpResponse:
    """Show an order, and record a payment for it."""
    shown = _order(reference)
    form = PaymentForm(request.POST or None, currency=shown.currency)
    if request.method == "POST" and form.is_valid():
        try:
            payments.record(
                order_id=shown.pk, now=timezone.now(), recorded_by=cast(User, request.user), **form.payment()
            )
            return redirect("studio:order", reference)
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    return _order_page(request, shown, form)


@photographer
@require_POST
def issue(request: HttpRequest, reference: str) -> HttpResponse:
    try:
        invoices.issue(order_id=_order(reference).pk, now=timezone.now())
    except BookingsError as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:order", reference)


@photographer
@require_safe
def invoice(request: HttpRequest, reference: str) -> HttpResponse:
    issued = get_object_or_404(Invoice.objects.select_related("series", "order"), order__reference=reference)
    return pdf(documents.invoice_pdf(issued), f"{issued.label}.pdf")


@photographer
@require_safe
def pickup_notice(request: HttpRequest, reference: str) -> HttpResponse:
    return pdf(documents.pickup_notice_pdf(_order(reference), now=timezone.now()), f"pickup-{reference}.pdf")


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def cancel(request: HttpRequest, reference: str) -> HttpResponse:
    shown = _order(reference)
    now = timezone.now()
    if request.method == "POST":
        try:
            sittings.cancel(order_id=shown.pk, now=now)
        except (PlatesError, BookingsError) as refusal:
            messages.error(request, str(refusal))
        return redirect("studio:order", reference)
    money = account(shown)
    left = cancelling(shown, money, now=now)
    context = {"order": shown, "account": money, "kept": left.kept, "returned": left.returned}
    return render(request, "bookings/studio/cancel.html", context)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def move(request: HttpRequest, reference: str) -> HttpResponse:
    shown = _order(reference)
    now = timezone.now()
    refusal = None
    if request.method == "POST":
        try:
            day_id, starts_at = parse_start(request.POST.get("start", ""))
            sittings.move(order_id=shown.pk, day_id=day_id, starts_at=starts_at, now=now)
            return redirect("studio:order", reference)
        except SittingDay.DoesNotExist:
            refusal = "That day is no longer kept. Choose another one."
        except BenchFull as full:
            refusal = calendar.full_in_words(full=full, now=now)
        except (ValueError, PlatesError, BookingsError) as error:
            refusal = str(error)
    sizes = [slot.size for slot in shown.sitting.bench_job.slots.select_related("size")]
    choices = calendar.openings(days=calendar.open_days(now=now), sizes=sizes, now=now)
    context = {"order": shown, "choices": choices, "refusal": refusal}
    return render(request, "bookings/studio/move.html", context, status=409 if refusal else 200)


def _order(reference: str) -> Order:
    found = Order.objects.select_related("client", "terms", "sitting__day__venue", "sitting__bench_job__day")
    return get_object_or_404(found, reference=reference)


def _order_page(request: HttpRequest, shown: Order, form: PaymentForm) -> HttpResponse:
    sitting, owing = shown.sitting, account(shown)
    parts = parts_of(shown)
    context = {
        "order": shown,
        "sitting": sitting,
        "day": sitting.day,
        "starts_at": sitting.day.local(sitting.bench_job.starts_at),
        "held_until": sitting.day.local(sitting.bench_job.held_until),
        "standing": standing(shown, now=timezone.now()),
        "plates": plates_of(sitting),
        "account": owing,
        "code_form": DeskCodeForm(currency=shown.currency),
        "voucher_parts": [
            (part, BackForm.of(part, overpaid=owing.overpaid, number=number))
            for number, part in enumerate(parts, start=1)
        ],
        "payments": shown.payments.select_related("with_voucher"),
        "payment_form": form,
        "invoice": Invoice.objects.filter(order=shown).select_related("series").first(),
        "notices": shown.notices.all(),
        "mailings": mailings(order=shown),
    }
    return render(request, "bookings/studio/order.html", context, status=400 if form.is_bound else 200)
