"""Gift vouchers on the photographer's side: sold at the desk, looked up, paid for, used for an order."""

from uuid import UUID, uuid4

from django.contrib import messages
from django.forms import Form
from django.forms.utils import pretty_name
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.common.http import pdf, search_words
from bookings.diary import clock
from bookings.errors import BookingsError
from bookings.orders.models import Order
from bookings.outbox import services as outbox
from bookings.payments.forms import PaymentForm
from bookings.studio.selectors import the_studio
from bookings.vouchers import selectors as selector
from bookings.vouchers.forms import DeskCodeForm, DeskGiftForm, RefundForm
from bookings.vouchers.models import Voucher
from bookings.vouchers.paper import voucher_pdf
from bookings.vouchers.services import redeeming
from bookings.vouchers.services import selling as service
from plates.common.access import operator_of, photographer


@photographer
@require_safe
def vouchers(request: HttpRequest) -> HttpResponse:
    """The newest vouchers, or those that match the words looked for, and what all of them still promise."""
    words = search_words(request)
    on = clock.studio_day(now=timezone.now())
    context = {
        "rows": selector.listed(words=words, on=on),
        "words": words,
        "liabilities": selector.liabilities(on=on),
    }
    return render(request, "bookings/vouchers/vouchers.html", context)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def sell(request: HttpRequest) -> HttpResponse:
    """Write a voucher for whoever stands at the desk; its money is entered on the next page."""
    form = DeskGiftForm(request.POST or None, studio=the_studio())
    if request.method == "POST" and form.is_valid():
        try:
            sold = service.ask(
                submission_key=form.cleaned_data["key"],
                gift=form.gift(),
                now=timezone.now(),
                at_desk=True,
            )
            return redirect("studio:voucher", sold.pk)
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    status = 400 if form.is_bound else 200
    return render(request, "bookings/vouchers/sell_voucher.html", {"form": form}, status=status)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def voucher(request: HttpRequest, voucher_id: int) -> HttpResponse:
    """Show a voucher, and enter money for it."""
    shown = get_object_or_404(Voucher, pk=voucher_id)
    form = PaymentForm(request.POST or None, currency=shown.currency)
    if request.method == "POST" and form.is_valid():
        try:
            service.record_money(
                voucher_id=shown.pk,
                now=timezone.now(),
                recorded_by=operator_of(request),
                **form.payment(),
            )
            return redirect("studio:voucher", voucher_id)
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    return _voucher_page(request, shown, form)


@photographer
@require_safe
def paper(request: HttpRequest, voucher_id: int) -> HttpResponse:
    return pdf(voucher_pdf(get_object_or_404(Voucher, pk=voucher_id)), f"voucher-{voucher_id}.pdf")


@photographer
@require_POST
def send_again(request: HttpRequest, voucher_id: int) -> HttpResponse:
    """Write the letter of a paid voucher once more; pressed twice on one page it is one letter."""
    shown = get_object_or_404(Voucher, pk=voucher_id)
    if not selector.is_paid(shown):
        messages.error(
            request, _("A voucher is sent once it is paid for in full, and not once it was taken back.")
        )
    elif not shown.buyer_email:
        messages.error(request, _("Whoever bought this voucher asked to be forgotten."))
    elif key := _key(request):
        outbox.queue_voucher(voucher=shown, due_at=timezone.now(), occasion=str(key))
        messages.success(
            request, _("The voucher goes to {buyer_email} once more.").format(buyer_email=shown.buyer_email)
        )
    return redirect("studio:voucher", voucher_id)


@photographer
@require_POST
def withdraw(request: HttpRequest, voucher_id: int) -> HttpResponse:
    shown = get_object_or_404(Voucher, pk=voucher_id)
    try:
        service.withdraw(voucher_id=shown.pk, now=timezone.now())
    except BookingsError as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:voucher", voucher_id)


@photographer
@require_POST
def redeem(request: HttpRequest, reference: str) -> HttpResponse:
    """Pay for an order with a voucher, from the order's page."""
    order = get_object_or_404(Order, reference=reference)
    form = DeskCodeForm(request.POST, currency=order.currency)
    if not form.is_valid():
        return _back_to(request, reference, form)
    try:
        redeeming.redeem(
            order_id=order.pk,
            code=form.cleaned_data["code"],
            key=form.cleaned_data["key"],
            amount=form.amount_in_minor(),
            now=timezone.now(),
            recorded_by=operator_of(request),
        )
    except BookingsError as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:order", reference)


@photographer
@require_POST
def refund(request: HttpRequest, reference: str) -> HttpResponse:
    """Give money of an order back to a voucher that paid for it."""
    order = get_object_or_404(Order, reference=reference)
    form = RefundForm(request.POST, currency=order.currency)
    if not form.is_valid():
        return _back_to(request, reference, form)
    try:
        redeeming.refund(
            order_id=order.pk,
            voucher_id=form.cleaned_data["voucher"].pk,
            amount=form.amount_in_minor(),
            key=form.cleaned_data["key"],
            now=timezone.now(),
            recorded_by=operator_of(request),
        )
    except BookingsError as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:order", reference)


def _back_to(request: HttpRequest, reference: str, form: Form) -> HttpResponse:
    """To the order's page, with what was wrong in the form above it."""
    for field, errors in form.errors.items():
        messages.error(
            request, f"{form.fields[field].label or pretty_name(field)}: {' '.join(map(str, errors))}"
        )
    return redirect("studio:order", reference)


def _key(request: HttpRequest) -> UUID | None:
    """The key of the form that was pressed; None for anything else."""
    try:
        return UUID(request.POST.get("key", ""))
    except ValueError:
        return None


def _voucher_page(request: HttpRequest, shown: Voucher, form: PaymentForm) -> HttpResponse:
    row = selector.row_of(shown, on=clock.studio_day(now=timezone.now()))
    context = {
        "row": row,
        "voucher": shown,
        "money_in": shown.money.all(),
        "came_by_card": shown.card_checkouts.received(),
        "uses": shown.uses.select_related("order__sitting__day__venue"),
        "notices": shown.notices.all(),
        "payment_form": form,
        "zone": clock.studio_zone(),
        "key": uuid4(),
    }
    return render(request, "bookings/vouchers/desk.html", context, status=400 if form.is_bound else 200)
