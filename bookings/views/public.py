"""What a visitor sees: the days and prices, the start times for a wish, holding one, the details, the deposit."""

from typing import TypedDict, cast
from uuid import uuid4

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings import links
from bookings.forms.public import DetailsForm, HoldForm, WishForm
from bookings.models import Extra, Method, Order, SittingDay, SizePrice
from bookings.selectors import calendar, prices
from bookings.selectors.orders import account
from bookings.services import booking, payments
from bookings.services.booking import Wish
from plates.errors import BenchFull, StartPassed


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    now = timezone.now()
    context = {
        "days": calendar.open_days(now=now),
        "price_list": prices.price_list(on=now.date()),
        "extras": Extra.objects.filter(offered=True),
        "terms": prices.current_terms(on=now.date()),
    }
    return render(request, "bookings/public/home.html", context)


@require_safe
def choose(request: HttpRequest) -> HttpResponse:
    return render(request, "bookings/public/choose.html", {"form": WishForm(**_for_sale())})


@require_safe
def times(request: HttpRequest) -> HttpResponse:
    form = WishForm(request.GET, **_for_sale())
    if not form.is_valid():
        return render(request, "bookings/public/choose.html", {"form": form}, status=400)
    return _times_page(request, form)


@require_POST
def hold(request: HttpRequest) -> HttpResponse:
    form = HoldForm(request.POST, **_for_sale())
    if not form.is_valid():
        return render(request, "bookings/public/choose.html", {"form": _wish_again(form)}, status=400)
    day_id, starts_at = form.cleaned_data["start"]
    if not SittingDay.objects.filter(pk=day_id).exists():
        return _times_page(request, form, refusal="That day is no longer kept. Choose another one.")
    try:
        order = booking.hold_sitting(
            submission_key=form.cleaned_data["submission_key"],
            day_id=day_id,
            starts_at=starts_at,
            wish=form.cleaned_data["wish"],
            now=timezone.now(),
        )
    except BenchFull as full:
        return _times_page(request, form, refusal=full.sentence(SittingDay.objects.get(pk=day_id).venue.tz))
    except StartPassed as passed:
        return _times_page(request, form, refusal=str(passed))
    _keep_one_hold(request, order)
    return redirect("details", links.checkout_token(order))


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def details(request: HttpRequest, token: str) -> HttpResponse:
    order = links.read_checkout(token)
    if order.placed_at is not None:
        return redirect("deposit", token)
    form = DetailsForm(request.POST or None)
    status = 200
    refusal = None
    if request.method == "POST" and form.is_valid():
        try:
            booking.place_order(order_id=order.pk, details=form.details(), now=timezone.now())
            return redirect("deposit", token)
        except (BenchFull, StartPassed) as lapsed:
            # What was typed stays on the page; only the time has to be chosen anew.
            refusal = (
                lapsed.sentence(order.sitting.day.venue.tz) if isinstance(lapsed, BenchFull) else str(lapsed)
            )
            status = 409
    elif request.method == "POST":
        status = 400
    day = order.sitting.day
    context = {
        "order": order,
        "sitting": order.sitting,
        "quote": prices.quote_of(order),
        "starts_at": day.local(order.sitting.bench_job.starts_at),
        "held_until": day.local(order.sitting.bench_job.held_until),
        "form": form,
        "refusal": refusal,
    }
    return render(request, "bookings/public/details.html", context, status=status)


@never_cache
@require_safe
def deposit(request: HttpRequest, token: str) -> HttpResponse:
    order = links.read_checkout(token)
    if order.placed_at is None:
        return redirect("details", token)
    owed = account(order)
    if not owed.deposit_owed:
        return redirect("sitting", links.sitting_token(order))
    day = order.sitting.day
    context = {
        "order": order,
        "account": owed,
        "starts_at": day.local(order.sitting.bench_job.starts_at),
        "held_until": day.local(order.sitting.bench_job.held_until),
        "practice": settings.DEMO,
        "token": token,
        "sitting_token": links.sitting_token(order),
    }
    return render(request, "bookings/public/deposit.html", context)


@require_POST
def practice_card(request: HttpRequest, token: str) -> HttpResponse:
    """Pretend that a card paid the deposit. It exists in the practice studio only."""
    if not settings.DEMO:
        raise Http404("There is no practice card outside the practice studio.")
    order = links.read_checkout(token)
    if owed := account(order).deposit_owed:
        payments.record(
            order_id=order.pk,
            amount=owed,
            method=Method.PRACTICE,
            reference=f"practice-{order.reference}",
            now=timezone.now(),
        )
    return redirect("sitting", links.sitting_token(order))


def _keep_one_hold(request: HttpRequest, order: Order) -> None:
    """A visitor holds one place at a time: who goes back and takes another gives the first one up."""
    earlier = request.session.get("held")
    if earlier not in (None, order.pk):
        booking.drop_hold(order_id=earlier, now=timezone.now())
    request.session["held"] = order.pk


class ForSale(TypedDict):
    """What the order forms are made from."""

    prices: list[SizePrice]
    extras: list[Extra]


def _for_sale() -> ForSale:
    return {
        "prices": list(prices.price_list(on=timezone.now().date())),
        "extras": list(Extra.objects.filter(offered=True).select_related("tax_class")),
    }


def _wish_again(form: HoldForm) -> WishForm:
    """The first page's form with what was typed, when the second page's form cannot be used."""
    again = WishForm(form.data, **_for_sale())
    if again.is_valid():
        again.add_error(None, "Choose one of the start times shown.")
    return again


def _times_page(request: HttpRequest, form: WishForm, refusal: str | None = None) -> HttpResponse:
    now = timezone.now()
    wish = cast(Wish, form.cleaned_data["wish"])
    lines = prices.lines_for(sizes=wish.sizes, extras=wish.extras, on=now.date())
    context = {
        "form": form,
        "wish": wish,
        "quote": prices.quote_lines(
            lines=lines, currency=prices.the_studio().currency, terms=prices.current_terms(on=now.date())
        ),
        "choices": calendar.openings(days=calendar.open_days(now=now), sizes=wish.sizes, now=now),
        "submission_key": uuid4(),
        "refusal": refusal,
    }
    return render(request, "bookings/public/times.html", context, status=409 if refusal else 200)
