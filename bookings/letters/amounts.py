"""What the letters about an order say of its money: amounts, and the terms of cancelling and changing, in sentences."""

from datetime import datetime

from django.utils.translation import gettext as _

from bookings.common import formats
from bookings.money import free_until
from bookings.orders.models import Order
from bookings.orders.selectors.account import Account, account, moving
from bookings.studio.models import Studio


def context(order: Order, studio: Studio, now: datetime) -> dict[str, object]:
    """The amounts of an order in words; one that is nothing is an empty text."""
    owing = account(order)
    amounts = {
        "total": owing.gross,
        "deposit": owing.deposit,
        "deposit_owed": owing.deposit_owed,
        "paid": max(0, owing.paid),
        "owed": max(0, owing.owed),
        "kept": owing.gross if order.cancelled_at else 0,
        "returned": owing.overpaid,
    }
    written = {
        word: formats.amount(minor, order.currency, studio.locale) if minor else ""
        for word, minor in amounts.items()
    }
    return {**written, "cancelling": _cancelling(order, owing, studio, now)}


def _cancelling(order: Order, owing: Account, studio: Studio, now: datetime) -> str:
    """The terms of cancelling, and of changing the time, as a few sentences."""
    return f"{_cancelling_words(order, owing, studio, now)} {_moving_words(order, studio, now)}".strip()


def _moving_words(order: Order, studio: Studio, now: datetime) -> str:
    cost = moving(order, now=now)
    if cost.price:
        price = formats.amount(cost.price, order.currency, studio.locale)
        return _("If you ask for another time, that costs {price}.").format(price=price)
    if not order.terms.late_move_bp or order.cancelled_at is not None:
        return ""
    until = formats.moment(order.sitting.day.local(cost.free_until), studio.locale)
    share = formats.percent(order.terms.late_move_bp)
    return _("Another time costs nothing until {until}, and {share} of your deposit after that.").format(
        until=until, share=share
    )


def _cancelling_words(order: Order, owing: Account, studio: Studio, now: datetime) -> str:
    terms = order.terms
    if not owing.deposit or not terms.kept_share_bp:
        return _("You can cancel without charge at any time before your sitting.")
    day = order.sitting.day
    last_free = free_until(terms.free_until_hours, order.sitting.bench_job.starts_at)
    deposit = formats.amount(owing.deposit, order.currency, studio.locale)
    kept = (
        _("your deposit of {sum}").format(sum=deposit)
        if terms.kept_share_bp == 10_000
        else _("{share} of your deposit of {sum}").format(
            share=formats.percent(terms.kept_share_bp), sum=deposit
        )
    )
    if now > last_free:
        return _("If you cancel, the studio keeps {kept}.").format(kept=kept)
    until = formats.moment(day.local(last_free), studio.locale)
    return _("You can cancel without charge until {until}. After that the studio keeps {kept}.").format(
        until=until, kept=kept
    )
