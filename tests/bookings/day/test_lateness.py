"""Working the times of a late day out, and telling them. Times in UTC, which is the venue's clock in winter."""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.core import mail as outbox

from bookings.changes.services import sittings
from bookings.day.selectors.lateness import lateness as selector
from bookings.day.services import attendance as arrivals
from bookings.day.services import lateness
from bookings.errors import NothingToTell
from bookings.letters.services import sending as notices
from bookings.orders.models import Sitting
from bookings.outbox.models import Notice, NoticeKind
from plates.bench.models import BenchJob
from plates.ledger.services import events as ledger
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
LATE = TEN + 41 * MINUTE


@pytest.fixture
def day():
    return builders.a_day()


@pytest.fixture
def late(day):
    """The sitting of 10:30 on a day whose first sitter, promised at 10:00, is poured for at 10:40."""
    first = builders.a_paid_order(day)
    second = builders.a_paid_order(day, at=time(10, 30), name="Duarte Salgado")
    ledger.pour(slot_id=first.sitting.bench_job.slots.get().pk, operator=None, now=TEN + 40 * MINUTE)
    Notice.objects.all().delete()
    lateness.expect_anew(day_id=day.pk, now=LATE)
    return Sitting.objects.get(order=second)


def expect(sitting, minute):
    at = None if minute is None else TEN + minute * MINUTE
    BenchJob.objects.filter(pk=sitting.bench_job_id).update(expected_at=at)


def told(sitting, now=LATE):
    return lateness.notify(sitting_id=sitting.pk, now=now)


def test_the_letter_says_the_promised_time_the_new_one_and_how_much_later(late):
    told(late)

    notices.send_due(now=LATE)

    [letter] = outbox.outbox
    words = " ".join(letter.body.split())
    assert letter.subject == "Your sitting begins later, at 10:42"
    assert "about 12 minutes later than promised" in words
    assert "Promised: Saturday 28 November 2026 at 10:30 (Europe/Lisbon, UTC+0)" in words
    assert "Now expected: Saturday 28 November 2026 at 10:42 (Europe/Lisbon, UTC+0)" in words


def test_the_same_news_is_told_once(late):
    first, again = told(late), told(late, LATE + MINUTE)

    assert first == again
    assert Notice.objects.count() == 1


def test_newer_news_is_told_again_and_the_older_letter_withdrawn_if_it_still_waits(late):
    older = told(late)
    expect(late, 50)
    told(late)

    assert notices.send_due(now=LATE) == 1
    assert Notice.objects.get(pk=older.pk).withdrawn_at == LATE
    assert outbox.outbox[0].subject == "Your sitting begins later, at 10:50"


def test_an_earlier_time_that_is_true_once_more_is_news_once_more(late):
    for minute in (42, 50, 42):
        expect(late, minute)
        told(late)
        notices.send_due(now=LATE)

    assert [letter.subject[-5:] for letter in outbox.outbox] == ["10:42", "10:50", "10:42"]


def test_a_letter_is_not_sent_when_the_day_has_caught_up(late):
    letter = told(late)
    expect(late, None)

    assert notices.send_due(now=LATE) == 0
    assert Notice.objects.get(pk=letter.pk).withdrawn_at == LATE


def test_a_letter_that_was_withdrawn_is_written_anew_when_it_is_true_again(late):
    told(late)
    expect(late, None)
    notices.send_due(now=LATE)
    expect(late, 42)

    told(late)

    assert notices.send_due(now=LATE) == 1


@pytest.mark.parametrize("why", ["in time", "begun", "absent", "lapsed", "cancelled"])
def test_there_is_nothing_to_tell_where_nobody_waits_for_a_new_time(late, why):
    if why == "in time":
        expect(late, None)
    elif why == "begun":
        ledger.pour(slot_id=late.bench_job.slots.get().pk, operator=None, now=LATE)
    elif why == "absent":
        arrivals.mark(sitting_id=late.pk, as_="absent", now=LATE)
    elif why == "lapsed":
        BenchJob.objects.filter(pk=late.bench_job_id).update(confirmed_at=None, held_until=TEN)
    else:
        sittings.cancel(order_id=late.order_id, now=LATE)

    with pytest.raises(NothingToTell) as refused:
        told(late)

    assert str(refused.value) == ("This sitting is not expected to begin later, so there is nothing to tell.")


