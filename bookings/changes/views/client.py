"""Behind a mailed link: the whole order, and what a client may change about it."""

from collections.abc import Callable
from functools import partial

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bookings.access.guard import opened_for
from bookings.access.models import Purpose
from bookings.changes.forms.client import AddForm, CancelForm, MoveForm, PostForm
from bookings.changes.selectors import changes_of, may_change, post_for
from bookings.changes.services import additions, sittings
from bookings.common.forms import LabelledForm
from bookings.diary import selectors as calendar
from bookings.diary.models import SittingDay
from bookings.errors import BookingsError
from bookings.handover.forms import NameForm
from bookings.handover.selectors.desk import may_name, named_person
from bookings.handover.services import handing_over as handover
from bookings.orders import links
from bookings.orders.models import Order
from bookings.orders.selectors.account import account, order_status
from plates.errors import BenchFull, PlatesError


@require_safe
@opened_for(Purpose.CHANGE)
def change(request: HttpRequest, order: Order) -> HttpResponse:
    return _page(request, order)


@require_POST
@opened_for(Purpose.CHANGE)
def move(request: HttpRequest, order: Order) -> HttpResponse:
    form = MoveForm(request.POST)
    if not form.is_valid():
        return _page(request, order, refusal=_("Choose one of the start times shown."))
    return _attempt(
        request,
        order,
        partial(sittings.move, order_id=order.pk, now=timezone.now(), **form.move()),
        _("Your sitting has its new time. A letter confirms it."),
    )


@require_POST
@opened_for(Purpose.CHANGE)
def add_plate(request: HttpRequest, order: Order) -> HttpResponse:
    form = AddForm(request.POST)
    if not form.is_valid():
        return _page(request, order, refusal=_("Choose one of the sizes shown."))
    size = form.cleaned_data["size"]
    return _attempt(
        request,
        order,
        partial(additions.add_plate, order_id=order.pk, size=size, now=timezone.now()),
        _("One more plate is yours. A letter says so."),
    )


@require_POST
@opened_for(Purpose.CHANGE)
def by_post(request: HttpRequest, order: Order) -> HttpResponse:
    form = PostForm(request.POST)
    if not may_change(order, now=timezone.now()) or (post := post_for(order)) is None:
        return _page(request, order, refusal=_("The post cannot be chosen for this order any more."))
    if not form.is_valid():
        return _page(request, order, form=form)
    return _attempt(
        request,
        order,
        partial(
            additions.send_by_post, order_id=order.pk, post=post, now=timezone.now(), **form.cleaned_data
        ),
        _("Your plates will be sent to you."),
    )


@require_POST
@opened_for(Purpose.CHANGE)
def name_person(request: HttpRequest, order: Order) -> HttpResponse:
    form = NameForm(request.POST)
    if not form.is_valid():
        return _page(request, order, form=form)
    name = form.cleaned_data["name"]
    return _attempt(
        request,
        order,
        partial(handover.name_person, order_id=order.pk, name=name, now=timezone.now()),
        _("They may collect your plates, with the code from your letter."),
    )


@require_POST
@opened_for(Purpose.CHANGE)
def remove_named_person(request: HttpRequest, order: Order) -> HttpResponse:
    return _attempt(
        request,
        order,
        partial(handover.remove_named_person, order_id=order.pk, now=timezone.now()),
        _("From now on only you can collect your plates."),
    )


@require_POST
@opened_for(Purpose.CHANGE)
def cancel(request: HttpRequest, order: Order) -> HttpResponse:
    form = CancelForm(request.POST)
    if not form.is_valid():
        return _page(request, order, form=form)
    kept = form.cleaned_data["kept"]
    return _attempt(
        request,
        order,
        partial(sittings.cancel, order_id=order.pk, shown=kept, now=timezone.now()),
        _("Your sitting is cancelled. A letter says what comes back to you."),
    )


def _attempt(request: HttpRequest, order: Order, act: Callable[[], object], done: str) -> HttpResponse:
    """Do what was asked and say so; a refusal changes nothing and is told on the page."""
    try:
        act()
    except SittingDay.DoesNotExist:
        return _page(request, order, refusal=_("That day is no longer kept. Choose another one."))
    except BenchFull as full:
        return _page(request, order, refusal=calendar.full_in_words(full=full, now=timezone.now()))
    except (PlatesError, BookingsError) as refusal:
        return _page(request, order, refusal=str(refusal))
    messages.success(request, done)
    return redirect("mine_change")


def _page(
    request: HttpRequest, order: Order, *, refusal: str | None = None, form: LabelledForm | None = None
) -> HttpResponse:
    now = timezone.now()
    open_to = changes_of(order, now=now)
    context = {
        "order": order,
        "client": order.client,
        "day": order.sitting.day,
        "starts_at": order.sitting.day.local(order.sitting.bench_job.starts_at),
        "status": order_status(order, now=now),
        "account": account(order),
        "checkout": links.checkout_token(order),
        "open_to": open_to,
        "form": form,
        "post_form": form if isinstance(form, PostForm) else PostForm(),
        "cancel_form": form if isinstance(form, CancelForm) else CancelForm.of(open_to),
        "name_form": form if isinstance(form, NameForm) else NameForm(),
        "person": named_person(order),
        "may_name": may_name(order),
        "refusal": refusal,
    }
    status = 409 if refusal else 400 if form else 200
    return render(request, "bookings/changes/change.html", context, status=status)
