"""What the card service tells, entered once: in any order, as often as it is told, and after a crash at any point.

The payment is entered first, under a reference made from the service's own name for it, so that the same again is the
same payment; the message is noted last. What is not noted was not answered for, and is told again.
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
from django.utils.translation import gettext_noop

from bookings.cards.events import CardMessage, Kind
from bookings.cards.models import CardCheckout, CardNotice, Outcome
from bookings.cards.selectors import doubt, in_words, too_far
from bookings.errors import ReferenceTaken
from bookings.money import Money
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from bookings.vouchers.services import selling as vouchers

LONGEST_REFERENCE = 64
# Kept in its row as it stands here, and looked for there: it is put into the studio's language where it is shown.
WAITS = gettext_noop(
    "Money was given back for a payment that is not known here. Once that is told, this is entered by itself."
)


@dataclass(frozen=True, slots=True)
class Entry:
    """What a message comes to."""

    outcome: Outcome
    reason: str = ""
    payment: Payment | None = None
    session: str = ""


@dataclass(frozen=True, slots=True)
class Told:
    """A message with what has to be known to enter it."""

    message: CardMessage
    now: datetime
    by: User | None = None


def take(*, message: CardMessage, now: datetime, recorded_by: User | None = None) -> Outcome:
    """Enter what a believed message says, and note it. The same message again is KNOWN, without effect.

    Money that came is entered whatever it was meant to be, unless it is of another currency or for nobody we know; what
    does not add up is noted as LOOK, with a sentence.
    """
    if CardNotice.objects.filter(event=message.event).exists():
        return Outcome.KNOWN
    return _noted(message, _entry(Told(message, now, recorded_by)), now)


def settle_waiting(*, now: datetime) -> int:
    """Enter what was given back before it was known what for, where that is known by now; return how much was."""
    settled = 0
    for notice in CardNotice.objects.filter(reason=WAITS, looked_at__isnull=True).order_by("pk"):
        entry = _entry(Told(_again(notice), now))
        if entry.reason != WAITS:
            waiting = CardNotice.objects.filter(pk=notice.pk, reason=WAITS)
            settled += waiting.update(session=entry.session or notice.session, **_comes_to(entry))
    return settled


def look_at(*, notice_id: int, now: datetime) -> None:
    """Mark a message as looked at; safe twice."""
    CardNotice.objects.filter(pk=notice_id, looked_at__isnull=True).update(looked_at=now)


def _entry(told: Told) -> Entry:
    try:
        return EFFECTS.get(told.message.kind, _nothing)(told)
    except ReferenceTaken as refusal:
        return Entry(Outcome.LOOK, str(refusal)[:300])


def _nothing(told: Told) -> Entry:
    return Entry(Outcome.NOTED)


def _paid(told: Told) -> Entry:
    message = told.message
    page = CardCheckout.objects.filter(session=message.session).first()
    if page is None:
        return Entry(
            Outcome.LOOK,
            _(
                "A card paid {amount} on a page that is not known here (reference {reference}). Nothing was entered."
            ).format(
                amount=in_words(message.amount, message.currency),
                reference=message.reference[:40] or _("none"),
            ),
        )
    if not message.amount or message.currency != page.currency:
        return Entry(
            Outcome.LOOK,
            _("A card paid {sum} where {asked} was asked. Nothing was entered.").format(
                sum=in_words(message.amount, message.currency),
                asked=in_words(page.amount, page.currency),
            ),
        )
    CardCheckout.objects.filter(pk=page.pk).update(money=message.money)
    payment = _entered(page, message.amount, message.session, told)
    settle_waiting(now=told.now)
    reason = doubt(page, payment)
    return Entry(Outcome.LOOK if reason else Outcome.PAID, reason, payment)


def _returned(told: Told) -> Entry:
    page = _paid_page(told.message)
    if page is None:
        return Entry(Outcome.LOOK, WAITS)
    if not told.message.amount or told.message.currency != page.currency:
        return Entry(
            Outcome.LOOK, _("Money was given back in another currency than it came. Nothing was entered.")
        )
    payment = _entered(page, -told.message.amount, told.message.refund, told)
    reason = too_far(page)
    return Entry(Outcome.LOOK if reason else Outcome.RETURNED, reason, payment, page.session)


def _not_returned(told: Told) -> Entry:
    """The giving back failed: it is entered if it was not yet, and taken back by an entry of its own."""
    entry = _returned(told)
    page = _paid_page(told.message)
    if entry.payment is None or page is None:
        return entry
    payment = _entered(page, -entry.payment.amount, f"{told.message.refund} undone", told)
    reason = _("The card service could not give this back after all. Give it back in another way.")
    return Entry(Outcome.LOOK, reason, payment, page.session)


def _disputed(told: Told) -> Entry:
    page = _page_of(told.message)
    asked_back = in_words(told.message.amount, told.message.currency)
    if page and page.order_id:
        asked_back = _("{sum} of order {order}").format(sum=asked_back, order=page.order)
    reason = _(
        "The holder of the card contests {sum}, or that is over. Answer at the card service; enter here what it "
        "takes from you."
    ).format(sum=asked_back)
    return Entry(Outcome.LOOK, reason, session=page.session if page else "")


EFFECTS: dict[Kind, Callable[[Told], Entry]] = {
    Kind.PAID: _paid,
    Kind.RETURNED: _returned,
    Kind.NOT_RETURNED: _not_returned,
    Kind.DISPUTED: _disputed,
}


def _entered(page: CardCheckout, amount: Money, name: str, told: Told) -> Payment:
    """The entry in the ledger of what the service calls `name`: the same again is the same entry."""
    return _ledger_of(page)(
        amount=amount,
        method=Method.CARD,
        reference=reference_of(name=name),
        now=told.now,
        recorded_by=told.by,
        note=told.message.money[:200],
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
def _noted(message: CardMessage, entry: Entry, now: datetime) -> Outcome:
    """Note the message last. One that tells of a payment which another told of already is KNOWN."""
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
        **_comes_to(entry),
    }
    notice, created = CardNotice.objects.get_or_create(event=message.event, defaults=facts)
    return Outcome(notice.outcome) if created else Outcome.KNOWN


def _comes_to(entry: Entry) -> dict[str, Any]:
    """What is noted of an entry; of a payment that another message told of already, only that it is known."""
    if entry.payment is not None and CardNotice.objects.filter(payment=entry.payment).exists():
        return {"outcome": Outcome.KNOWN, "reason": "", "payment": entry.payment}
    return {"outcome": entry.outcome, "reason": entry.reason, "payment": entry.payment}


def _again(notice: CardNotice) -> CardMessage:
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
