"""Signed links for clients, who have no password. Each kind of link opens one kind of page and no other."""

from datetime import timedelta

from django.core import signing
from django.utils.translation import gettext as _

from bookings.errors import LinkInvalid
from bookings.orders.models import Order

SITTING = "bookings.sitting"


CHECKOUT = "bookings.checkout"


CHECKOUT_FOR = timedelta(days=3)


def sitting_token(order: Order) -> str:
    """A long-lived link that shows time, place and plates, and nothing about the person."""
    return signing.dumps(order.pk, salt=SITTING)


def checkout_token(order: Order) -> str:
    """A link for the one who is booking just now: details and deposit."""
    return signing.dumps(order.pk, salt=CHECKOUT)


def resolve_sitting(token: str) -> Order:
    """The order a sitting link was made for; LinkInvalid for any other text."""
    return _resolve(token, SITTING, None)


def resolve_checkout(token: str) -> Order:
    """The order a checkout link was made for.

    LinkInvalid for any other text, after three days, and once its place was given back: nothing is left to pay then.
    """
    order = _resolve(token, CHECKOUT, CHECKOUT_FOR)
    if order.cancelled_at is not None or order.sitting.bench_job.released_at is not None:
        raise LinkInvalid(_("This time was given back. Choose a new one on the first page."))
    return order


def resolve_payer(token: str) -> Order:
    """The order of a checkout link, also after its place was given back: money may have come for it meanwhile."""
    return _resolve(token, CHECKOUT, CHECKOUT_FOR)


def _row_id(token: str, salt: str, max_age: timedelta | None) -> int:
    try:
        return int(signing.loads(token, salt=salt, max_age=max_age))
    except signing.BadSignature as error:
        raise LinkInvalid(
            _("This link is not complete, or it has run out. Open it again from your letter.")
        ) from error


def _resolve(token: str, salt: str, max_age: timedelta | None) -> Order:
    order_id = _row_id(token, salt, max_age)
    order = Order.objects.with_sitting().filter(pk=order_id).first()
    if order is None:
        raise LinkInvalid(
            _("The order behind this link is no longer kept. Write to the studio if you expected it.")
        )
    return order
