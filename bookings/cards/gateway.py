"""The card service behind one door: no other module knows its library, its words or its units.

The library is imported where a card is charged or a message is read, and only when cards are switched on: that takes a
fifth of a second. Nothing about a card itself ever passes here, in either direction.
"""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import TYPE_CHECKING, Any
from uuid import UUID

from django.conf import settings
from django.utils.translation import gettext as _

from bookings.cards.amounts import NoSuchSum, to_service
from bookings.cards.events import CardMessage, Kind, in_our_units, paid_on, read
from bookings.errors import CardRefused, CardServiceAway, MessageRefused
from bookings.money import Money

if TYPE_CHECKING:
    import stripe

SIGNATURE_HEADER = "Stripe-Signature"
TOLERANCE = timedelta(minutes=5)
PATIENCE = 8.0  # seconds for one answer; a page waits for it
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class CheckoutRequest:
    """One sum, in minor units of its currency, and the addresses that the payer comes back to."""

    amount: Money
    currency: str
    text: str
    reference: str
    paid_address: str
    left_address: str
    open_until: datetime


@dataclass(frozen=True, slots=True)
class Opened:
    """A page of the card service: its name for it, where it is, and until when it can be paid on."""

    session: str
    address: str
    open_until: datetime


def open_checkout(*, asked: CheckoutRequest, turn: int) -> Opened:
    """Have the card service open a page on which `asked` is paid. The same again is the same page, while `turn` is.

    CardRefused for a sum that it cannot take, CardServiceAway when it does not answer.
    """
    with _at_the_service():
        session = _client().v1.checkout.sessions.create(
            params=_page_for(asked), options={"idempotency_key": _key(asked, turn)}
        )
    return _opened(str(session.id), session.url or "", session.expires_at)


def refund(*, money: str, session: str, amount: Money, currency: str, key: UUID) -> CardMessage:
    """Have the card service give back part of what came; its answer is worth a signed message.

    The same `key` again gives nothing more back. CardRefused when the service refuses, CardServiceAway when silent.
    """
    sum_there = _sum(amount, currency)
    with _at_the_service():
        refund = _client().v1.refunds.create(
            params={"payment_intent": money, "amount": sum_there, "metadata": {"session": session}},
            options={"idempotency_key": f"give-back-{key}"},
        )
    status = str(refund.status)
    if status in {"failed", "canceled"}:
        raise CardRefused(_("The card service could not give this back. Give it back in another way."))
    return CardMessage(
        event=answer_to(key=key),
        kind=Kind.RETURNED,
        session=session,
        money=money,
        refund=str(refund.id),
        amount=in_our_units(int(refund.amount), str(refund.currency).upper()),
        currency=str(refund.currency).upper(),
        happened_at=datetime.fromtimestamp(refund.created, UTC),
    )


def ask_about(*, session: str, now: datetime) -> CardMessage | None:
    """What was paid on a page, asked of the card service because it did not tell; None for nothing.

    CardServiceAway when it does not answer, CardRefused when it knows no such page, MessageRefused for nonsense.
    """
    with _at_the_service():
        page = _client().v1.checkout.sessions.retrieve(session)
    return paid_on(page.to_dict(), now=now)


def answer_to(*, key: UUID) -> str:
    """What the answer to a giving back is called among the messages."""
    return f"answer-{key}"


def read_message(*, body: bytes, signature: str, now: datetime) -> CardMessage:
    """What a message of the card service says. MessageRefused unless one of our secrets signed it just now.

    The signature is over the raw bytes and the time it was made, which must lie within five minutes of `now`.
    """
    _refuse_unsigned(body, signature)
    if abs(now - _signed_at(signature)) > TOLERANCE:
        raise MessageRefused(_("This message was not signed just now."))
    return read(body)


def _refuse_unsigned(body: bytes, signature: str) -> None:
    library = _library()
    for secret in settings.CARD_SIGNING_SECRETS if signature.isascii() else []:
        try:
            # Without the library's own look at the clock: the time is an argument here, and may not lie ahead either.
            library.WebhookSignature.verify_header(body, signature, secret, tolerance=None)
            return
        except (library.SignatureVerificationError, UnicodeDecodeError):
            continue
    raise MessageRefused(_("This message is not signed by the card service."))


def _signed_at(signature: str) -> datetime:
    """The time inside a signature that has been verified: the first one named, as the library takes it."""
    told = next(part[2:] for part in signature.split(",") if part.startswith("t="))
    try:
        return datetime.fromtimestamp(int(told), UTC)
    except (ValueError, OverflowError, OSError) as error:
        raise MessageRefused(_("This message was not signed just now.")) from error


def _library() -> Any:
    import stripe

    # What the library would tell of earlier requests with each one.
    stripe.enable_telemetry = False
    return stripe


def _client() -> "stripe.StripeClient":
    library = _library()
    client: stripe.StripeClient = library.StripeClient(
        settings.CARD_KEY,
        base_addresses={"api": settings.CARD_API} if settings.CARD_API else None,
        http_client=library.RequestsClient(timeout=PATIENCE),
        max_network_retries=1,
    )
    return client


@contextmanager
def _at_the_service() -> Iterator[None]:
    """Turn what the library raises into our two refusals. Its words may name the payer, so only its code is logged."""
    library = _library()
    try:
        yield
    except library.StripeError as error:
        logger.warning("the card service: %s %s", type(error).__name__, error.code or "")
        if isinstance(error, library.InvalidRequestError | library.CardError):
            raise CardRefused(
                _("The card service refuses this ({code}). Use another way.").format(code=error.code)
                if error.code
                else _("The card service refuses this. Use another way.")
            ) from None
        raise CardServiceAway(
            _(
                "The card service does not answer just now. Nothing was charged. Try again in a few minutes, "
                "or pay in another way."
            )
        ) from None


def _page_for(asked: CheckoutRequest) -> Any:
    price = {
        "currency": asked.currency.lower(),
        "unit_amount": _sum(asked.amount, asked.currency),
        "product_data": {"name": asked.text},
    }
    return {
        "mode": "payment",
        "payment_method_types": ["card"],
        "client_reference_id": asked.reference,
        "line_items": [{"quantity": 1, "price_data": price}],
        "payment_intent_data": {"description": asked.text},
        "success_url": asked.paid_address,
        "cancel_url": asked.left_address,
        "expires_at": int(asked.open_until.timestamp()),
    }


def _sum(amount: Money, currency: str) -> int:
    try:
        return to_service(amount, currency)
    except NoSuchSum as error:
        raise CardRefused(_("The card service cannot take exactly this sum. Pay in another way.")) from error


def _key(asked: CheckoutRequest, turn: int) -> str:
    """One key for one request: the service refuses a key that comes again with anything else."""
    facts = "\n".join(str(fact) for fact in (*asdict(asked).values(), turn))
    return f"checkout-{sha256(facts.encode()).hexdigest()}"


def _opened(session: str, address: str, expires_at: int) -> Opened:
    if not address.startswith(f"{settings.CARD_PAGES}/"):
        logger.error("the card service opened a page outside CARD_PAGES")
        raise CardServiceAway(_("The card service sent no page that this studio knows. Pay in another way."))
    return Opened(session=session, address=address, open_until=datetime.fromtimestamp(expires_at, UTC))
