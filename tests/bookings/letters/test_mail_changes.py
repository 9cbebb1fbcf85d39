"""What the letters say of changes: who cancelled, and what another time would cost. Amounts by hand."""

from datetime import UTC, datetime

import pytest

from bookings.changes.services import sittings
from bookings.orders.models import CancelCause, Order
from bookings.outbox.models import NoticeKind
from bookings.pricing.models import Terms
from tests import builders
from tests.reading.letters import flowing, the_letter, words_of_html

pytestmark = pytest.mark.django_db

LATE = datetime(2026, 11, 27, 10, 0, tzinfo=UTC)  # inside the last 48 hours before the sitting


@pytest.mark.parametrize(
    ("cause", "sentence"),
    [
        (CancelCause.STUDIO, "The studio had to cancel your sitting. We are sorry."),
        (
            CancelCause.NO_PLATE,
            "No plate could be made at your sitting that is fit to be handed over, so it is cancelled.",
        ),
    ],
    ids=["studio", "no plate"],
)
def test_who_did_not_cancel_gets_everything_back_and_is_told_why(cause, sentence):
    order = builders.a_paid_order(builders.a_day())
    sittings.cancel(order_id=order.pk, now=LATE, cause=CancelCause.STUDIO)
    Order.objects.update(cancel_cause=cause)

    letter = the_letter(order, NoticeKind.CANCELLED)

    assert sentence in flowing(letter)
    assert "Paid so far: €42.50 All of it comes back to you." in flowing(letter)
    assert set(sentence.split()) <= set(words_of_html(letter))


@pytest.mark.parametrize(
    ("now", "sentence"),
    [
        (
            builders.NOW,
            "until Thursday 26 November 2026 at 10:00 (Europe/Lisbon, UTC+0), and 20 % of your deposit after that.",
        ),
        (LATE, "If you ask for another time, that costs €8.50."),
    ],
    ids=["in time", "too late"],
)
def test_what_another_time_costs_is_told(now, sentence):
    day = builders.a_day()
    Terms.objects.update(late_move_bp=2000)

    order = builders.a_paid_order(day, now=now)

    assert sentence in flowing(the_letter(order, NoticeKind.CONFIRMED))
