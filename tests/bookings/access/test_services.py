"""Mailed links: ten minutes, once, for one purpose, and only while the booking is what it was.

Outside: OWASP ASVS 5.0 6.5.1 (used once), 6.5.5 (out-of-band codes within ten minutes), as read in quality-bars s.2.11.
"""

from datetime import timedelta

import pytest

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose, StepUp
from bookings.changes.services import sittings
from bookings.errors import LinkInvalid, TooManyLinks
from bookings.letters.services import sending as notices
from bookings.outbox.models import NoticeKind
from tests import builders
from tests.builders import NOW
from tests.reading.letters import flowing, the_letter

pytestmark = pytest.mark.django_db

MINUTE, SECOND = timedelta(minutes=1), timedelta(seconds=1)


@pytest.fixture
def order():
    return builders.a_paid_order(builders.a_day())


def asked(order, purpose=Purpose.PAPERS, now=NOW):
    return step_up.ask(order_id=order.pk, purpose=purpose, now=now)


def text(order, purpose=Purpose.PAPERS, now=NOW):
    return step_up_links.token(asked(order, purpose, now))


def test_a_link_opens_until_the_last_second_of_its_ten_minutes(order):
    link = text(order)

    used = step_up.use(text=link, now=NOW + 9 * MINUTE + 59 * SECOND)

    assert (used.order_id, used.purpose) == (order.pk, Purpose.PAPERS)


@pytest.mark.parametrize("late", [10 * MINUTE, 10 * MINUTE + SECOND], ids=["10:00", "10:01"])
def test_a_link_does_not_open_once_its_ten_minutes_are_over(order, late):
    link = text(order)

    with pytest.raises(LinkInvalid, match=r"^This link was used already, or its ten minutes are over\."):
        step_up.use(text=link, now=NOW + late)


def test_a_link_opens_once(order):
    link = text(order)
    step_up.use(text=link, now=NOW)

    with pytest.raises(LinkInvalid, match="used already"):
        step_up.use(text=link, now=NOW + SECOND)


def test_looking_at_a_link_uses_nothing_up(order):
    link = text(order)

    for _ in range(5):
        step_up.resolve(text=link, now=NOW + MINUTE)

    assert step_up.use(text=link, now=NOW + MINUTE).used_at == NOW + MINUTE


def test_a_link_with_any_sign_changed_opens_nothing(order):
    link = text(order)

    for place, sign in enumerate(link):
        # Base64 leaves bits of its last sign unused; a sign of another kind is another text for certain.
        changed = link[:place] + ("-" if sign != "-" else "_") + link[place + 1 :]
        with pytest.raises(LinkInvalid):
            step_up.resolve(text=changed, now=NOW)


def test_a_link_does_not_open_for_another_purpose(order):
    link = text(order, Purpose.PAPERS).replace("papers", "data", 1)

    with pytest.raises(LinkInvalid, match="not complete"):
        step_up.resolve(text=link, now=NOW)


def test_a_link_dies_when_the_sitting_is_moved(order):
    link = text(order)
    later = builders.NOW.replace(day=28, hour=15, minute=0)
    sittings.move(order_id=order.pk, day_id=order.sitting.day_id, starts_at=later, now=NOW)

    with pytest.raises(LinkInvalid, match=r"^Your booking has changed since this letter was written\."):
        step_up.use(text=link, now=NOW + MINUTE)


def test_a_link_dies_when_the_sitting_is_cancelled(order):
    link = text(order)
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(LinkInvalid, match="has changed"):
        step_up.use(text=link, now=NOW + MINUTE)


def test_a_link_dies_with_the_secret_it_was_signed_by(order, settings):
    link = text(order)
    settings.SECRET_KEY = "another secret of this test"

    with pytest.raises(LinkInvalid, match="not complete"):
        step_up.resolve(text=link, now=NOW)


def test_nothing_in_the_row_is_the_link(order):
    row = asked(order)
    link = step_up_links.token(row)

    kept = [str(value) for value in StepUp.objects.values_list().get(pk=row.pk)]

    assert link.rpartition(":")[2] not in " ".join(kept)


def test_no_more_than_three_letters_go_out_in_ten_minutes(order):
    for minute in range(3):
        asked(order, now=NOW + minute * MINUTE)

    with pytest.raises(TooManyLinks, match=r"^3 letters went out in the last ten minutes\."):
        asked(order, now=NOW + 9 * MINUTE)

    assert asked(order, now=NOW + 10 * MINUTE)


def test_nobody_is_written_to_about_an_order_without_a_name():
    held = builders.a_held_order(builders.a_day())

    with pytest.raises(LinkInvalid, match=r"^There is no address that a letter could go to\."):
        asked(held)


def test_the_letter_carries_the_link_and_says_what_it_opens(order, settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"
    row = asked(order)

    words = flowing(the_letter(order, NoticeKind.STEP_UP))

    assert f"https://rooms.example.org/open/{step_up_links.token(row)}/" in words
    assert "Invoices and pictures of your plates" in words


def test_a_letter_that_comes_to_be_sent_too_late_is_withdrawn(order, mailoutbox):
    asked(order)
    notices.send_due(now=NOW + 11 * MINUTE)

    assert order.notices.get(kind=NoticeKind.STEP_UP).withdrawn_at == NOW + 11 * MINUTE
    assert not [letter for letter in mailoutbox if "/open/" in letter.body]
