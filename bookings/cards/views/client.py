"""Cards paid online, for those who pay: off to the card service's page, and back from it."""

from collections.abc import Callable
from functools import partial

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_POST, require_safe

from bookings.cards import gateway
from bookings.cards.models import CardCheckout
from bookings.cards.selectors import Part
from bookings.cards.services import paying as cards
from bookings.cards.services import webhooks as card_messages
from bookings.cards.services.paying import BackTo
from bookings.common.http import cards_are_on
from bookings.errors import CardRefused, CardServiceAway, MessageRefused, NothingOwed
from bookings.orders import links
from bookings.orders.models import Order
from bookings.orders.selectors.account import account, order_status
from bookings.vouchers import links as voucher_links

LARGEST_MESSAGE = 256 * 1024  # bytes


@require_POST
def pay_by_card(request: HttpRequest, token: str) -> HttpResponse:
    """Send whoever is booking to the card service's page, for the deposit or for everything."""
    order = links.resolve_checkout(token)
    _refuse_without_cards()
    if order.placed_at is None:
        return redirect("details", token)
    open_page = partial(cards.open_for_order, order_id=order.pk, part=_part(request))
    paid, left = reverse("card_thanks", args=[token]), reverse("deposit", args=[token])
    return _to_card_page(request, open_page, paid=paid, left=left)


@require_POST
def pay_rest_by_card(request: HttpRequest, token: str) -> HttpResponse:
    """Send whoever holds the link of a sitting to the card service's page, for what is left to pay."""
    order = links.resolve_sitting(token)
    _refuse_without_cards()
    open_page = partial(cards.open_for_order, order_id=order.pk, part=Part.WHOLE)
    paid, left = reverse("sitting_card_thanks", args=[token]), reverse("sitting", args=[token])
    return _to_card_page(request, open_page, paid=paid, left=left)


@require_POST
def pay_voucher_by_card(request: HttpRequest, token: str) -> HttpResponse:
    """Send whoever buys a voucher to the card service's page, for what it still costs; they come back to its page."""
    voucher = voucher_links.resolve_voucher(token)
    _refuse_without_cards()
    back = reverse("voucher", args=[token])
    open_page = partial(cards.open_for_voucher, voucher_id=voucher.pk)
    return _to_card_page(request, open_page, paid=back, left=back)


@never_cache
@require_safe
def card_thanks(request: HttpRequest, token: str) -> HttpResponse:
    return _thanks(request, links.resolve_payer(token))


@never_cache
@require_safe
def sitting_card_thanks(request: HttpRequest, token: str) -> HttpResponse:
    return _thanks(request, links.resolve_sitting(token))


@csrf_exempt
@require_POST
def card_messages_in(request: HttpRequest) -> HttpResponse:
    """What the card service tells. Answered with 200 once it is kept; its words are never written to a log."""
    _refuse_without_cards()
    body = request.read(LARGEST_MESSAGE + 1)
    if len(body) > LARGEST_MESSAGE:
        return HttpResponse("This message is too long.\n", status=413, content_type="text/plain")
    now = timezone.now()
    signature = request.headers.get(gateway.SIGNATURE_HEADER, "")
    try:
        message = gateway.read_message(body=body, signature=signature, now=now)
    except MessageRefused as refusal:
        return HttpResponse(f"{refusal}\n", status=400, content_type="text/plain")
    outcome = card_messages.ingest(message=message, now=now)
    return HttpResponse(f"{outcome.label}\n", content_type="text/plain")


def _refuse_without_cards() -> None:
    if not cards_are_on():
        raise Http404(_("No card service is set up."))


def _part(request: HttpRequest) -> Part:
    return Part.WHOLE if request.POST.get("part") == Part.WHOLE else Part.DEPOSIT


def _to_card_page(
    request: HttpRequest, open_page: Callable[..., CardCheckout], *, paid: str, left: str
) -> HttpResponse:
    """Off to the page that `open_page` opens; back to the address `left` when there is nothing to pay any more."""
    back_to = BackTo(paid=settings.SITE_ADDRESS + paid, left=settings.SITE_ADDRESS + left)
    try:
        page = open_page(back_to=back_to, now=timezone.now())
    except NothingOwed:
        return redirect(left)
    except (CardServiceAway, CardRefused) as refusal:
        status = 503 if isinstance(refusal, CardServiceAway) else 409
        context = {"sentence": str(refusal), "left": left}
        return render(request, "bookings/cards/away.html", context, status=status)
    # 303: the browser asks for the card service's page with GET, whatever brought it here (RFC 9110, 15.4.4).
    return HttpResponse(status=303, headers={"Location": page.address})


def _thanks(request: HttpRequest, order: Order) -> HttpResponse:
    """Where the card service sends back to. It proves nothing: what is shown is what its messages have told."""
    day = order.sitting.day
    context = {
        "order": order,
        "day": day,
        "starts_at": day.local(order.sitting.bench_job.starts_at),
        "held_until": day.local(order.sitting.bench_job.held_until),
        "account": account(order),
        "awaited": order.card_checkouts.awaited(),
        "status": order_status(order, now=timezone.now()),
        "sitting_token": links.sitting_token(order),
    }
    return render(request, "bookings/cards/thanks.html", context)
