"""What is asked of the card service: a page to pay on, and money given back. Nothing leaves this computer."""

import subprocess
import sys
from datetime import timedelta
from pathlib import Path
from uuid import uuid4

import pytest

from bookings.cards import gateway
from bookings.cards.events import CardMessage, Kind
from bookings.errors import CardRefused, CardServiceAway
from tests.bookings.cards import card_service
from tests.builders import NOW


@pytest.fixture(autouse=True)
def cards(settings):
    return card_service.keyed(settings)


@pytest.fixture
def service(cards):
    with card_service.stand_in() as service:
        cards.CARD_API = service.address
        yield service


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
    return gateway.CheckoutRequest(**(facts | changes))


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


def test_the_same_asked_twice_is_one_page_and_anything_else_another(service):
    def opened(turn=0, **changes):
        return gateway.open_checkout(asked=asked(**changes), turn=turn)

    first = opened()

    assert opened() == first
    others = [opened(amount=8500), opened(paid_address="https://studio.example.org/other/"), opened(turn=1)]
    assert first not in others


def test_a_sum_goes_out_in_the_unit_of_the_service_or_not_at_all(service):
    gateway.open_checkout(asked=asked(amount=500, currency="ISK"), turn=0)
    with pytest.raises(CardRefused, match="cannot take exactly this sum"):
        gateway.open_checkout(asked=asked(amount=5124, currency="KWD"), turn=0)

    [(_, facts, _)] = service.asked
    assert facts["line_items[0][price_data][unit_amount]"] == "50000"


@pytest.mark.parametrize("status", [500, 429, 401])
def test_a_service_out_of_order_is_said_and_its_words_are_not_logged(service, caplog, status):
    service.status = status

    with pytest.raises(CardServiceAway, match=r"^The card service does not answer just now\. Nothing"):
        gateway.open_checkout(asked=asked(), turn=0)

    assert "out of order" not in caplog.text
    assert "sk_test" not in caplog.text


def test_a_service_that_is_not_there_and_a_page_anywhere_else_are_refused(service, cards, monkeypatch):
    service.pages = "https://pages.example.org.elsewhere.example"
    with pytest.raises(CardServiceAway, match="sent no page that this studio knows"):
        gateway.open_checkout(asked=asked(), turn=0)

    monkeypatch.setattr("stripe.HTTPClient.INITIAL_DELAY", 0.01, raising=False)
    cards.CARD_API = "http://127.0.0.1:9"  # the port "discard", on which nobody listens here
    with pytest.raises(CardServiceAway, match="does not answer just now"):
        gateway.open_checkout(asked=asked(), turn=0)


def returned(key, **changes):
    facts = {"money": "pi_1", "session": "cs_1", "amount": 1000, "currency": "EUR", "key": key}
    return gateway.refund(**(facts | changes))


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

    with pytest.raises(CardRefused, match=r"^The card service could not give this back\. Give it"):
        returned(uuid4())


def test_the_library_is_not_loaded_until_it_is_needed():
    code = "import sys; import bookings.cards.gateway; print('stripe' in sys.modules)"
    root = Path(__file__).resolve().parents[3]

    done = subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True)

    assert (done.stdout, done.stderr) == ("False\n", "")
