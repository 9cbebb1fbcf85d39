"""What a client sees and does behind a mailed link: papers, and what is kept about oneself."""

from typing import cast

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.access.guard import opened_for
from bookings.access.models import Purpose
from bookings.cards.selectors import Part, payable
from bookings.clients import selectors as own_data
from bookings.clients import services as own
from bookings.clients.forms import AnswersForm, EraseForm
from bookings.common.http import leads_to_card_page, pdf
from bookings.errors import NotErased
from bookings.invoices.paper import invoice_pdf
from bookings.money import Money
from bookings.orders import ics, links
from bookings.orders.models import Client, Order
from bookings.orders.selectors.account import Account, account, order_status
from bookings.orders.selectors.plates import plates_of
from plates.ledger import selectors as facts


@require_safe
@opened_for(Purpose.PAPERS)
def papers(request: HttpRequest, order: Order) -> HttpResponse:
    pictured = [plate for plate in own_data.plates_of_order(order) if facts.picture_of(plate=plate)]
    context = {"order": order, "invoices": order.invoices.select_related("series"), "pictured": pictured}
    return render(request, "bookings/clients/papers.html", context)


@require_safe
@opened_for(Purpose.PAPERS)
def invoice(request: HttpRequest, order: Order, invoice_id: int) -> HttpResponse:
    issued = get_object_or_404(order.invoices.select_related("series", "order"), pk=invoice_id)
    return pdf(invoice_pdf(issued), f"{issued.label}.pdf")


@require_safe
@opened_for(Purpose.PAPERS)
def picture(request: HttpRequest, order: Order, number: int) -> HttpResponse:
    found = [
        facts.picture_of(plate=plate) for plate in own_data.plates_of_order(order) if plate.number == number
    ]
    if not found or found[0] is None:
        raise Http404(_("No picture of that plate is kept."))
    name = f'attachment; filename="plate-{number}.jpg"'
    return HttpResponse(found[0], content_type="image/jpeg", headers={"Content-Disposition": name})


@require_http_methods(["GET", "HEAD", "POST"])
@opened_for(Purpose.DATA)
def data(request: HttpRequest, order: Order) -> HttpResponse:
    client = _client(order)
    form = AnswersForm(request.POST) if request.method == "POST" else None
    if form is not None and form.is_valid():
        own.answer(client_id=client.pk, given=form.answers(), now=timezone.now())
        return redirect("mine_data")
    shown = AnswersForm.showing(own_data.answers(client))
    context = {"order": order, "client": client, "form": shown, "erase_form": EraseForm()}
    return render(request, "bookings/clients/data.html", context)


@require_safe
@opened_for(Purpose.DATA)
def copy(request: HttpRequest, order: Order) -> HttpResponse:
    name = f'attachment; filename="kept-{order.reference}.zip"'
    packed = own_data.copy_of(_client(order))
    return HttpResponse(packed, content_type="application/zip", headers={"Content-Disposition": name})


@require_POST
@opened_for(Purpose.DATA)
def erase(request: HttpRequest, order: Order) -> HttpResponse:
    form, client, refusal = EraseForm(request.POST), _client(order), None
    if form.is_valid():
        try:
            own.erase(client_id=client.pk, now=timezone.now())
            request.session.flush()
            return redirect("sitting", links.sitting_token(order))
        except NotErased as refused:
            refusal = str(refused)
    answered = AnswersForm.showing(own_data.answers(client))
    context = {"order": order, "client": client, "form": answered, "erase_form": form, "refusal": refusal}
    return render(request, "bookings/clients/data.html", context, status=409 if refusal else 400)


def _client(order: Order) -> Client:
    # A link goes to a client's address, so there is one behind every page here.
    return cast(Client, order.client)


@never_cache
@require_safe
@leads_to_card_page
def sitting(request: HttpRequest, token: str) -> HttpResponse:
    order = links.resolve_sitting(token)
    job = order.sitting.bench_job
    money = account(order)
    context = {
        "order": order,
        "day": order.sitting.day,
        "starts_at": order.sitting.day.local(job.starts_at),
        "plates": plates_of(order.sitting),
        "status": order_status(order, now=timezone.now()),
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
    order = links.resolve_sitting(token)
    cancelled = order.cancelled_at is not None
    content = ics.sitting_calendar(order, now=timezone.now(), cancelled=cancelled)
    return HttpResponse(
        content,
        content_type="text/calendar; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="sitting-{order.reference}.ics"'},
    )
