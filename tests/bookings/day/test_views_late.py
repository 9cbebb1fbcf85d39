"""The page of a day that runs late, by its presses."""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from bookings.day.services import lateness
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
    first = builders.a_paid_order(day)
    second = builders.a_paid_order(day, at=time(10, 30), name="Duarte Salgado")
    ledger.pour(slot_id=first.sitting.bench_job.slots.get().pk, operator=None, now=TEN + 40 * MINUTE)
    lateness.expect_anew(day_id=day.pk, now=LATE)
    return Sitting.objects.get(order=second)


@pytest.fixture
def at(clock, client):
    """Move the clock and sign in anew: the door closes meanwhile."""

    def moved(moment):
        clock.move_to(moment)
        client.force_login(User.objects.first() or builders.an_operator())
        return client

    return moved


def page(photographer, day):
    return " ".join(photographer.get(reverse("studio:late", args=[day.pk])).content.decode().split())


@pytest.mark.usefixtures("late")
def test_a_later_sitting_is_shown_with_both_times(day, at):
    photographer = at(LATE)

    shown = page(photographer, day)

    assert "Duarte Salgado: 10:42 instead of 10:30" in shown
    assert "12 minutes later" in shown


def test_telling_one_sitter_queues_the_letter(day, late, at):
    photographer = at(LATE)

    answer = photographer.post(reverse("studio:late_tell", args=[late.pk]))

    assert answer.url == reverse("studio:late", args=[day.pk])
    assert Notice.objects.get(kind=NoticeKind.LATER).order == late.order
    assert "The letter is on its way." in page(photographer, day)


def test_telling_all_queues_every_letter(day, late, at):
    photographer = at(LATE)

    photographer.post(reverse("studio:late_tell_all", args=[day.pk]))

    assert Notice.objects.get(kind=NoticeKind.LATER).order == late.order


def test_telling_somebody_who_is_in_time_is_refused_with_a_sentence(day, late, at):
    photographer = at(LATE)
    BenchJob.objects.update(expected_at=None)

    answer = photographer.post(reverse("studio:late_tell", args=[late.pk]), follow=True)

    assert "there is nothing to tell" in answer.content.decode()


def test_working_the_times_out_again_stores_them(day, late, at):
    photographer = at(LATE)
    BenchJob.objects.update(expected_at=None)

    photographer.post(reverse("studio:late_again", args=[day.pk]))

    assert BenchJob.objects.get(pk=late.bench_job_id).expected_at == TEN + 42 * MINUTE


def test_a_day_that_is_over_says_so(day, at):
    photographer = at(TEN + timedelta(days=1))

    answer = photographer.post(reverse("studio:late_again", args=[day.pk]), follow=True)

    assert "This day is over, so no new times are worked out." in answer.content.decode()


def test_a_plate_past_its_wet_window_is_named_on_the_page(day, at):
    order = builders.a_paid_order(day)
    plate = ledger.pour(slot_id=order.sitting.bench_job.slots.get().pk, operator=None, now=TEN)
    ledger.record_stage(plate_id=plate.pk, stage="sensitised", operator=None, now=TEN + 5 * MINUTE)
    photographer = at(TEN + 20 * MINUTE)

    assert "left the bath more than 8 minutes ago" in page(photographer, day)


def test_spoiling_a_plate_in_the_queue_tells_the_queue_of_later_sitters(day, late, at):
    photographer = at(TEN + 52 * MINUTE)
    plate = Sitting.objects.get(bench_job__starts_at=TEN).bench_job.slots.get().plates.get()

    photographer.post(reverse("studio:spoil", args=[plate.pk]), {"reason": "fogged", "note": ""})

    expected = BenchJob.objects.get(pk=late.bench_job_id).expected_at
    shown = photographer.get(reverse("studio:day", args=[day.pk])).content.decode()
    assert expected > TEN + 42 * MINUTE
    assert f"expected at {expected:%H:%M}" in shown


def test_the_page_asks_the_same_few_queries_for_any_number_of_later_sitters(day, at):
    asked = []
    for hour in range(4):
        builders.a_paid_order(day, at=time(11 + hour))
        BenchJob.objects.update(expected_at=TEN + 470 * MINUTE)
        photographer = at(TEN)
        page(photographer, day)
        with CaptureQueriesContext(connection) as queries:
            page(photographer, day)
        asked.append(len(queries))
        at(builders.NOW)

    assert asked == [asked[0]] * 4
    assert asked[0] < 25
