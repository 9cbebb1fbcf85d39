"""What the letters say. The amounts are worked out by hand beside each test.

Outside: RFC 6047 (the method of a calendar file in its MIME type, from memory); what sitters are told is the trade's
advice (trade facts s.7 and s.9).
"""

import re
from datetime import UTC, date, datetime, time
from urllib.parse import urlsplit

import pytest
from django.urls import reverse
from icalendar import Calendar

from bookings.changes.services import sittings
from bookings.handover.services import pickup
from bookings.orders import links
from bookings.outbox.models import NoticeKind
from tests import builders
from tests.reading.letters import calendar_part, flowing, parsed, plain, the_letter

pytestmark = pytest.mark.django_db
LATER = datetime(2026, 11, 27, 10, 0, tzinfo=UTC)  # inside the last 48 hours before the sitting


@pytest.fixture(autouse=True)
def _address(settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"


def test_the_deposit_letter_names_amount_time_way_and_reference():
    # Half of 85.00; the studio waits 48 hours for it.
    order = builders.a_placed_order(builders.a_day())

    text = flowing(the_letter(order, NoticeKind.DEPOSIT_DUE))

    assert "Deposit to pay: €42.50 " in text
    assert "Held until: Sunday 22 November 2026 at 09:00 (Europe/Lisbon, UTC+0)" in text
    assert f"Reference: {order.reference}" in text
    assert "How to pay: Bring the deposit to Gannet Lane" in text
    assert "The whole order comes to €85.00, tax included." in text


def test_the_deposit_letter_leads_to_the_checkout():
    order = builders.a_placed_order(builders.a_day())

    text = plain(the_letter(order, NoticeKind.DEPOSIT_DUE))

    [link] = re.findall(r"https://\S+", text)
    token = urlsplit(link).path.removesuffix("/deposit/").rpartition("/")[2]
    assert urlsplit(link).path == reverse("deposit", args=[token])
    assert links.resolve_checkout(token) == order


def test_a_deposit_letter_that_comes_late_does_not_ask_twice():
    order = builders.a_paid_order(builders.a_day())

    text = flowing(the_letter(order, NoticeKind.DEPOSIT_DUE))

    assert "Your place is held, and the deposit is here." in text
    assert "Deposit to pay" not in text


def test_the_confirmation_says_where_when_and_what_is_left_to_pay():
    order = builders.a_paid_order(
        builders.a_day(), sizes=["quarter", "quarter", "half"], extras={builders.an_extra(): 1}
    )

    letter = the_letter(order, NoticeKind.CONFIRMED)

    assert letter["Subject"] == "Your sitting on Saturday 28 November 2026 is confirmed"
    text = flowing(letter)
    assert "When: Saturday 28 November 2026 at 10:00 (Europe/Lisbon, UTC+0)" in text
    assert "Where: Gannet Lane, 4 Gannet Lane, Saltmarrow" in text
    assert "Finding it: The green door beside the net loft." in text
    assert "Ordered: 2 × quarter plate; 1 × half plate; 1 × Velvet case" in text
    # 2 x 85 + 125 + 30 = 325, half of it paid.
    assert "Paid so far: €162.50 Still to pay before you take your plates home: €162.50" in text


@pytest.mark.parametrize(
    "told",
    [
        "Blues and violets come out light; reds, oranges and most yellows come out dark",
        "mirror image",
        "Glasses can come out dark",
        "a head rest steadies you",
        "ether and alcohol",
        "stay out of the dark room",
        "photosensitive epilepsy",
        "local codes and its suppliers' safety sheets",
    ],
)
def test_the_confirmation_prepares_and_warns_the_sitter(told):
    order = builders.a_paid_order(builders.a_day())

    assert told in flowing(the_letter(order, NoticeKind.CONFIRMED))


def test_the_confirmation_carries_the_calendar_file():
    order = builders.a_paid_order(builders.a_day())
    notice = order.notices.get(kind=NoticeKind.CONFIRMED)

    part = calendar_part(parsed(notice))

    assert part["Content-Type"].params == {"method": "REQUEST", "charset": "utf-8", "name": "sitting.ics"}
    assert part.get_filename() == "sitting.ics"
    calendar = Calendar.from_ical(part.get_payload(decode=True))
    assert calendar["method"] == "REQUEST"
    assert calendar.events[0].start == order.sitting.bench_job.starts_at
    assert calendar.events[0]["dtstamp"].dt == notice.due_at


def test_a_moved_sitting_is_told_as_one_that_replaces_the_old_time():
    day = builders.a_day()
    order = builders.a_paid_order(day)
    noon = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)

    sittings.move(order_id=order.pk, day_id=day.pk, starts_at=noon, now=builders.NOW)

    letter = the_letter(order, NoticeKind.CONFIRMED, occasion="1")
    assert letter["Subject"] == "Your sitting is now on Saturday 28 November 2026"
    assert "Your sitting has a new time. The old one no longer holds." in flowing(letter)
    assert "at 12:00 (Europe/Lisbon, UTC+0)" in flowing(letter)
    event = Calendar.from_ical(calendar_part(letter).get_payload(decode=True)).events[0]
    assert (event.start, event["sequence"]) == (noon, 1)


