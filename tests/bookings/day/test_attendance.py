"""Marks on a sitter: arrived, has sat, did not come; each can be taken back for five minutes."""

from datetime import UTC, datetime, timedelta

import pytest

from bookings.day.services.attendance import mark, undo_mark
from bookings.errors import MarkRefused
from bookings.orders.models import Sitting
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def sitting():
    return builders.a_paid_order(builders.a_day()).sitting


def marks(sitting):
    found = Sitting.objects.get(pk=sitting.pk)
    return found.arrived_at, found.sat_at, found.absent_at


def marked(sitting, as_, *, now=TEN):
    return mark(sitting_id=sitting.pk, as_=as_, now=now)


def test_the_same_mark_twice_keeps_its_first_time(sitting):
    marked(sitting, "arrived")
    marked(sitting, "arrived", now=TEN + MINUTE)

    assert marks(sitting) == (TEN, None, None)


def test_who_has_sat_has_arrived(sitting):
    marked(sitting, "sat")

    assert marks(sitting) == (TEN, TEN, None)


def test_who_has_arrived_cannot_be_marked_as_not_come(sitting):
    marked(sitting, "arrived")

    with pytest.raises(MarkRefused, match=r"^This sitter has arrived\. Take that mark back first"):
        marked(sitting, "absent", now=TEN + MINUTE)

    assert marks(sitting) == (TEN, None, None)


def test_who_was_given_up_and_comes_after_all_has_arrived(sitting):
    marked(sitting, "absent")

    marked(sitting, "arrived", now=TEN + 20 * MINUTE)

    assert marks(sitting) == (TEN + 20 * MINUTE, None, None)


def test_who_did_not_come_has_not_sat(sitting):
    marked(sitting, "absent")

    with pytest.raises(MarkRefused, match=r"^This sitter is marked as not come\. Mark the arrival first\.$"):
        marked(sitting, "sat")


@pytest.mark.parametrize("word", ["", "away", "\0"])
def test_another_word_is_refused(sitting, word):
    with pytest.raises(MarkRefused, match=r"^A sitter has arrived, has sat, or did not come\.$"):
        marked(sitting, word)


@pytest.mark.parametrize(
    ("as_", "left"),
    [("arrived", (None, None, None)), ("absent", (None, None, None)), ("sat", (TEN, None, None))],
)
def test_the_newest_mark_is_taken_back(sitting, as_, left):
    marked(sitting, as_)

    undo_mark(sitting_id=sitting.pk, now=TEN + 5 * MINUTE)

    assert marks(sitting) == left


def test_a_mark_of_more_than_five_minutes_ago_stays(sitting):
    marked(sitting, "arrived")

    with pytest.raises(MarkRefused, match=r"^A mark can be taken back for 5 minutes; that time is over\.$"):
        undo_mark(sitting_id=sitting.pk, now=TEN + 5 * MINUTE + timedelta(seconds=1))

    assert marks(sitting)[0] == TEN


def test_where_nothing_is_marked_there_is_nothing_to_undo_mark(sitting):
    with pytest.raises(MarkRefused, match=r"^Nothing is marked for this sitter\.$"):
        undo_mark(sitting_id=sitting.pk, now=TEN)