def test_all_later_sitters_are_told_at_once(day, late):
    other = builders.a_paid_order(day, at=time(15), name="Marta Vaz")
    expect(other.sitting, 320)

    assert lateness.notify_all(day_id=day.pk, now=LATE) == 2
    assert lateness.notify_all(day_id=day.pk, now=LATE + MINUTE) == 2
    assert Notice.objects.filter(kind=NoticeKind.LATER).count() == 2


def test_a_sitter_who_did_not_come_makes_nobody_later(day):
    for at in (time(10), time(10, 30)):
        builders.a_paid_order(day, at=at)
    gone = Sitting.objects.order_by("bench_job__starts_at").first()
    arrivals.mark(sitting_id=gone.pk, as_="absent", now=TEN + 30 * MINUTE)

    times = lateness.expect_anew(day_id=day.pk, now=TEN + 34 * MINUTE)

    assert times.later == {}


def test_a_spoilt_plate_has_the_times_worked_out_at_once(day):
    first = builders.a_paid_order(day)
    builders.a_paid_order(day, at=time(10, 30))
    plate = ledger.pour(slot_id=first.sitting.bench_job.slots.get().pk, operator=None, now=TEN + 50 * MINUTE)

    lateness.spoil(plate_id=plate.pk, reason="fogged", note="", operator=None, now=TEN + 52 * MINUTE)

    assert BenchJob.objects.filter(expected_at__isnull=False, retake_of=None).count() == 1


def test_a_plate_spoilt_on_another_day_leaves_the_times_alone(day):
    order = builders.a_paid_order(day)
    [plate] = builders.made_plates(order, now=TEN)

    spoilt = lateness.spoil(
        plate_id=plate.pk, reason="damaged", note="", operator=None, now=TEN + timedelta(days=2)
    )

    assert spoilt.stage == "spoilt"


def test_the_page_knows_who_is_later_and_whether_they_were_told(day, late):
    [before] = selector(day=day, now=LATE).later
    told(late)
    [after] = selector(day=day, now=LATE).later

    assert (before.minutes, before.told, before.beyond) == (12, None, False)
    assert after.told.kind == NoticeKind.LATER


def test_who_was_told_a_time_that_is_true_no_more_is_shown_with_it(day, late):
    told(late)
    notices.send_due(now=LATE)
    expect(late, 55)
    [later] = selector(day=day, now=LATE).later
    expect(late, None)
    [(sitting, time_told)] = selector(day=day, now=LATE).in_time_again

    assert later.told is None
    assert f"{later.told_before:%H:%M} {time_told:%H:%M}" == "10:42 10:42"
    assert sitting == late


def test_a_promise_that_the_hours_cannot_keep_is_named_with_what_is_free_instead(day, late):
    # By hand: begun at 17:50 a sitting of one plate leaves at 18:08, and its plate is lifted an hour later.
    builders.a_day(on=builders.SATURDAY + timedelta(days=1), opens=time(9))
    expect(late, 470)

    [later] = selector(day=day, now=LATE).later

    assert later.beyond
    assert f"{later.leaves_at:%H:%M}" >= "18:08"
    assert [(offer.day.bench_day.on.day, f"{offer.starts[0]:%H:%M}") for offer in later.offers] == [
        (29, "09:00")
    ]


def test_the_free_starts_of_today_come_after_the_new_time(day, late):
    expect(late, 60)

    [later] = selector(day=day, now=LATE).later

    [today] = later.offers
    assert len(today.starts) == 3
    assert min(today.starts) > later.expected_at
