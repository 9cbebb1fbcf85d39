"""Cards paid online, for the photographer: money given back to a card, and messages to be looked at."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.cards.forms import RefundForm
from bookings.cards.models import CardCheckout, CardNotice, Received
from bookings.cards.selectors import to_be_looked_at
from bookings.cards.services import paying as cards
from bookings.cards.services import webhooks as card_messages
from bookings.errors import BookingsError
from plates.common.access import operator_of, photographer

LATEST = 50


@photographer
@require_safe
def desk(request: HttpRequest) -> HttpResponse:
    """The messages that nobody has looked at, and the latest of all."""
    latest = CardNotice.objects.select_related("payment__order", "payment__for_voucher")[:LATEST]
    return render(request, "bookings/cards/cards.html", {"to_look_at": to_be_looked_at(), "latest": latest})


@photographer
@require_POST
def mark_looked_at(request: HttpRequest, notice_id: int) -> HttpResponse:
    card_messages.mark_looked_at(notice_id=get_object_or_404(CardNotice, pk=notice_id).pk, now=timezone.now())
    return redirect("studio:cards")


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def refund(request: HttpRequest, page_id: int) -> HttpResponse:
    """Give back some of what came by one page of the card service."""
    money = _received(page_id)
    form = RefundForm(request.POST or None, came=money)
    if request.method == "POST" and form.is_valid():
        try:
            cards.refund(
                page_id=page_id,
                given_by=operator_of(request),
                now=timezone.now(),
                **form.cleaned_data,
            )
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("Given back; it is in the ledger. Banks take some days to show it."))
            return redirect(_address_of(money.page))
    context = {"form": form, "came": money, "whose": _address_of(money.page)}
    status = 400 if request.method == "POST" else 200
    return render(request, "bookings/cards/give_back.html", context, status=status)


def _received(page_id: int) -> Received:
    found = CardCheckout.objects.filter(pk=page_id).select_related("order").received()
    if not found:
        raise Http404(_("Nothing came by this page."))
    return found[0]


def _address_of(page: CardCheckout) -> str:
    """The address of the order or the voucher that a page was opened for."""
    if page.order is not None:
        return reverse("studio:order", args=[page.order.reference])
    return reverse("studio:voucher", args=[page.voucher_id])
