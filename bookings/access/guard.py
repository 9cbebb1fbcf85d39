"""What somebody who has opened a mailed link may see for a few minutes, in this browser and for one purpose."""

from collections.abc import Callable
from datetime import datetime
from functools import update_wrapper
from typing import Concatenate, ParamSpec, cast

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache

from bookings.access.models import Purpose, StepUp
from bookings.access.services import OPEN_FOR
from bookings.errors import LinkInvalid
from bookings.orders.models import Order

Arguments = ParamSpec("Arguments")
View = Callable[Concatenate[HttpRequest, Order, Arguments], HttpResponse]
Opened = Callable[Concatenate[HttpRequest, Arguments], HttpResponse]


def grant(request: HttpRequest, asked: StepUp, *, now: datetime) -> None:
    """Let this browser see the order of a used link, under a new session key, for as long as a link is open."""
    request.session.cycle_key()
    request.session["granted"] = [asked.order_id, asked.purpose, (now + OPEN_FOR).isoformat()]


def opened_for(purpose: Purpose) -> Callable[[View[Arguments]], Opened[Arguments]]:
    """Give the view the order that a mailed link for `purpose` was opened for; LinkInvalid without one."""

    def guard(view: View[Arguments]) -> Opened[Arguments]:
        def guarded(request: HttpRequest, *args: Arguments.args, **kwargs: Arguments.kwargs) -> HttpResponse:
            return view(request, _order(request, purpose), *args, **kwargs)

        return cast(Opened[Arguments], never_cache(update_wrapper(guarded, view)))

    return guard


def _order(request: HttpRequest, purpose: Purpose) -> Order:
    order_id, opened_for, until = request.session.get("granted", (0, "", ""))
    if opened_for != purpose or timezone.now() >= datetime.fromisoformat(until):
        raise LinkInvalid(
            _("This page is closed. Ask for a link on the page of your sitting; it opens for ten minutes.")
        )
    order = get_object_or_404(Order.objects.with_sitting(), pk=order_id)
    if order.client is not None and order.client.erased_at is not None:
        # Another browser may still have been let in when it was asked for.
        raise LinkInvalid(_("You were forgotten as you asked; there is nothing left to show."))
    return order
