"""The walk-up line as the photographer keeps it: let people in, call, strike off, make orders of them."""

from collections.abc import Callable
from functools import partial
from urllib.parse import urlsplit

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.diary.models import SittingDay
from bookings.errors import BookingsError
from bookings.pricing import selectors as prices
from bookings.walkups import selectors as selector
from bookings.walkups.forms import ComeForm, JoinForm
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from bookings.walkups.services.orders import come as to_order
from bookings.walkups.views.client import joined, stall
from plates.common.access import photographer
from plates.errors import BenchFull, PlatesError

ONLY_HERE = ("127.0.0.1", "localhost", "::1")
DAYS = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def desk(request: HttpRequest, day_id: int) -> HttpResponse:
    """The line of a day, with the form for those who join at the desk."""
    day = get_object_or_404(DAYS, pk=day_id)
    form = JoinForm(request.POST or None, prices=selector.sizes(day=day))
    if request.method == "POST" and form.is_valid():
        try:
            place = joined(day, form, at_desk=True)
        except (BenchFull, BookingsError) as refused:
            return _desk_page(request, day, form, refused=refused, status=409)
        messages.success(
            request, _("{name} has number {number}.").format(name=place.name, number=place.number)
        )
        return redirect("studio:line", day_id)
    return _desk_page(request, day, form, status=400 if form.is_bound else 200)


@photographer
@require_safe
def sheet(request: HttpRequest, day_id: int) -> HttpResponse:
    """A sheet to print and hang up: what to do, and the code."""
    day = get_object_or_404(DAYS, pk=day_id)
    return render(request, "bookings/walkups/sheet.html", stall(day))


@photographer
@require_POST
def open_or_close(request: HttpRequest, day_id: int) -> HttpResponse:
    day = get_object_or_404(SittingDay, pk=day_id)
    line.open_or_close(day_id=day.pk, keeps=request.POST.get("keeps") == "yes")
    return redirect("studio:line", day_id)


@photographer
@require_POST
def call(request: HttpRequest, place_id: int) -> HttpResponse:
    return _attempt(request, place_id, partial(line.call, place_id=place_id, now=timezone.now()))


@photographer
@require_POST
def strike(request: HttpRequest, place_id: int) -> HttpResponse:
    return _attempt(request, place_id, partial(line.strike, place_id=place_id, now=timezone.now()))


@photographer
@require_POST
def undo_strike(request: HttpRequest, place_id: int) -> HttpResponse:
    return _attempt(request, place_id, partial(line.undo_strike, place_id=place_id, now=timezone.now()))


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def come(request: HttpRequest, place_id: int) -> HttpResponse:
    """Somebody who was called has come: take down who it is, and make an order of the place."""
    places = LinePlace.objects.select_related("day__venue", "day__bench_day", "size", "order")
    place = get_object_or_404(places, pk=place_id)
    if place.order is not None:
        return redirect("studio:order", place.order.reference)
    form = ComeForm(request.POST or None, initial={"name": place.name})
    if request.method == "POST" and form.is_valid():
        order = to_order(place_id=place_id, details=form.details(), now=timezone.now())
        return redirect("studio:order", order.reference)
    terms = prices.terms_on(on=place.day.local(timezone.now()).date(), venue=place.day.venue)
    context = {"form": form, "place": place, "day": place.day, "terms": terms}
    return render(request, "bookings/walkups/come.html", context, status=400 if form.is_bound else 200)


def _desk_page(
    request: HttpRequest,
    day: SittingDay,
    form: JoinForm,
    *,
    refused: BenchFull | BookingsError | None = None,
    status: int,
) -> HttpResponse:
    context = stall(day) | {
        "form": form,
        "full": refused if isinstance(refused, BenchFull) else None,
        "refusal": None if isinstance(refused, BenchFull) else refused,
        "next_days": selector.next_days(day=day, now=timezone.now()) if refused else [],
        "only_here": urlsplit(settings.SITE_ADDRESS).hostname in ONLY_HERE,
    }
    return render(request, "bookings/walkups/desk.html", context, status=status)


def _attempt(request: HttpRequest, place_id: int, action: Callable[[], object]) -> HttpResponse:
    """Do it and show the line again; a refusal is shown above it."""
    place = get_object_or_404(LinePlace, pk=place_id)
    try:
        action()
    except (PlatesError, BookingsError) as refusal:
        messages.error(request, str(refusal))
    return redirect("studio:line", place.day_id)
