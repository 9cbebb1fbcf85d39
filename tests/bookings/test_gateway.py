"""The door to the card service: which messages are believed, how a page is asked for. Nothing leaves this computer."""

import hmac
import json
import subprocess
import sys
from datetime import timedelta
from hashlib import sha256
from pathlib import Path
from uuid import uuid4

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from bookings import gateway
from bookings.card_words import CardMessage, Kind
from bookings.errors import CardRefused, CardServiceAway, MessageRefused
from tests.bookings import card_service
from tests.bookings.card_service import OLDER_SECRET, SECRET, event, refund, session, signature
from tests.builders import NOW

UNSIGNED = r"^This message is not signed by the card service\.$"
LATE = r"^This message was not signed just now\.$"
UNREADABLE = r"^This message cannot be read\.$"
BODY = event("checkout.session.completed", session(reference="ABC"))


@pytest.fixture(autouse=True)
def cards(settings):
    for name, value in card_service.ON.items():
        setattr(settings, name, value)
    return settings


@pytest.fixture
def service(cards):
    with card_service.stand_in() as service:
        cards.CARD_API = service.address
        yield service


def read(body=BODY, signed=None, now=NOW):
    return gateway.read_message(body=body, signature=signature(body) if signed is None else signed, now=now)


def asked(**changes):
    facts = {
        "amount": 4250,
        "currency": "EUR",
        "text": "Deposit for sitting ABC",
        "reference": "ABC",
        "paid_address": "https://studio.example.org/paid/",
        "left_address": "https://studio.example.org/left/",
        "open_until": NOW + timedelta(minutes=40),
    }
    return gateway.Asked(**(facts | changes))


def test_a_signed_message_is_read_in_our_words():
    assert read() == CardMessage(
        event="evt_1", kind=Kind.PAID, happened_at=NOW, session="cs_1", money="pi_1", amount=4250, currency="EUR",
        reference="ABC",
    )  # fmt: skip


def test_the_signature_is_the_one_that_the_service_describes():
    """HMAC with SHA-256 over the time, a dot and the body (the service's page on its signatures; from memory)."""
    time = int(NOW.timestamp())
    by_hand = hmac.new(SECRET.encode(), f"{time}.".encode() + BODY, sha256).hexdigest()

    assert read(signed=f"t={time},v1={by_hand}").event == "evt_1"


@pytest.mark.parametrize("seconds", [-300, 300])
def test_a_signature_holds_five_minutes_both_ways(seconds):
    assert read(now=NOW + timedelta(seconds=seconds)).event == "evt_1"


@pytest.mark.parametrize("seconds", [-301, 301])
def test_a_signature_of_longer_ago_or_ahead_is_refused(seconds):
    with pytest.raises(MessageRefused, match=LATE):
        read(now=NOW + timedelta(seconds=seconds))


def test_a_time_beyond_all_calendars_is_refused():
    time = 10**30
    by_hand = hmac.new(SECRET.encode(), f"{time}.".encode() + BODY, sha256).hexdigest()

    with pytest.raises(MessageRefused, match=LATE):
        read(signed=f"t={time},v1={by_hand}")


@pytest.mark.parametrize(
    "signed",
    [
        "",
        "x",
        "t=1",
        "t=,v1=",
        "v1=00",
        f"t={int(NOW.timestamp())},v1=",
        "t=1,v1=\u00e9",
        "," * 50,
        "t=\u0661,v1=00",
    ],
    ids=[
        "empty",
        "a word",
        "no sum",
        "nothing in it",
        "no time",
        "empty sum",
        "not ASCII",
        "commas",
        "other figures",
    ],
)
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


def test_another_secret_is_refused():
    with pytest.raises(MessageRefused, match=UNSIGNED):
        read(signed=signature(BODY, secret=OLDER_SECRET))


@pytest.mark.parametrize("secret", [SECRET, OLDER_SECRET], ids=["new", "old"])
def test_while_the_secret_changes_both_are_believed(cards, secret):
    cards.CARD_SIGNING_SECRETS = [SECRET, OLDER_SECRET]

    assert read(signed=signature(BODY, secret=secret)).event == "evt_1"


def test_a_message_signed_with_both_secrets_is_believed():
    both = f"{signature(BODY, secret=OLDER_SECRET)},{signature(BODY).partition(',')[2]}"

    assert read(signed=both).event == "evt_1"


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


