"""What a client sees through the long-lived link: the sitting and its plates, and nothing about the person."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from bookings.access.models import Purpose
from bookings.cards.selectors.pages import Part, payable
from bookings.cards.views.client import leads_to_card_page
from bookings.money import Money
from bookings.orders import ics, links
from bookings.orders.models import Order
from bookings.orders.selectors.account import Account, account, standing
from bookings.orders.selectors.plates import plates_of


@never_cache
@require_safe
@leads_to_card_page
def sitting(request: HttpRequest, token: str) -> HttpResponse:
    order = links.read_sitting(token)
    job = order.sitting.bench_job
    money = account(order)
    context = {
        "order": order,
        "day": order.sitting.day,
        "starts_at": order.sitting.day.local(job.starts_at),
        "plates": plates_of(order.sitting),
        "standing": standing(order, now=timezone.now()),
        "held_until": order.sitting.day.local(job.held_until),
        "deposit_owed": bool(money.deposit_owed),
        "currency": money.currency,
        "rest_by_card": _rest_by_card(order, money),
        "purposes": Purpose.choices,
        "token": token,
    }
    return render(request, "bookings/clients/sitting.html", context)


def _rest_by_card(order: Order, money: Account) -> Money:
    """What is left to pay by card here: nothing while a deposit is asked for, on a page of its own."""
    if order.placed_at is None or order.cancelled_at is not None or money.deposit_owed:
        return 0
    return payable(money).get(Part.WHOLE, 0)


@never_cache
@require_safe
def sitting_calendar(request: HttpRequest, token: str) -> HttpResponse:
    order = links.read_sitting(token)
    cancelled = order.cancelled_at is not None
    content = ics.sitting_calendar(order, now=timezone.now(), cancelled=cancelled)
    return HttpResponse(
        content,
        content_type="text/calendar; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="sitting-{order.reference}.ics"'},
    )
