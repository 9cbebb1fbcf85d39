"""Orders and pages of the card service, as rows, and the messages about them."""

from datetime import timedelta
from uuid import uuid4

from bookings.cards.events import CardMessage, Kind
from bookings.cards.models import CardCheckout, CardNotice
from bookings.cards.services import paying as cards
from bookings.cards.services import webhooks as card_messages
from bookings.cards.services.paying import BackTo
from bookings.payments.models import Payment
from tests.builders import NOW

DEPOSIT = 4250  # half of 85.00, the price of a quarter plate
BACK_TO = BackTo(paid="https://studio.example.org/paid/", left="https://studio.example.org/left/")


def a_page(order, *, name="cs_1", amount=DEPOSIT, currency="EUR", now=NOW):
    facts = {
        "amount": amount,
        "currency": currency,
        "opened_at": now,
        "open_until": now + timedelta(minutes=40),
    }
    return CardCheckout.objects.create(
        order=order, session=name, address=f"https://pages.example.org/{name}", **facts
    )


def told(kind, *, event="evt_1", amount=DEPOSIT, currency="EUR", session="cs_1", money="pi_1", refund=""):
    about = {"session": session, "money": money, "refund": refund, "amount": amount, "currency": currency}
    return CardMessage(event=event, kind=kind, happened_at=NOW, **about)


def paid(**facts):
    return told(Kind.PAID, **facts)


def returned(*, event="evt_2", amount=1000, refund="re_1", session="", kind=Kind.RETURNED, **facts):
    return told(kind, event=event, amount=amount, refund=refund, session=session, **facts)


def take(message, *, now=NOW):
    return card_messages.ingest(message=message, now=now)


def given_back(page, amount, *, key=None):
    return cards.refund(page_id=page.pk, amount=amount, key=key or uuid4(), given_by=None, now=NOW)


def ledger():
    """What was entered: reference, amount and order of each payment, in no order."""
    return sorted(Payment.objects.values_list("reference", "amount", "order_id"))


def noted():
    """Each message's outcome by its name."""
    return dict(CardNotice.objects.values_list("event", "outcome"))


def reason(event="evt_1"):
    return CardNotice.objects.get(event=event).reason
