"""Messages of the card service, each entered once: in any order, however often sent, after a crash at any point.

The payment is entered first, under a reference made from the service's own name for it, so that the same message again
is the same payment; the message is noted last. A message that was not noted was not answered, and is sent again.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from hashlib import sha256
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.cards.events import CardMessage, Kind
from bookings.cards.models import CardCheckout, CardNotice, Outcome
from bookings.cards.selectors import amount_in_words, discrepancy, over_refunded
from bookings.errors import ReferenceTaken
from bookings.money import Money
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from bookings.vouchers.services import selling as vouchers

LONGEST_REFERENCE = 64


@dataclass(frozen=True, slots=True)
class Entry:
    """What a message comes to."""

    outcome: Outcome
    reason: str = ""
    payment: Payment | None = None
    session: str = ""


@dataclass(frozen=True, slots=True)
class Incoming:
    """A message with what has to be known to enter it."""

    message: CardMessage
    now: datetime
    by: User | None = None


def ingest(*, message: CardMessage, now: datetime, recorded_by: User | None = None) -> Outcome:
    """Enter what a believed message says, and note it. The same message again is KNOWN, without effect.

    Money that came is entered whatever it was meant to be, unless it is of another currency or for nobody we know; what
    does not add up is noted as LOOK, with a sentence.
    """
    if CardNotice.objects.filter(event=message.event).exists():
        return Outcome.KNOWN
    return _note(message, _entry(Incoming(message, now, recorded_by)), now)


def settle_waiting(*, now: datetime) -> int:
    """Enter what was given back before it was known what for, where that is known by now; return how much was."""
    settled = 0
    waiting = CardNotice.objects.filter(outcome=Outcome.WAITING)
    for notice in waiting.filter(looked_at__isnull=True).order_by("pk"):
        entry = _entry(Incoming(_message_of(notice), now))
        if entry.outcome is not Outcome.WAITING:
            session = entry.session or notice.session
            settled += waiting.filter(pk=notice.pk).update(session=session, **_outcome_fields(entry))
    return settled


def mark_looked_at(*, notice_id: int, now: datetime) -> None:
    """Mark a message as looked at; safe twice."""
    CardNotice.objects.filter(pk=notice_id, looked_at__isnull=True).update(looked_at=now)


def _entry(incoming: Incoming) -> Entry:
    try:
        return EFFECTS.get(incoming.message.kind, _no_effect)(incoming)
    except ReferenceTaken as refusal:
        return Entry(Outcome.LOOK, str(refusal)[:300])


def _no_effect(incoming: Incoming) -> Entry:
    return Entry(Outcome.NOTED)


def _paid(incoming: Incoming) -> Entry:
    message = incoming.message
    page = CardCheckout.objects.filter(session=message.session).first()
    if page is None:
        return Entry(
            Outcome.LOOK,
            _(
                "A card paid {amount} on a page that is not known here (reference {reference}). Nothing was entered."
            ).format(
                amount=amount_in_words(message.amount, message.currency),
                reference=message.reference[:40] or _("none"),
            ),
        )
    if not message.amount or message.currency != page.currency:
        return Entry(
            Outcome.LOOK,
            _("A card paid {sum} where {asked} was asked. Nothing was entered.").format(
                sum=amount_in_words(message.amount, message.currency),
                asked=amount_in_words(page.amount, page.currency),
            ),
        )
    CardCheckout.objects.filter(pk=page.pk).update(money=message.money)
    payment = _enter(page, message.amount, message.session, incoming)
    settle_waiting(now=incoming.now)
    reason = discrepancy(page, payment)
    return Entry(Outcome.LOOK if reason else Outcome.PAID, reason, payment)


def _refunded(incoming: Incoming) -> Entry:
    page = _paid_page(incoming.message)
    if page is None:
        return Entry(Outcome.WAITING)
    if not incoming.message.amount or incoming.message.currency != page.currency:
        return Entry(
            Outcome.LOOK, _("Money was given back in another currency than it came. Nothing was entered.")
        )
    payment = _enter(page, -incoming.message.amount, incoming.message.refund, incoming)
    reason = over_refunded(page)
    return Entry(Outcome.LOOK if reason else Outcome.RETURNED, reason, payment, page.session)


def _refund_failed(incoming: Incoming) -> Entry:
    """The giving back failed: it is entered if it was not yet, and taken back by an entry of its own."""
    entry = _refunded(incoming)
    page = _paid_page(incoming.message)
    if entry.payment is None or page is None:
        return entry
    payment = _enter(page, -entry.payment.amount, f"{incoming.message.refund} undone", incoming)
    reason = _("The card service could not give this back after all. Give it back in another way.")
    return Entry(Outcome.LOOK, reason, payment, page.session)


def _disputed(incoming: Incoming) -> Entry:
    page = _page_of(incoming.message)
    asked_back = amount_in_words(incoming.message.amount, incoming.message.currency)
    if page and page.order_id:
        asked_back = _("{sum} of order {order}").format(sum=asked_back, order=page.order)
    reason = _(
        "The holder of the card contests {sum}, or that is over. Answer at the card service; enter here what it "
        "takes from you."
    ).format(sum=asked_back)
    return Entry(Outcome.LOOK, reason, session=page.session if page else "")


EFFECTS: dict[Kind, Callable[[Incoming], Entry]] = {
    Kind.PAID: _paid,
    Kind.RETURNED: _refunded,
    Kind.NOT_RETURNED: _refund_failed,
    Kind.DISPUTED: _disputed,
}


def _enter(page: CardCheckout, amount: Money, name: str, incoming: Incoming) -> Payment:
    """The entry in the ledger of what the service calls `name`: the same again is the same entry."""
    return _ledger_of(page)(
        amount=amount,
        method=Method.CARD,
        reference=reference_of(name=name),
        now=incoming.now,
        recorded_by=incoming.by,
        note=incoming.message.money[:200],
    )


def _ledger_of(page: CardCheckout) -> Callable[..., Payment]:
    """How money is entered for what a page was opened for: an order, or else a voucher (a constraint)."""
    if page.order_id is not None:
        return partial(payments.record, order_id=page.order_id)
    assert page.voucher_id is not None
    return partial(vouchers.record_money, voucher_id=page.voucher_id)


def reference_of(*, name: str) -> str:
    """The ledger's reference for what the card service calls `name`; a long name is shortened to its digest."""
    reference = f"card {name}"
    return (
        reference if len(reference) <= LONGEST_REFERENCE else f"card {sha256(name.encode()).hexdigest()[:40]}"
    )


