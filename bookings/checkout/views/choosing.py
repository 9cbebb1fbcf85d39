"""What a visitor sees: the days and prices, the start times for a wish, holding one."""

from typing import TypedDict, cast
from uuid import uuid4

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from bookings.checkout import selectors as offers
from bookings.checkout.forms import HoldForm, WishForm
from bookings.checkout.services import booking
from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay
from bookings.errors import DiscountRefused, NotForSale, NotInLight, SubmissionChanged
from bookings.orders import links
from bookings.orders.models import Order
from bookings.orders.wishes import Wish
from bookings.pricing import selectors as prices
from bookings.pricing.models import Extra, SizePrice
from plates.errors import BenchFull, StartPassed


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    now = timezone.now()
    days = offers.announced(now=now)
    context = {
        "days": days,
        "per_sitter": prices.further_sitter_amounts(on=now.date()),
        "price_list": prices.price_list(on=now.date()),
        "extras": Extra.objects.filter(offered=True),
        "all_terms": prices.terms_shown(venues=[each.day.venue for each in days], on=now.date()),
    }
    return render(request, "bookings/checkout/home.html", context)


@require_safe
def choose(request: HttpRequest) -> HttpResponse:
    return render(request, "bookings/checkout/choose.html", {"form": WishForm(**for_sale())})


@never_cache  # who goes back gets a new submission key, so that another time can be pressed
@require_safe
def times(request: HttpRequest) -> HttpResponse:
    form = WishForm(request.GET, **for_sale())
    if not form.is_valid():
        return render(request, "bookings/checkout/choose.html", {"form": form}, status=400)
    return _times_page(request, form)


@require_POST
def hold(request: HttpRequest) -> HttpResponse:
    form = HoldForm(request.POST, **for_sale())
    if not form.is_valid():
        return render(request, "bookings/checkout/choose.html", {"form": _without_a_start(form)}, status=400)
    day_id, starts_at = form.cleaned_data["start"]
    if not SittingDay.objects.filter(pk=day_id).exists():
        return _times_page(request, form, refusal=_("That day is no longer kept. Choose another one."))
    try:
        order = booking.hold_sitting(
            submission_key=form.cleaned_data["submission_key"],
            day_id=day_id,
            starts_at=starts_at,
            wish=form.cleaned_data["wish"],
            now=timezone.now(),
            excluding_order=request.session.get("held"),
        )
    except DiscountRefused as refused:
        return _code_refused(request, _wish_again(form), refused)
    except BenchFull as full:
        refusal = calendar.full_in_words(full=full, now=timezone.now())
        return _times_page(request, form, refusal=refusal)
    except (StartPassed, NotInLight, NotForSale, SubmissionChanged) as refused:
        return _times_page(request, form, refusal=str(refused))
    _hold_once(request, order)
    return redirect("details", links.checkout_token(order))


def _hold_once(request: HttpRequest, order: Order) -> None:
    """A visitor holds one place at a time: who goes back and takes another gives the first one up."""
    earlier = request.session.get("held")
    if earlier not in (None, order.pk):
        booking.drop_hold(order_id=earlier, now=timezone.now())
    request.session["held"] = order.pk


class ForSale(TypedDict):
    """What the order forms are made from."""

    prices: list[SizePrice]
    extras: list[Extra]
    per_sitter: list[int]


def for_sale() -> ForSale:
    return {
        "prices": list(prices.price_list(on=timezone.now().date())),
        "extras": list(Extra.objects.filter(offered=True).select_related("tax_class")),
        "per_sitter": prices.further_sitter_amounts(on=timezone.now().date()),
    }


def _wish_again(form: HoldForm) -> WishForm:
    """The first page's form with what was typed, when the second page's form cannot be used."""
    return WishForm(form.data, **for_sale())


def _without_a_start(form: HoldForm) -> WishForm:
    """The same, where it was the start that could not be used."""
    again = _wish_again(form)
    if again.is_valid():
        again.add_error(None, _("Choose one of the start times shown."))
    return again


def _code_refused(request: HttpRequest, form: WishForm, refused: DiscountRefused) -> HttpResponse:
    """The first page's form with the sentence at the code that cannot be used."""
    form.full_clean()
    form.add_error("code", str(refused))
    return render(request, "bookings/checkout/choose.html", {"form": form}, status=400)


def _times_page(request: HttpRequest, form: WishForm, refusal: str | None = None) -> HttpResponse:
    wish = cast(Wish, form.cleaned_data["wish"])
    excluding_order, studio = request.session.get("held"), getattr(request, "studio", None)
    try:
        offered = offers.offered(
            wish=wish, now=timezone.now(), excluding_order=excluding_order, studio=studio
        )
    except DiscountRefused as refused:
        return _code_refused(request, form, refused)
    context = {
        "form": form,
        "wish": wish,
        "offered": offered,
        "quote": offered.quote,
        "submission_key": uuid4(),
        "wish_query": form.as_query(),
        "refusal": refusal,
    }
    return render(request, "bookings/checkout/times.html", context, status=409 if refusal else 200)
