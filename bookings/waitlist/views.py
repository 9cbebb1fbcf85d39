"""The waiting list as clients see it: asking for a place, one's own place, leaving."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.checkout.forms import WishForm
from bookings.checkout.views.choosing import for_sale
from bookings.diary.models import SittingDay
from bookings.diary.selectors import open_days
from bookings.errors import BookingsError, NotForSale
from bookings.orders import links
from bookings.orders.wishes import Wish
from bookings.waitlist import links as waiting_links
from bookings.waitlist import services as waiting
from bookings.waitlist import wishes as kept_wishes
from bookings.waitlist.forms import DayForm, WaitForm
from bookings.waitlist.models import Waiting
from bookings.waitlist.selectors import state_of, the_list
from plates.common.access import photographer


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def wait(request: HttpRequest) -> HttpResponse:
    """Ask for a place on a day; what is wished for comes along from the page of the times."""
    sent = request.POST if request.method == "POST" else request.GET
    wished = WishForm(sent, **for_sale())
    chosen = DayForm(sent, days=open_days(now=timezone.now()))
    if not wished.is_valid() or not chosen.is_valid():
        if wished.is_valid():
            wished.add_error(None, _("That day is no longer kept. Choose another one."))
        return render(request, "bookings/checkout/choose.html", {"form": wished}, status=400)
    day, form = chosen.cleaned_data["day"], WaitForm(request.POST or None, day=chosen.cleaned_data["day"])
    if request.method != "POST":
        return _wait_page(request, day, wished, form)
    if not form.is_valid():
        return _wait_page(request, day, wished, form, status=400)
    try:
        waiting.join(
            key=form.cleaned_data["key"],
            day_id=day.pk,
            wish=wished.cleaned_data["wish"],
            asked=form.asked(),
            now=timezone.now(),
        )
    except BookingsError as refused:
        return _wait_page(request, day, wished, form, refusal=str(refused), status=409)
    # The same answer for an address that was on the list before, so that nobody learns of it.
    messages.success(request, _("You are on the list. A letter says so, and has the link to leave it again."))
    return redirect(f"{reverse('times')}?{wished.as_query()}")


@never_cache
@require_safe
def place(request: HttpRequest, token: str) -> HttpResponse:
    """One's own place: what became of it, the time that is offered, the way to leave."""
    own = waiting_links.resolve(token)
    order = own.order
    context = {
        "place": own,
        "day": own.day,
        "state": state_of(own, now=timezone.now()),
        "wish": _wish(own),
        "offer": order,
        "starts_at": own.day.local(order.sitting.bench_job.starts_at) if order else None,
        "held_until": own.day.local(order.sitting.bench_job.held_until) if order else None,
        "take_token": links.checkout_token(order) if order else None,
        "token": token,
    }
    return render(request, "bookings/waitlist/place.html", context)


@require_POST
def leave(request: HttpRequest, token: str) -> HttpResponse:
    waiting.leave(place_id=waiting_links.resolve(token).pk, now=timezone.now())
    return redirect("waiting", token)


def _wish(own: Waiting) -> Wish | None:
    try:
        return kept_wishes.load(own.wish)
    except NotForSale:
        return None


def _wait_page(
    request: HttpRequest,
    day: SittingDay,
    wished: WishForm,
    form: WaitForm,
    *,
    refusal: str | None = None,
    status: int = 200,
) -> HttpResponse:
    context = {
        "day": day,
        "wish_form": wished,
        "wish": wished.cleaned_data["wish"],
        "wish_query": wished.as_query(),
        "form": form,
        "refusal": refusal,
    }
    return render(request, "bookings/waitlist/wait.html", context, status=status)


@photographer
@require_safe
def waiting_list(request: HttpRequest, day_id: int) -> HttpResponse:
    day = get_object_or_404(SittingDay.objects.select_related("venue", "bench_day"), pk=day_id)
    context = {"day": day, "places": the_list(day=day, now=timezone.now())}
    return render(request, "bookings/waitlist/desk.html", context)


@photographer
@require_POST
def strike(request: HttpRequest, waiting_id: int) -> HttpResponse:
    place = get_object_or_404(Waiting, pk=waiting_id)
    waiting.strike(place_id=place.pk, now=timezone.now())
    return redirect("studio:waiting_list", place.day_id)
