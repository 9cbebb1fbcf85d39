"""The card service is asked about pages of which it told nothing: its message may be lost, the money is not.

No transaction is open meanwhile, and few are asked at a time: each may take seconds, and letters wait behind them.
"""

import logging
from datetime import datetime, timedelta

from bookings.cards import gateway
from bookings.cards.models import CardCheckout
from bookings.cards.services import webhooks as card_messages
from bookings.common.http import cards_are_on
from bookings.errors import CardRefused, CardServiceAway, MessageRefused

GRACE = timedelta(minutes=5)  # for a message on its way, after a page has closed
AGAIN = timedelta(minutes=10)  # after a silence
AT_A_TIME = 3
logger = logging.getLogger(__name__)


def ask(*, now: datetime) -> int:
    """Ask about pages that closed without a word, and enter what was paid on them; return how many were paid.

    A page is asked about once, and again only after a silence.
    """
    if not cards_are_on():
        return 0
    silent = CardCheckout.objects.filter(ask_at__lte=now, money="").order_by("ask_at", "pk")[:AT_A_TIME]
    return sum(_paid(page, now) for page in silent)


def _paid(page: CardCheckout, now: datetime) -> bool:
    try:
        message = gateway.ask_about(session=page.session, now=now)
    except CardServiceAway:
        CardCheckout.objects.filter(pk=page.pk).update(ask_at=now + AGAIN)
        return False
    except (CardRefused, MessageRefused) as refusal:
        logger.warning("asked about page %s: %s", page.pk, refusal)
        message = None
    if message is not None:
        card_messages.ingest(message=message, now=now)
    CardCheckout.objects.filter(pk=page.pk).update(ask_at=None)
    return message is not None
