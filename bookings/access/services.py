"""Proving that one is the client: a link goes to the address that is kept, opens once, and soon runs out."""

import hashlib
from datetime import datetime, timedelta
from uuid import uuid4

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.access import links as step_up_links
from bookings.access.models import Purpose, StepUp
from bookings.errors import LinkInvalid, TooManyLinks
from bookings.orders.models import Order
from bookings.outbox import services as outbox

OPEN_FOR = timedelta(minutes=10)
MOST_LETTERS = 3
GONE = gettext_lazy(
    "This link was used already, or its ten minutes are over. Ask for another on the page of your sitting."
)
CHANGED = gettext_lazy(
    "Your booking has changed since this letter was written. Ask for another link on the page of your sitting."
)


@transaction.atomic
def ask(*, order_id: int, purpose: Purpose, now: datetime) -> StepUp:
    """Mail a link for one purpose to the client of an order.

    TooManyLinks; LinkInvalid when there is nobody to write to.
    """
    order = Order.objects.locked(order_id)
    if order.client is None or not order.client.email:
        raise LinkInvalid(_("There is no address that a letter could go to. Write to the studio instead."))
    if order.step_ups.filter(asked_at__gt=now - OPEN_FOR).count() >= MOST_LETTERS:
        raise TooManyLinks(
            _(
                "{number} letters went out in the last ten minutes. Look for them, also among unwanted mail, "
                "or ask again a little later."
            ).format(number=MOST_LETTERS)
        )
    asked = StepUp.objects.create(
        order=order,
        purpose=purpose,
        nonce=uuid4(),
        standing=fingerprint(order=order),
        asked_at=now,
        runs_out_at=now + OPEN_FOR,
    )
    outbox.queue_step_up(step_up=asked, due_at=now)
    return asked


def resolve(*, text: str, now: datetime) -> StepUp:
    """The link that `text` is, if it can still be used; looking at it uses nothing up. LinkInvalid."""
    purpose, nonce = step_up_links.resolve(text)
    found = StepUp.objects.select_related("order__client", "order__sitting")
    asked = found.filter(nonce=nonce, purpose=purpose).first()
    if asked is None or asked.used_at is not None or now >= asked.runs_out_at:
        raise LinkInvalid(GONE)
    if asked.standing != fingerprint(order=asked.order):
        raise LinkInvalid(CHANGED)
    return asked


@transaction.atomic
def use(*, text: str, now: datetime) -> StepUp:
    """Use a link up. Of any number of uses at the same moment one succeeds; LinkInvalid for the others."""
    # Whatever changes the order waits for this lock, so that the link is used for the order it was asked for.
    Order.objects.locked(resolve(text=text, now=now).order_id)
    asked = resolve(text=text, now=now)
    asked.used_at = now
    asked.save(update_fields=["used_at"])
    return asked


def fingerprint(*, order: Order) -> str:
    """One line that changes with what a client was told: time, plates, extras, prices, whom letters go to."""
    facts = (
        order.placed_at,
        order.cancelled_at,
        order.sitting.calendar_sequence,
        order.sitting.day_id,
        (order.client.pk, order.client.email) if order.client else None,
        list(order.lines.values_list("kind", "text", "quantity", "unit_amount")),
    )
    return hashlib.sha256(repr(facts).encode()).hexdigest()
