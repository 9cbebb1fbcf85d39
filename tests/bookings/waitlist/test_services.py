"""The waiting list of a day: in order, one offer each, held for a set time, passed on when it is not taken."""

from datetime import time, timedelta

import pytest

from bookings import drain as due
from bookings.changes.services import sittings
from bookings.checkout.services import booking
from bookings.orders.services import placing
from bookings.waitlist import services as waiting
from bookings.waitlist.selectors import State
from plates.bench.models import BenchJob, PlateSize
from tests import builders
from tests.bookings.waitlist.worlds import (
    MINUTE,
    NOON,
    TEN,
    TWO_HOURS,
    a_day_of_two_places,
    again,
    both_sold,
    join,
    state,
)
from tests.builders import NOW

pytestmark = pytest.mark.django_db

DETAILS = placing.Details(name="Ottilie Marrow", email="ottilie@example.org", phone="", consents={})


@pytest.fixture
def day():
    return a_day_of_two_places()


@pytest.fixture
def full(day):
    return both_sold(day)


def offered_start(place):
    return again(place).order.sitting.bench_job.starts_at


def test_a_freed_place_is_offered_to_whoever_asked_first_and_kept_for_two_hours(day, full):
    first, second = join(day), join(day, email="wren@example.org")
    sittings.cancel(order_id=full[1].pk, now=NOW)

    offered = waiting.offer_freed(now=NOW)

    assert offered == 1
    assert (state(first), state(second)) == (State.OFFERED, State.WAITS)
    job = again(first).order.sitting.bench_job
    assert (job.starts_at, job.held_until) == (TEN + timedelta(hours=1), NOW + TWO_HOURS)


def test_who_asked_first_is_passed_over_when_the_place_does_not_fit_their_hours(day, full):
    late, fits = join(day, earliest=TEN + MINUTE), join(day, email="wren@example.org", latest=TEN)
    sittings.cancel(order_id=full[0].pk, now=NOW)

    waiting.offer_freed(now=NOW)

    assert (state(late), state(fits)) == (State.WAITS, State.OFFERED)


def test_an_offer_that_is_not_taken_goes_to_the_next_in_line(day, full):
    first, second = join(day), join(day, email="wren@example.org")
    sittings.cancel(order_id=full[1].pk, now=NOW)
    waiting.offer_freed(now=NOW)
    lapsed = NOW + TWO_HOURS

    waiting.offer_freed(now=lapsed)

    assert (state(first, lapsed), state(second, lapsed)) == (State.LAPSED, State.OFFERED)
    assert offered_start(first) == offered_start(second)


def test_a_minute_before_it_lapses_an_offer_stands(day, full):
    first, second = join(day), join(day, email="wren@example.org")
    sittings.cancel(order_id=full[1].pk, now=NOW)
    waiting.offer_freed(now=NOW)

    waiting.offer_freed(now=NOW + TWO_HOURS - MINUTE)

    assert (state(first, NOW + TWO_HOURS - MINUTE), state(second)) == (State.OFFERED, State.WAITS)


def test_an_offer_that_is_given_up_goes_to_the_next_at_once(day, full):
    first, second = join(day), join(day, email="wren@example.org")
    sittings.cancel(order_id=full[1].pk, now=NOW)
    waiting.offer_freed(now=NOW)

    waiting.leave(place_id=first.pk, now=NOW + MINUTE)
    waiting.offer_freed(now=NOW + MINUTE)

    assert (state(first), state(second, NOW + MINUTE)) == (State.LEFT, State.OFFERED)


def test_an_offer_that_is_taken_becomes_an_order_and_the_list_forgets_the_name(day, full):
    place = join(day)
    sittings.cancel(order_id=full[1].pk, now=NOW)
    due.drain(now=NOW)

    order = booking.place_order(order_id=again(place).order.pk, details=DETAILS, now=NOW + MINUTE)
    waiting.forget(now=NOW + TWO_HOURS)

    assert state(place, NOW + TWO_HOURS) == State.TAKEN
    assert BenchJob.objects.get(pk=order.sitting.bench_job_id).counts(NOW + TWO_HOURS)
    assert (again(place).name, again(place).email) == ("", "")


def test_each_freed_place_is_offered_once_however_many_wait(day, full):
    places = [join(day, email=f"{number}@example.org", now=NOW + number * MINUTE) for number in range(4)]
    for order in full[:2]:
        sittings.cancel(order_id=order.pk, now=NOW)
    now = NOW + 5 * MINUTE

    for _ in range(3):
        waiting.offer_freed(now=now)

    assert [state(place, now) for place in places] == [State.OFFERED] * 2 + [State.WAITS] * 2
    assert len({offered_start(place) for place in places[:2]}) == 2


def test_an_offer_never_runs_past_the_start_and_none_is_made_in_the_last_half_hour(day, full):
    place, later = (
        join(day, earliest=TEN + MINUTE),
        join(day, email="wren@example.org", earliest=TEN + MINUTE),
    )
    eleven = TEN + timedelta(hours=1)
    sittings.cancel(order_id=full[1].pk, now=NOW)

    waiting.offer_freed(now=eleven - timedelta(minutes=31))
    waiting.leave(place_id=place.pk, now=eleven - timedelta(minutes=29))
    waiting.offer_freed(now=eleven - timedelta(minutes=29))

    assert again(place).order.sitting.bench_job.held_until == eleven
    assert state(later, eleven) == State.WAITS


def test_who_left_may_ask_again_and_stands_last(day, full):
    first, second = join(day), join(day, email="wren@example.org")
    waiting.leave(place_id=first.pk, now=NOW)
    last = join(day, now=NOW + MINUTE)
    sittings.cancel(order_id=full[1].pk, now=NOW)

    waiting.offer_freed(now=NOW + MINUTE)

    assert (state(second), state(last)) == (State.OFFERED, State.WAITS)


def test_what_is_sold_no_longer_passes_over_with_a_sentence_for_the_studio(day, full):
    place = join(day)
    PlateSize.objects.filter(name="quarter").update(offered=False)
    sittings.cancel(order_id=full[1].pk, now=NOW)

    waiting.offer_freed(now=NOW)

    assert again(place).passed_over == "Something that was asked for is no longer for sale."


def test_a_day_on_which_nothing_changed_is_not_planned_again(day, full, monkeypatch):
    join(day)
    waiting.offer_freed(now=NOW)
    asked = []
    monkeypatch.setattr(waiting.the_list, "first_free", lambda **facts: asked.append(facts))

    waiting.offer_freed(now=NOW + MINUTE)
    before = len(asked)
    builders.a_held_order(builders.a_day(on=builders.SATURDAY + timedelta(days=1)))
    waiting.offer_freed(now=NOW + MINUTE)

    assert (before, len(asked)) == (0, 0)


def test_without_anybody_waiting_the_drain_asks_one_question(day, django_assert_num_queries):
    with django_assert_num_queries(1):
        waiting.offer_freed(now=NOW)


def test_a_hold_that_lapses_frees_its_place_for_the_list(day):
    for hour in (10, 11):
        builders.a_held_order(day, at=time(hour))
    place = join(day)
    waiting.offer_freed(now=NOW)

    waiting.offer_freed(now=NOW + timedelta(minutes=21))

    assert state(place, NOW + timedelta(minutes=21)) == State.OFFERED


def test_names_are_forgotten_once_the_day_is_over(day, full):
    place = join(day)

    waiting.forget(now=NOON)

    assert (again(place).name, state(place, NOON + TWO_HOURS)) == ("", State.OVER)
