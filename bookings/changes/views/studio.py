"""Changing an order on the photographer's side: another time, none, or another sitting where no plate could be made."""

from collections.abc import Callable
from datetime import datetime
from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from bookings.changes.forms.studio import CancelForm, MoveForm
from bookings.changes.selectors import without_plate
from bookings.changes.services import no_plate, sittings
from bookings.checkout.forms import parse_start
from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay
from bookings.errors import BookingsError
from bookings.orders.models import CancelCause, Order
from bookings.orders.selectors.account import account, cancelling, moving
from plates.common.access import photographer
from plates.errors import BenchFull, PlatesError

# A service that is still to be told the day and the start.
Act = Callable[..., object]


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def cancel(request: HttpRequest, reference: str) -> HttpResponse:
    """Show what each reason to cancel keeps and gives back, and cancel for one of them."""
    shown, now = _order(reference), timezone.now()
    left = [cancelling(shown, cause=cause, now=now) for cause in _causes(shown)]
    form = CancelForm(request.POST or None, left=left)
    if request.method == "POST" and form.is_valid():
        try:
            sittings.cancel(order_id=shown.pk, now=now, **form.cancellation())
        except (PlatesError, BookingsError) as refusal:
            messages.error(request, str(refusal))
        return redirect("studio:order", reference)
    context = {"order": shown, "account": account(shown), "left": left, "form": form}
    return render(request, "bookings/changes/cancel.html", context, status=400 if form.is_bound else 200)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def move(request: HttpRequest, reference: str) -> HttpResponse:
    """Show the free starts and what a change of time costs, and take one of them."""
    shown, now = _order(reference), timezone.now()
    cost = moving(shown, now=now)
    form = MoveForm(request.POST or None, initial={"price": cost.price})
    form.is_valid()
    act = partial(sittings.move, order_id=shown.pk, now=now, **form.change())
    context = {"cost": cost, "form": form, "free_until": shown.sitting.day.local(cost.free_until)}
    return _another_time(request, shown, act, context, now=now)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def rebook(request: HttpRequest, reference: str) -> HttpResponse:
    """Show the free starts for another sitting without charge, and take one of them."""
    shown, now = _order(reference), timezone.now()
    act = partial(no_plate.rebook, order_id=shown.pk, now=now)
    return _another_time(request, shown, act, {"without": without_plate(shown), "rebooking": True}, now=now)


def _order(reference: str) -> Order:
    return get_object_or_404(Order.objects.with_sitting(), reference=reference)


def _causes(order: Order) -> list[CancelCause]:
    if without_plate(order) is not None:
        return [CancelCause.NO_PLATE]
    return [CancelCause.CLIENT, CancelCause.STUDIO]


def _another_time(
    request: HttpRequest, shown: Order, act: Act, context: dict[str, object], *, now: datetime
) -> HttpResponse:
    refusal = None
    if request.method == "POST":
        try:
            day_id, starts_at = parse_start(request.POST.get("start", ""))
            act(day_id=day_id, starts_at=starts_at)
            return redirect("studio:order", shown.reference)
        except SittingDay.DoesNotExist:
            refusal = _("That day is no longer kept. Choose another one.")
        except BenchFull as full:
            refusal = calendar.full_in_words(full=full, now=now)
        except (ValueError, PlatesError, BookingsError) as error:
            refusal = str(error)
    sizes = [slot.size for slot in shown.sitting.bench_job.slots.select_related("size")]
    choices = calendar.openings(days=calendar.open_days(now=now), sizes=sizes, now=now)
    context |= {"order": shown, "choices": choices, "refusal": refusal}
    return render(request, "bookings/changes/move.html", context, status=409 if refusal else 200)
