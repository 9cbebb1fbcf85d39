"""What a client sees through the long-lived link: the sitting and its plates, and nothing about the person."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from bookings import ics, links
from bookings.models import Purpose
from bookings.selectors.orders import account, standing
from bookings.selectors.queue import plates_of


@never_cache
@require_safe
def sitting(request: HttpRequest, token: str) -> HttpResponse:
    order = links.read_sitting(token)
    job = order.sitting.bench_job
    context = {
        "order": order,
        "day": order.sitting.day,
        "starts_at": order.sitting.day.local(job.starts_at),
        "plates": plates_of(order.sitting),
        "standing": standing(order, now=timezone.now()),
        "held_until": order.sitting.day.local(job.held_until),
        "deposit_owed": bool(account(order).deposit_owed),
        "purposes": Purpose.choices,
        "token": token,
    }
    return render(request, "bookings/client/sitting.html", context)


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
