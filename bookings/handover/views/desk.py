"""The desk where plates leave the house: by code into hands, or by post."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from bookings.common.countries import country_name
from bookings.common.http import pdf
from bookings.errors import BookingsError
from bookings.handover import papers as packing_slip
from bookings.handover.forms import HandOverForm, ParcelForm
from bookings.handover.models import Parcel
from bookings.handover.selectors import desk as selector
from bookings.handover.services import handing_over as handover
from bookings.handover.services import posting
from bookings.orders.models import Order
from bookings.orders.selectors.account import account
from plates.common.access import operator_of, photographer
from plates.errors import PlatesError


@photographer
@require_safe
def desk(request: HttpRequest) -> HttpResponse:
    """Who waits for plates; a code leads to its order."""
    typed = request.GET.get("code", "").strip()
    if found := selector.by_code(typed):
        return redirect(f"{reverse('studio:hand_over', args=[found.reference])}?code={found.pickup_code}")
    context = {"desk": selector.desk(now=timezone.now()), "typed": typed[: selector.LONGEST_CODE]}
    return render(request, "bookings/handover/desk.html", context, status=404 if typed else 200)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def hand_over(request: HttpRequest, reference: str) -> HttpResponse:
    """Give the ready plates of an order to the client or to the person named."""
    order = _order(reference)
    code = request.GET.get("code", "")[:20]
    form = HandOverForm(request.POST or None, person=selector.named_person(order), initial={"code": code})
    if request.method == "POST" and form.is_valid():
        try:
            handover.hand_over(
                order_id=order.pk, operator=operator_of(request), now=timezone.now(), **form.handing()
            )
            messages.success(request, _("The plates are in their owner’s hands."))
            return redirect("studio:order", reference)
        except (BookingsError, PlatesError) as refusal:
            form.add_error(None, str(refusal))
    return _page(request, "bookings/handover/hand_over.html", order, form)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def post(request: HttpRequest, reference: str) -> HttpResponse:
    """Give the ready plates of an order to the post."""
    order = _order(reference)
    form = ParcelForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            posting.post(
                order_id=order.pk, operator=operator_of(request), now=timezone.now(), **form.parcel()
            )
            messages.success(request, _("The parcel is on its way, and a letter says so."))
            return redirect("studio:order", reference)
        except (BookingsError, PlatesError) as refusal:
            form.add_error(None, str(refusal))
    return _page(request, "bookings/handover/post.html", order, form)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def parcel(request: HttpRequest, parcel_id: int) -> HttpResponse:
    """Put the carrier or the number of a parcel right."""
    found = get_object_or_404(Parcel.objects.select_related("handover__order"), pk=parcel_id)
    form = ParcelForm(request.POST) if request.method == "POST" else ParcelForm.of(found)
    if request.method == "POST" and form.is_valid():
        posting.correct(parcel_id=found.pk, now=timezone.now(), **form.corrected())
        return redirect("studio:order", found.handover.order.reference)
    context = {"form": form, "order": found.handover.order}
    return render(request, "bookings/handover/parcel.html", context, status=400 if form.is_bound else 200)


@photographer
@require_safe
def slip(request: HttpRequest, reference: str) -> HttpResponse:
    paper = packing_slip.packing_slip_pdf(_order(reference), now=timezone.now())
    return pdf(paper, f"packing-slip-{reference}.pdf")


def _page(request: HttpRequest, template: str, order: Order, form: HandOverForm | ParcelForm) -> HttpResponse:
    client = order.client
    context = {
        "order": order,
        "client": client,
        "country": country_name(client.country) if client else "",
        "plates": selector.ready_plates(order),
        "person": selector.named_person(order),
        "account": account(order),
        "form": form,
    }
    return render(request, template, context, status=400 if form.is_bound else 200)


def _order(reference: str) -> Order:
    return get_object_or_404(Order.objects.placed().with_sitting(), reference=reference)