@pytest.mark.parametrize(
    ("terms", "now", "sentence"),
    [
        (
            {},
            builders.NOW,
            "until Thursday 26 November 2026 at 10:00 (Europe/Lisbon, UTC+0). After that the studio keeps your deposit",
        ),
        ({"kept_share_bp": 5050}, LATER, "If you cancel, the studio keeps 50.5 % of your deposit of €42.50."),
        ({"kept_share_bp": 0}, LATER, "You can cancel without charge at any time before your sitting."),
        ({"deposit_share_bp": 0}, LATER, "You can cancel without charge at any time before your sitting."),
    ],
)
def test_the_terms_of_cancelling_are_said_in_words(terms, now, sentence):
    builders.some_terms(**terms)
    order = builders.a_paid_order(builders.a_day(), now=now)

    assert sentence in flowing(the_letter(order, NoticeKind.CONFIRMED))


def test_a_cancellation_takes_the_entry_out_of_the_diary():
    order = builders.a_paid_order(builders.a_day())
    told = Calendar.from_ical(calendar_part(the_letter(order, NoticeKind.CONFIRMED)).get_payload(decode=True))

    sittings.cancel(order_id=order.pk, now=LATER)

    part = calendar_part(the_letter(order, NoticeKind.CANCELLED))
    assert part["Content-Type"].params["method"] == "CANCEL"
    calendar = Calendar.from_ical(part.get_payload(decode=True))
    assert (calendar["method"], calendar.events[0]["status"]) == ("CANCEL", "CANCELLED")
    assert calendar.events[0]["uid"] == told.events[0]["uid"]
    assert calendar.events[0]["sequence"] > told.events[0]["sequence"]


@pytest.mark.parametrize(
    ("paid", "now", "sentence"),
    [
        # A deposit of 42.50 is asked for; within 48 hours all of the deposit stays, and what goes beyond it does not.
        (4250, builders.NOW, "Paid so far: €42.50 All of it comes back to you."),
        (
            4250,
            LATER,
            "By the terms you agreed to, €42.50 of it stays with the studio.",
        ),
        (8500, LATER, "€42.50 of it stays with the studio and €42.50 comes back to you."),
        (0, LATER, "Nothing was paid, so nothing is owed either way."),
    ],
)
def test_a_cancellation_says_what_becomes_of_the_money(paid, now, sentence):
    order = builders.a_paid_order(builders.a_day(), amount=paid)

    sittings.cancel(order_id=order.pk, now=now)

    assert sentence in flowing(the_letter(order, NoticeKind.CANCELLED))


def test_a_cancellation_told_late_goes_by_the_time_it_was_made():
    order = builders.a_paid_order(builders.a_day())
    sittings.cancel(order_id=order.pk, now=builders.NOW)
    order.notices.filter(kind=NoticeKind.CANCELLED).update(due_at=LATER)  # the post did not go before

    assert "All of it comes back to you." in flowing(the_letter(order, NoticeKind.CANCELLED))


def test_money_that_came_too_late_is_answered_with_a_promise():
    order = builders.a_placed_order(builders.a_day())
    # The hold has run out, and the asked time has passed.
    builders.pay(order, 4250, now=datetime(2026, 11, 28, 11, 0, tzinfo=UTC))

    text = flowing(the_letter(order, NoticeKind.NEW_TIME))

    assert "The €42.50 you paid is safe." in text
    assert "all you paid comes back to you" in text


def test_the_ready_letter_names_each_plate_what_is_owed_and_how_to_hold_it():
    order = builders.a_paid_order(builders.a_day(), sizes=["quarter", "whole"])
    first, second = builders.made_plates(order)
    pickup.announce_ready(now=LATER)

    text = flowing(the_letter(order, NoticeKind.READY))

    assert f"- Plate {first.number}, quarter - Plate {second.number}, whole" in text
    assert "Still to pay when you collect them: €140.00" in text  # (85 + 195) / 2
    assert f"This letter, or your code and your reference: {order.reference}" in text
    assert "Hold a plate by its edges" in text
    assert "Never wipe, wet, polish or bend it." in text


def test_a_ready_letter_asks_for_no_money_when_all_is_paid():
    order = builders.a_paid_order(builders.a_day(), amount=8500)
    builders.made_plates(order)
    pickup.announce_ready(now=LATER)

    text = flowing(the_letter(order, NoticeKind.READY))

    assert "Nothing is left to pay." in text
    assert "What is still to pay" not in text


def test_a_date_is_the_date_at_the_venue():
    # 23:30 on 28 November in New York is the 29th in UTC.
    day = builders.a_day(
        on=date(2026, 11, 28),
        zone="America/New_York",
        opens=time(22),
        closes=time(23, 58),
        racks_empty_by=time(23, 59),
    )
    bench = day.bench_day.bench
    bench.wash_least = 1
    bench.save()
    order = builders.a_paid_order(day, at=time(23, 30))

    letter = the_letter(order, NoticeKind.CONFIRMED)

    assert "When: Saturday 28 November 2026 at 23:30 (America/New_York, UTC-5)" in flowing(letter)