def test_a_page_is_asked_for_with_one_sum_and_the_addresses(service):
    opened = gateway.open_checkout(asked=asked(), turn=0)

    ((path, facts, _),) = service.asked
    assert path == "/v1/checkout/sessions"
    assert facts == {
        "mode": "payment",
        "payment_method_types[0]": "card",
        "client_reference_id": "ABC",
        "line_items[0][quantity]": "1",
        "line_items[0][price_data][currency]": "eur",
        "line_items[0][price_data][unit_amount]": "4250",
        "line_items[0][price_data][product_data][name]": "Deposit for sitting ABC",
        "payment_intent_data[description]": "Deposit for sitting ABC",
        "success_url": "https://studio.example.org/paid/",
        "cancel_url": "https://studio.example.org/left/",
        "expires_at": str(int(NOW.timestamp()) + 2400),
    }
    assert opened == gateway.Opened("cs_1", f"{card_service.PAGES}/pay/cs_1", NOW + timedelta(minutes=40))


def test_the_same_asked_twice_is_one_page(service):
    first, second = (gateway.open_checkout(asked=asked(), turn=0) for _ in range(2))

    assert first == second


@pytest.mark.parametrize("changes", [{"amount": 8500}, {"paid_address": "https://studio.example.org/other/"}])
def test_anything_else_asked_is_another_page(service, changes):
    first = gateway.open_checkout(asked=asked(), turn=0)

    assert gateway.open_checkout(asked=asked(**changes), turn=0) != first
    assert gateway.open_checkout(asked=asked(), turn=1) != first


def test_a_sum_goes_out_in_the_unit_of_the_service(service):
    gateway.open_checkout(asked=asked(amount=500, currency="ISK"), turn=0)

    assert service.asked[0][1]["line_items[0][price_data][unit_amount]"] == "50000"


def test_a_sum_that_the_service_has_no_unit_for_is_not_asked(service):
    with pytest.raises(
        CardRefused, match=r"^The card service cannot take exactly this sum\. Pay in another way\.$"
    ):
        gateway.open_checkout(asked=asked(amount=5124, currency="KWD"), turn=0)

    assert service.asked == []


@pytest.mark.parametrize("status", [500, 429, 401])
def test_a_service_out_of_order_is_said_and_its_words_are_not_logged(service, caplog, status):
    service.status = status

    with pytest.raises(
        CardServiceAway, match=r"^The card service does not answer just now\. Nothing was charged\."
    ):
        gateway.open_checkout(asked=asked(), turn=0)

    assert "out of order" not in caplog.text
    assert "sk_test" not in caplog.text


def test_a_service_that_is_not_there_is_said(cards, monkeypatch):
    monkeypatch.setattr("stripe.HTTPClient.INITIAL_DELAY", 0.01, raising=False)
    cards.CARD_API = "http://127.0.0.1:9"  # the port "discard", on which nobody listens here

    with pytest.raises(CardServiceAway, match=r"^The card service does not answer just now\."):
        gateway.open_checkout(asked=asked(), turn=0)


def test_a_page_anywhere_else_is_not_led_to(service):
    service.pages = "https://pages.example.org.elsewhere.example"

    with pytest.raises(CardServiceAway, match=r"^The card service sent no page that this studio knows\."):
        gateway.open_checkout(asked=asked(), turn=0)


def returned(key, **changes):
    facts = {"money": "pi_1", "session": "cs_1", "amount": 1000, "currency": "EUR", "key": key}
    return gateway.give_back(**(facts | changes))


def test_money_is_given_back_once_for_one_key(service):
    key = uuid4()

    first, second = returned(key), returned(key)

    assert first == second == CardMessage(
        event=f"answer-{key}", kind=Kind.RETURNED, happened_at=NOW, session="cs_1", money="pi_1", refund="re_1",
        amount=1000, currency="EUR",
    )  # fmt: skip
    assert service.asked[0][1] == {"payment_intent": "pi_1", "amount": "1000", "metadata[session]": "cs_1"}


def test_a_giving_back_that_fails_at_once_is_refused(service):
    service.refund_status = "failed"

    with pytest.raises(
        CardRefused, match=r"^The card service could not give this back\. Give it back in another way"
    ):
        returned(uuid4())


def test_the_library_is_not_loaded_until_it_is_needed():
    code = "import sys; import bookings.gateway; print('stripe' in sys.modules)"
    root = Path(__file__).resolve().parents[2]

    done = subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True)

    assert (done.stdout, done.stderr) == ("False\n", "")
