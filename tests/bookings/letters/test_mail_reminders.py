"""What the letters say that time makes due, and how they can be stopped.

Outside: RFC 8058 (its head lines, https only; from memory), trade facts s.7 on what a wet plate sees.
"""

import re
from datetime import date, timedelta

import pytest

from bookings.letters import unsubscribe as stop_links
from bookings.orders.models import Consent, ConsentPurpose, Order
from bookings.outbox.models import REMINDERS, NoticeKind
from tests import builders
from tests.builders import NOW
from tests.reading.letters import a_notice, flowing, parsed, words_of_html

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _address(settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"


def letter_of(order, kind):
    return parsed(a_notice(order, kind))


@pytest.mark.parametrize("kind", sorted(REMINDERS))
def test_a_reminder_can_be_stopped_with_one_click(kind):
    order = builders.a_paid_order(builders.a_day())

    letter = letter_of(order, kind)

    [link] = re.fullmatch(
        r"<(https://rooms\.example\.org/reminders/\S+)>", letter["List-Unsubscribe"].strip()
    ).groups()
    assert letter["List-Unsubscribe-Post"] == "List-Unsubscribe=One-Click"
    token = link.removesuffix("/").rpartition("/")[2]
    assert stop_links.resolve(token) == stop_links.digests("ines@example.org")[0]
    assert f"To get no more reminders: {link}" in flowing(letter)
    assert link in words_of_html(letter)


@pytest.mark.parametrize(
    "kind", [NoticeKind.CONFIRMED, NoticeKind.DEPOSIT_DUE, NoticeKind.READY, NoticeKind.IN_WASH]
)
def test_what_was_agreed_cannot_be_stopped(kind):
    order = builders.a_paid_order(builders.a_day())

    letter = letter_of(order, kind)

    assert letter["List-Unsubscribe"] is None
    assert "no more reminders" not in flowing(letter)


def test_one_click_is_promised_over_https_only(settings):
    settings.SITE_ADDRESS = "http://127.0.0.1:8000"
    order = builders.a_paid_order(builders.a_day())

    letter = letter_of(order, NoticeKind.DAY_BEFORE)

    assert letter["List-Unsubscribe"].strip().startswith("<http://127.0.0.1:8000/reminders/")
    assert letter["List-Unsubscribe-Post"] is None


@pytest.mark.parametrize(
    "told",
    [
        "When: Saturday 28 November 2026 at 10:00",
        "Where: Gannet Lane, 4 Gannet Lane, Saltmarrow",
        "Still to pay before you take your plates home: €42.50",
        "Blues and violets come out light; reds, oranges and most yellows come out dark",
        "a head rest steadies you",
        "Glasses can come out dark",
        "photosensitive epilepsy",
        "ether and alcohol",
    ],
    ids=["when", "where", "to pay", "colours", "holding still", "glasses", "flash", "fumes"],
)
def test_the_day_before_says_what_a_sitter_should_know(told):
    order = builders.a_paid_order(builders.a_day())

    letter = letter_of(order, NoticeKind.DAY_BEFORE)

    assert letter["Subject"] == "Your sitting on Saturday 28 November 2026 at 10:00"
    assert told in flowing(letter)


def test_a_missing_deposit_is_named_with_its_time_and_way():
    order = builders.a_placed_order(builders.a_day())

    letter = letter_of(order, NoticeKind.DEPOSIT_MISSING)

    assert letter["Subject"] == "Your place on Saturday 28 November 2026 waits for its deposit"
    text = flowing(letter)
    assert "Deposit to pay: €42.50 Held until: Sunday 22 November 2026 at 09:00" in text
    assert "How to pay: Bring the deposit to Gannet Lane" in text
    assert "/deposit/" in text


def test_plates_in_the_wash_are_named_with_the_day_that_was_promised():
    order = builders.a_paid_order(builders.a_day())
    [plate] = builders.made_plates(order)
    order.promised_on, order.promised_at = date(2026, 12, 8), NOW
    order.save()

    text = flowing(letter_of(order, NoticeKind.IN_WASH))

    assert f"- Plate {plate.number}, quarter" in text
    assert "Ready by: Tuesday 8 December 2026" in text


def test_where_no_day_was_promised_none_is_told():
    order = builders.a_paid_order(builders.a_day())
    Order.objects.update(promised_on=None, promised_at=None)

    assert "Ready by" not in flowing(letter_of(order, NoticeKind.IN_WASH))


def test_what_was_allowed_is_asked_about_in_its_own_words():
    order = builders.a_paid_order(
        builders.a_day(), consents={ConsentPurpose.SHOW: True, ConsentPurpose.NEWS: True}
    )
    Consent.objects.filter(purpose="show").update(wording="Hang my portrait in the window")
    Consent.objects.create(client=order.client, purpose="news", given=False, at=NOW + timedelta(days=1))

    text = flowing(letter_of(order, NoticeKind.CONSENT_REVIEW))

    assert "you said yes to this: - Hang my portrait in the window Yes then" in text
    assert "Write to me" not in text
    assert "ask there for the link to your details" in text
