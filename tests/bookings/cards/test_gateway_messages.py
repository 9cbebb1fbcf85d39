"""Which messages of the card service are believed, and what is read in them. Nothing leaves this computer."""

import hmac
import json
from datetime import timedelta
from hashlib import sha256

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from bookings.cards import gateway
from bookings.cards.events import CardMessage, Kind
from bookings.errors import MessageRefused
from tests.bookings.cards import card_service
from tests.bookings.cards.card_service import OLDER_SECRET, SECRET, event, refund, session, signature
from tests.builders import NOW

UNSIGNED = r"^This message is not signed by the card service\.$"
LATE = r"^This message was not signed just now\.$"
UNREADABLE = r"^This message cannot be read\.$"
BODY = event("checkout.session.completed", session(reference="ABC"))


@pytest.fixture(autouse=True)
def cards(settings):
    return card_service.keyed(settings)


def read(body=BODY, signed=None, now=NOW):
    return gateway.read_message(body=body, signature=signature(body) if signed is None else signed, now=now)


def test_a_signed_message_is_read_in_our_words():
    assert read() == CardMessage(
        event="evt_1", kind=Kind.PAID, happened_at=NOW, session="cs_1", money="pi_1", amount=4250, currency="EUR",
        reference="ABC",
    )  # fmt: skip


def by_hand(time):
    """HMAC with SHA-256 over the time, a dot and the body (the service's page on its signatures; from memory)."""
    return f"t={time},v1=" + hmac.new(SECRET.encode(), f"{time}.".encode() + BODY, sha256).hexdigest()


def test_the_signature_is_the_one_that_the_service_describes_at_a_time_that_can_be():
    assert read(signed=by_hand(int(NOW.timestamp()))).event == "evt_1"
    with pytest.raises(MessageRefused, match=LATE):
        read(signed=by_hand(10**30))


@pytest.mark.parametrize("way", [-1, 1])
def test_a_signature_holds_five_minutes_both_ways(way):
    assert read(now=NOW + way * timedelta(seconds=300)).event == "evt_1"
    with pytest.raises(MessageRefused, match=LATE):
        read(now=NOW + way * timedelta(seconds=301))


@pytest.mark.parametrize(
    "signed",
    ["", "x", "t=1", "t=,v1=", "v1=00", f"t={int(NOW.timestamp())},v1=", "t=1,v1=\u00e9", "," * 50, "t=\u0661,v1=00"],
    ids=["empty", "a word", "no sum", "nothing in it", "no time", "empty sum", "not ASCII", "commas", "other figures"],
)  # fmt: skip
def test_a_signature_that_is_none_is_refused(signed):
    with pytest.raises(MessageRefused, match=UNSIGNED):
        read(signed=signed)


@hypothesis_settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(bit=st.integers(0, 8 * len(BODY) - 1))
def test_one_bit_turned_over_is_refused(bit):
    torn = bytearray(BODY)
    torn[bit // 8] ^= 1 << bit % 8

    with pytest.raises(MessageRefused, match=UNSIGNED):
        read(bytes(torn), signature(BODY))


def test_another_secret_is_believed_only_while_the_secret_changes(cards):
    older = signature(BODY, secret=OLDER_SECRET)
    both = f"{older},{signature(BODY).partition(',')[2]}"
    assert read(signed=both).event == "evt_1"
    with pytest.raises(MessageRefused, match=UNSIGNED):
        read(signed=older)

    cards.CARD_SIGNING_SECRETS = [SECRET, OLDER_SECRET]

    for signed in (older, both, signature(BODY)):
        assert read(signed=signed).event == "evt_1"


UNREADABLE_BODIES = {
    "no JSON": b"paid",
    "a list": b"[]",
    "nothing about anything": b"{}",
    "no time": json.dumps(json.loads(BODY) | {"created": None}).encode(),
    "a name too long": event("checkout.session.completed", session("c" * 256)),
    "a name with a NUL": event("checkout.session.completed", session("c\0")),
    "a sum in words": event("checkout.session.completed", session(amount="4250")),
    "half a cent": event("checkout.session.completed", session(amount=0.5)),
    "nested without end": b"[" * 100_000,
}


@pytest.mark.parametrize("body", UNREADABLE_BODIES.values(), ids=UNREADABLE_BODIES)
def test_a_signed_message_that_cannot_be_read_is_refused(body):
    with pytest.raises(MessageRefused, match=UNREADABLE):
        read(body)


KINDS = {
    "paid later": ("checkout.session.async_payment_succeeded", session(status="paid"), Kind.PAID),
    "to be paid later": ("checkout.session.completed", session(status="unpaid"), Kind.OTHER),
    "failed": ("checkout.session.async_payment_failed", session(status="unpaid"), Kind.FAILED),
    "expired": ("checkout.session.expired", session(status="unpaid", money=None), Kind.EXPIRED),
    "given back": ("refund.created", refund(), Kind.RETURNED),
    "on its way back": ("refund.created", refund(status="pending"), Kind.RETURNED),
    "not given back": ("refund.failed", refund(status="failed"), Kind.NOT_RETURNED),
    "a refund that waits": ("refund.created", refund(status="requires_action"), Kind.OTHER),
    "contested": ("charge.dispute.created", card_service.dispute(), Kind.DISPUTED),
    "something else": ("customer.created", {"object": "customer", "id": "cus_1"}, Kind.OTHER),
}


@pytest.mark.parametrize(("type_", "about", "kind"), KINDS.values(), ids=KINDS)
def test_what_happened_is_one_of_our_kinds(type_, about, kind):
    assert read(event(type_, about)).kind == kind


@pytest.mark.parametrize(("sum_there", "currency"), [(550, "isk"), (2**31 + 99, "eur"), (500, "ugx")])
def test_a_sum_that_our_ledger_cannot_hold_is_none(sum_there, currency):
    body = event("checkout.session.completed", session(amount=sum_there, currency=currency))

    assert read(body).amount is None
