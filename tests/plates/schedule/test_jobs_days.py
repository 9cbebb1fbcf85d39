"""The hours of a bench's day, and what may not be promised on it."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.core.exceptions import ValidationError

from plates.bench.models import BenchDay
from plates.schedule.services import jobs as bench
from tests import builders

pytestmark = pytest.mark.django_db

ON = date(2026, 11, 28)
TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


def opened(*, of=None, **changes):
    hours = {
        "opens_at": TEN,
        "closes_at": TEN + timedelta(hours=8),
        "racks_empty_by": TEN + timedelta(hours=9),
        "start_every": 15,
    }
    return bench.open_day(**({"bench": of or builders.a_bench(), "on": ON} | hours | changes))


def test_a_day_is_opened_with_its_hours():
    day = opened()

    assert BenchDay.objects.get() == day
    assert (day.minute(day.closes_at), day.minute(day.racks_empty_by), day.version) == (480, 540, 0)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"closes_at": TEN}, "A day opens before it closes"),
        ({"racks_empty_by": TEN + timedelta(hours=7)}, "the racks are emptied no earlier than that"),
        ({"start_every": 0}, "Ensure this value is greater than or equal to 1"),
    ],
)
def test_hours_that_contradict_each_other_are_refused(changes, sentence):
    with pytest.raises(ValidationError, match=sentence):
        opened(**changes)

    assert not BenchDay.objects.exists()


def test_a_bench_has_one_day_a_date():
    first = opened()

    with pytest.raises(ValidationError, match=r"This bench is already at work on that date\."):
        opened(of=first.bench)


def test_minutes_of_a_day_are_real_minutes_rounded_down():
    day = opened()

    assert day.minute(TEN + timedelta(minutes=59, seconds=59)) == 59
    assert day.minute(TEN - timedelta(seconds=1)) == -1
    assert day.instant(90) == TEN + timedelta(minutes=90)
