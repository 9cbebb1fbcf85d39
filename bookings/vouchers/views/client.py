"""A gift voucher as its buyer sees it."""

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.common.http import cards_are_on, leads_to_card_page, pdf
from bookings.diary import clock
from bookings.errors import BookingsError, VoucherRefused
from bookings.money import VoucherState
from bookings.payments.models import Method
from bookings.studio.selectors import the_studio
from bookings.vouchers import links as voucher_links
from bookings.vouchers import selectors as selector
from bookings.vouchers.forms import GiftForm
from bookings.vouchers.paper import voucher_pdf
from bookings.vouchers.services import selling as service

PAPER = "voucher.pdf"


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def give(request: HttpRequest) -> HttpResponse:
    """A voucher for somebody: how much, from whom, for whom."""
    studio = the_studio()
    if studio.voucher_most is None:
        raise Http404(_("This studio sells its vouchers at the desk only."))
    form = GiftForm(request.POST or None, studio=studio)
    if request.method == "POST" and form.is_valid():
        try:
            asked = service.ask(submission_key=form.cleaned_data["key"], gift=form.gift(), now=timezone.now())
            return redirect("voucher", voucher_links.voucher_token(asked))
        except BookingsError as refusal:
            form.add_error(None, str(refusal))
    context = {"form": form, "months": studio.voucher_months}
    return render(
        request, "bookings/vouchers/give_voucher.html", context, status=400 if form.is_bound else 200
    )


@never_cache
@require_safe
@leads_to_card_page
def given(request: HttpRequest, token: str) -> HttpResponse:
    """What is owed for a voucher and how to pay it; once it is paid, the voucher."""
    voucher = voucher_links.resolve_voucher(token)
    row = selector.row_of(voucher, on=clock.studio_day(now=timezone.now()))
    context = {
        "row": row,
        "voucher": voucher,
        "token": token,
        "practice": settings.DEMO,
        "by_card": cards_are_on(),
        "awaited": voucher.card_checkouts.awaited(),
    }
    return render(request, "bookings/vouchers/given.html", context)


@require_safe
def paper(request: HttpRequest, token: str) -> HttpResponse:
    voucher = voucher_links.resolve_voucher(token)
    if not selector.is_paid(voucher):
        raise VoucherRefused(_("This voucher can be printed once it is paid for."))
    return pdf(voucher_pdf(voucher), PAPER)


@require_POST
def practice_card(request: HttpRequest, token: str) -> HttpResponse:
    """Pretend that a card paid for a voucher. It exists in the practice studio only."""
    if not settings.DEMO:
        raise Http404(_("There is no practice card outside the practice studio."))
    voucher = voucher_links.resolve_voucher(token)
    row = selector.row_of(voucher, on=clock.studio_day(now=timezone.now()))
    if row.state is VoucherState.UNPAID:
        service.record_money(
            voucher_id=voucher.pk,
            amount=row.facts.owed,
            method=Method.PRACTICE,
            reference=f"practice-{voucher.code}",
            now=timezone.now(),
        )
    return redirect("voucher", token)