def _page_of(message: CardMessage) -> CardCheckout | None:
    pages = CardCheckout.objects.select_related("order")
    if message.session:
        return pages.filter(session=message.session).first()
    return pages.filter(money=message.money).first() if message.money else None


def _paid_page(message: CardMessage) -> CardCheckout | None:
    """The page that the money came by which is given back, once that money has been entered."""
    page = _page_of(message)
    if page is None or not Payment.objects.filter(reference=reference_of(name=page.session)).exists():
        return None
    return page


@transaction.atomic
def _note(message: CardMessage, entry: Entry, now: datetime) -> Outcome:
    """Note the message last. One that tells of a payment which another incoming of already is KNOWN."""
    session = entry.session or message.session
    # Two messages about one page are noted one after the other.
    list(CardCheckout.objects.select_for_update().filter(session=session))
    facts = {
        "kind": message.kind,
        "session": session,
        "money": message.money,
        "refund": message.refund,
        "amount": message.amount,
        "currency": message.currency,
        "happened_at": message.happened_at,
        "received_at": now,
        **_outcome_fields(entry),
    }
    notice, created = CardNotice.objects.get_or_create(event=message.event, defaults=facts)
    return Outcome(notice.outcome) if created else Outcome.KNOWN


def _outcome_fields(entry: Entry) -> dict[str, Any]:
    """What is noted of an entry; of a payment that another message incoming of already, only that it is known."""
    if entry.payment is not None and CardNotice.objects.filter(payment=entry.payment).exists():
        return {"outcome": Outcome.KNOWN, "reason": "", "payment": entry.payment}
    return {"outcome": entry.outcome, "reason": entry.reason, "payment": entry.payment}


def _message_of(notice: CardNotice) -> CardMessage:
    """The message that was noted."""
    return CardMessage(
        event=notice.event,
        kind=Kind(notice.kind),
        happened_at=notice.happened_at,
        session=notice.session,
        money=notice.money,
        refund=notice.refund,
        amount=notice.amount,
        currency=notice.currency,
    )
