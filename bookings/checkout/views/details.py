"""From a held place to a paid deposit, behind the link of the one who is booking."""

from datetime import datetime

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.cards.selectors import payable
from bookings.checkout.forms import DetailsForm, parse_start
from bookings.checkout.services import booking
from bookings.common.http import leads_to_card_page
from bookings.diary.selectors import lit
from bookings.errors import BookingsError, NotInLight, TooManyCodes
from bookings.handover.selectors.promises import promise_for
from bookings.orders import links
from bookings.orders.models import Order
from bookings.orders.selectors import lines as quotes
from bookings.orders.selectors.account import account, order_status
from bookings.payments.models import Method
from bookings.payments.services import ledger as payments
from bookings.vouchers.forms import CodeForm
from bookings.vouchers.services import redeeming
from plates.errors import BenchFull, PlatesError


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def details(request: HttpRequest, token: str) -> HttpResponse:
    order = links.resolve_checkout(token)
    if order.placed_at is not None:
        return redirect("deposit", token)
    form = DetailsForm(request.POST or None)
    if request.method != "POST":
        return _details_page(request, order, form)
    if not form.is_valid():
        return _details_page(request, order, form, status=400)
    try:
        start = _another_start(request)
        booking.place_order(
            order_id=order.pk, details=form.details(), now=timezone.now(), another_start=start
        )
    except (PlatesError, NotInLight, ValueError) as refusal:
        # What was typed stays on the page; only the time has to be chosen anew.
        return _details_page(request, order, form, refusal=refusal, status=409)
    return redirect("deposit", token)


@never_cache
@require_safe
def deposit(request: HttpRequest, token: str) -> HttpResponse:
    order = links.resolve_checkout(token)
    if order.placed_at is None:
        return redirect("details", token)
    if not account(order).deposit_owed:
        return redirect("sitting", links.sitting_token(order))
    return deposit_page(request, order, token, CodeForm())


@leads_to_card_page
def deposit_page(
    request: HttpRequest, order: Order, token: str, form: CodeForm, *, status: int = 200
) -> HttpResponse:
    """What is to be paid now and how, with the form for the code of a voucher."""
    day = order.sitting.day
    owed = account(order)
    context = {
        "order": order,
        "account": owed,
        "code_form": form,
        "starts_at": day.local(order.sitting.bench_job.starts_at),
        "held_until": day.local(order.sitting.bench_job.held_until),
        "status": order_status(order, now=timezone.now()),
        "practice": settings.DEMO,
        "by_card": payable(owed),
        "token": token,
        "sitting_token": links.sitting_token(order),
    }
    return render(request, "bookings/checkout/deposit.html", context, status=status)


@require_POST
def practice_card(request: HttpRequest, token: str) -> HttpResponse:
    """Pretend that a card paid the deposit. It exists in the practice studio only."""
    if not settings.DEMO:
        raise Http404(_("There is no practice card outside the practice studio."))
    order = links.resolve_checkout(token)
    if owed := account(order).deposit_owed:
        payments.record(
            order_id=order.pk,
            amount=owed,
            method=Method.PRACTICE,
            reference=f"practice-{order.reference}",
            now=timezone.now(),
        )
    return redirect("sitting", links.sitting_token(order))


@require_POST
def pay_by_voucher(request: HttpRequest, token: str) -> HttpResponse:
    """Pay as much of the order as a voucher covers, by its code."""
    order = links.resolve_checkout(token)
    if order.placed_at is None:
        return redirect("details", token)
    form = CodeForm(request.POST)
    if form.is_valid():
        try:
            redeeming.redeem_unaided(order_id=order.pk, now=timezone.now(), **form.cleaned_data)
            return redirect("deposit", token)
        except TooManyCodes:
            raise  # a page of its own, with its own status
        except BookingsError as refusal:
            form.add_error("code", str(refusal))
    return deposit_page(request, order, token, form, status=400)


def _another_start(request: HttpRequest) -> datetime | None:
    """The start that was pressed in place of one that had lapsed."""
    pressed = request.POST.get("start")
    return parse_start(pressed)[1] if pressed else None


def _details_page(
    request: HttpRequest,
    order: Order,
    form: DetailsForm,
    *,
    refusal: Exception | None = None,
    status: int = 200,
) -> HttpResponse:
    day = order.sitting.day
    now = timezone.now()
    full = lit(day=day, full=refusal, now=now) if isinstance(refusal, BenchFull) else None
    context = {
        "order": order,
        "sitting": order.sitting,
        "quote": quotes.quote_of(order),
        "starts_at": day.local(order.sitting.bench_job.starts_at),
        "held_until": day.local(order.sitting.bench_job.held_until),
        "status": order_status(order, now=now),
        "ready_on": promise_for(job=order.sitting.bench_job, now=now),
        "form": form,
        "refusal": full.sentence(day.venue.tz) if full else refusal,
        "nearest": [day.local(start) for start in full.nearest] if full else [],
    }
    return render(request, "bookings/checkout/details.html", context, status=status)
