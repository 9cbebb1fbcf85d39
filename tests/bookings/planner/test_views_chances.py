"""The page that says what chance may do to a day, as the photographer reads it."""

from datetime import time

import pytest
from django.urls import reverse

from plates.bench.models import Bench
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


@pytest.fixture
def day(clock):
    builders.a_size("quarter")
    return builders.a_day(bench=builders.a_bench(wait_chance=10))


def read(photographer, day):
    response = photographer.get(reverse("studio:chances", args=[day.pk]))
    assert response.status_code == 200
    return Page(response).text


def test_each_sitter_is_named_with_the_chance_of_a_long_wait(photographer, day):
    first, second = (builders.a_paid_order(day, at=time(hour)) for hour in (10, 12))

    text = read(photographer, day)

    assert f"10:00 {first.reference}" in text
    assert f"12:00 {second.reference}" in text
    assert "No sitting is sold that brings it to 10 % for anybody." in text


def test_chemistry_is_asked_for_with_the_retakes_that_may_come(photographer, day):
    """Two plates at 15 %: scipy.stats.nbinom.ppf(0.95, 2, 0.85) = 2 more, so 4 in all."""
    for hour in (10, 12):
        builders.a_paid_order(day, at=time(hour))

    assert "Have enough for 4 plates: with 95 % certainty 2 good ones come of them" in read(photographer, day)


def test_gaps_that_keep_the_promise_are_suggested_for_an_empty_day(photographer, day):
    text = read(photographer, day)

    assert "Nobody sits on this day yet, so there is nothing to play." in text
    assert "1 quarter plate to a sitting: every 2" in text


def test_a_bench_without_a_limit_says_that_it_sells_without_regard(photographer, day):
    builders.a_paid_order(day)
    Bench.objects.update(wait_chance=None)

    text = read(photographer, day)

    assert "This bench sells without regard to waiting" in text
    assert "This bench sets no limit on waiting, so no gap is better than another." in text
