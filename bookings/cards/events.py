"""PURE: what a message of the card service says, in our words. Whether it may be believed is seen to in `gateway`."""

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from enum import StrEnum
from typing import Any

from bookings.cards.amounts import NoSuchSum, from_service
from bookings.errors import MessageRefused
from bookings.money import Money

LONGEST_NAME = 255
LARGEST_SUM = 2**31 - 1  # what the ledger holds


class Kind(StrEnum):
    """What happened."""

    PAID = "paid"
    FAILED = "payment failed"
    EXPIRED = "page expired"
    RETURNED = "money returned"
    NOT_RETURNED = "return failed"
    DISPUTED = "disputed"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class CardMessage:
    """One thing that happened at the card service. A name that the message does not hold is empty.

    `money` and `refund` are the service's names for a payment and for a giving back; `amount` is in minor units of
    `currency`, None where none is told, or one that is no whole number of them.
    """

    event: str
    kind: Kind
    happened_at: datetime
    session: str = ""
    money: str = ""
    refund: str = ""
    amount: Money | None = None
    currency: str = ""
    reference: str = ""


SESSION_KINDS = {
    "checkout.session.completed": Kind.PAID,
    "checkout.session.async_payment_succeeded": Kind.PAID,
    "checkout.session.async_payment_failed": Kind.FAILED,
    "checkout.session.expired": Kind.EXPIRED,
}
REFUND_STATES = {
    "succeeded": Kind.RETURNED,
    "pending": Kind.RETURNED,  # on its way: it is no longer the studio's
    "failed": Kind.NOT_RETURNED,
    "canceled": Kind.NOT_RETURNED,
}


def read(body: bytes) -> CardMessage:
    """The message in our words; MessageRefused where it is none."""
    try:
        told = json.loads(body)
        about = told["data"]["object"]
        kind = _kind(told["type"], about)
        return CardMessage(
            event=_name(told["id"]),
            kind=kind,
            happened_at=datetime.fromtimestamp(told["created"], UTC),
            **_facts(about) if kind != Kind.OTHER else {},
        )
    except (ValueError, TypeError, KeyError, AttributeError, OverflowError, OSError, RecursionError):
        raise MessageRefused("This message cannot be read.") from None


def paid_on(page: dict[str, Any], *, now: datetime) -> CardMessage | None:
    """What a page tells that was asked for, as if it had been told: the payment, None where nobody has paid on it.

    MessageRefused for an answer that is none.
    """
    try:
        if page["payment_status"] != "paid":
            return None
        return CardMessage(
            event=f"asked-{_name(page['id'])}"[:LONGEST_NAME], kind=Kind.PAID, happened_at=now, **_facts(page)
        )
    except (ValueError, TypeError, KeyError, AttributeError):
        raise MessageRefused("This answer of the card service cannot be read.") from None


def in_our_units(sum_there: int, currency: str) -> Money | None:
    """The service's sum in minor units, None where it is no whole number of them, or more than a ledger holds."""
    try:
        amount = from_service(sum_there, currency)
    except NoSuchSum:
        return None
    return amount if amount <= LARGEST_SUM else None


def _kind(type_: str, about: dict[str, Any]) -> Kind:
    if type_ == "checkout.session.completed" and about["payment_status"] != "paid":
        return Kind.OTHER  # the money comes later, and is told of when it has
    if about.get("object") == "refund":
        return REFUND_STATES.get(about["status"], Kind.OTHER)
    if type_ in {"charge.dispute.created", "charge.dispute.closed"}:
        return Kind.DISPUTED
    return SESSION_KINDS.get(type_, Kind.OTHER)


def _facts(about: dict[str, Any]) -> dict[str, Any]:
    currency = _name(about["currency"]).upper()
    told = about["amount_total"] if about["object"] == "checkout.session" else about["amount"]
    facts = {
        "currency": currency,
        "amount": None if told is None else in_our_units(_whole(told), currency),
        "money": _name(about.get("payment_intent")),
    }
    if about["object"] == "checkout.session":
        return facts | {"session": _name(about["id"]), "reference": _name(about.get("client_reference_id"))}
    if about["object"] == "refund":
        # Only what was given back from here names its page; for the rest the name of the payment has to do.
        return facts | {"refund": _name(about["id"]), "session": _name(about["metadata"].get("session"))}
    return facts


def _name(told: object) -> str:
    """A name as the service gives it; empty for none. ValueError for anything that is no name."""
    if told is None:
        return ""
    if not isinstance(told, str) or len(told) > LONGEST_NAME or not told.isprintable():
        raise ValueError("not a name")
    return told


def _whole(told: object) -> int:
    if isinstance(told, bool) or not isinstance(told, int) or not 0 <= told < 2**53:
        raise ValueError("not a sum")
    return told
