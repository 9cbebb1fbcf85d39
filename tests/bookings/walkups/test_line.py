"""The walk-up line: numbers, calls, who leaves and who does not come."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest

from bookings import drain as due
from bookings.errors import LineRefused, SubmissionChanged
from bookings.orders.models import Consent, ConsentPurpose, Order
from bookings.orders.selectors.account import account
from bookings.orders.services.placing import Details
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from bookings.walkups.services.orders import come
from plates.bench.models import BenchJob
from plates.errors import BenchFull, BenchPromised
from plates.ledger.services import events as ledger
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def day():
    builders.a_size("quarter")
    opened = builders.a_day(bench=builders.a_bench(sitters_at_once=1))
    return line.open_or_close(day_id=opened.pk, keeps=True)


def joined(day, name="Ines", *, size="quarter", now=TEN, **how):
    how = {"key": uuid4()} | how
    return line.join(day_id=day.pk, name=name, size=builders.a_size(size), now=now, **how)


def details(name="Ines Madrugada"):
    return Details(name=name, email="ines@example.org", phone="", consents={ConsentPurpose.SHOW: True})


def job_of(place):
    return BenchJob.objects.get(pk=LinePlace.objects.get(pk=place.pk).bench_job_id)


def test_numbers_are_given_in_the_order_of_joining(day):
    assert [joined(day).number for _ in range(3)] == [1, 2, 3]


def test_a_number_is_not_given_again_when_somebody_leaves(day):
    first = joined(day)
    line.leave(place_id=first.pk, now=TEN)

    assert joined(day).number == 2


def test_the_same_form_sent_twice_is_one_place(day):
    key = uuid4()

    assert joined(day, key=key) == joined(day, key=key)
    assert BenchJob.objects.count() == 1


def test_a_form_sent_again_with_another_plate_is_refused(day):
    key = uuid4()
    joined(day, key=key)

    with pytest.raises(SubmissionChanged, match=r"^This form was already sent with another wish\."):
        joined(day, key=key, size="half")


def test_a_day_without_a_line_takes_nobody(day):
    line.open_or_close(day_id=day.pk, keeps=False)

    with pytest.raises(LineRefused, match=r"^No line is kept on this day\.$"):
        joined(day)


@pytest.mark.parametrize(
    ("now", "sentence"),
    [
        (TEN - 61 * MINUTE, r"^The line is for the day itself\."),
        (TEN + timedelta(hours=8), r"^The stall has closed for today\.$"),
    ],
)
def test_the_line_is_for_the_hours_of_the_stall(day, now, sentence):
    with pytest.raises(LineRefused, match=sentence):
        joined(day, now=now)


def test_nobody_fills_the_line_within_a_minute(day):
    for second in range(line.MOST_A_MINUTE):
        joined(day, now=TEN + timedelta(seconds=second))

    with pytest.raises(LineRefused, match=r"^Many people are joining just now\."):
        joined(day, now=TEN + timedelta(seconds=50))


def test_the_desk_is_never_too_fast(day):
    for _ in range(line.MOST_A_MINUTE):
        joined(day)

    assert joined(day, at_desk=True).number == line.MOST_A_MINUTE + 1


def test_who_was_called_stays_where_the_plan_has_them(day):
    first, second = joined(day), joined(day)
    line.call(place_id=first.pk, now=TEN)

    line.leave(place_id=second.pk, now=TEN + 10 * MINUTE)

    assert job_of(first).starts_at == first.bench_job.starts_at


def test_who_leaves_is_forgotten_and_the_others_move_up(day):
    first, second = joined(day), joined(day)

    line.leave(place_id=first.pk, now=TEN)

    assert LinePlace.objects.get(pk=first.pk).name == ""
    assert job_of(first).released_at == TEN
    assert job_of(second).starts_at == first.bench_job.starts_at


def test_nobody_is_struck_off_without_having_been_called(day):
    place = joined(day)

    with pytest.raises(LineRefused, match=r"^Call before striking anybody off\.$"):
        line.strike(place_id=place.pk, now=TEN)


def test_who_did_not_come_gives_the_room_to_the_next(day):
    first, second = joined(day), joined(day)
    line.call(place_id=first.pk, now=TEN)

    line.strike(place_id=first.pk, now=TEN + 5 * MINUTE)

    assert job_of(second).starts_at == TEN + 6 * MINUTE


def test_who_was_struck_off_and_comes_waits_ahead_of_the_others(day):
    first, second = joined(day), joined(day)
    line.call(place_id=first.pk, now=TEN)
    line.strike(place_id=first.pk, now=TEN + MINUTE)

    line.undo_strike(place_id=first.pk, now=TEN + 2 * MINUTE)

    assert LinePlace.objects.get(pk=first.pk).called_at is None
    assert job_of(first).starts_at < job_of(second).starts_at


def test_a_strike_of_more_than_five_minutes_ago_stays(day):
    place = joined(day)
    line.call(place_id=place.pk, now=TEN)
    line.strike(place_id=place.pk, now=TEN)

    with pytest.raises(
        LineRefused, match=r"^Striking off can be taken back for 5 minutes; that time is over\.$"
    ):
        line.undo_strike(place_id=place.pk, now=TEN + 5 * MINUTE + timedelta(seconds=1))


def test_who_has_come_has_an_order_on_the_job_of_the_line(day):
    place = joined(day)
    line.call(place_id=place.pk, now=TEN)

    order = come(place_id=place.pk, details=details(), now=TEN + MINUTE)

    assert order.sitting.bench_job_id == place.bench_job_id
    assert order.sitting.arrived_at == TEN + MINUTE
    assert [line.slot.job_id for line in order.lines.all()] == [place.bench_job_id]
    assert account(order).deposit_owed == 4250  # half of 85 euro, by the terms (builders.some_terms)
    assert Consent.objects.get(client=order.client).given


def test_who_comes_twice_has_one_order(day):
    place = joined(day)
    line.call(place_id=place.pk, now=TEN)

    assert {come(place_id=place.pk, details=details(), now=TEN).pk for _ in range(2)} == {
        Order.objects.get().pk
    }


def test_nobody_comes_who_was_not_called(day):
    place = joined(day)

    with pytest.raises(LineRefused, match=r"^Call somebody who stands in the line first\.$"):
        come(place_id=place.pk, details=details(), now=TEN)


def test_the_place_of_an_order_cannot_be_left_by_the_line(day):
    place = joined(day)
    line.call(place_id=place.pk, now=TEN)
    come(place_id=place.pk, details=details(), now=TEN)

    with pytest.raises(LineRefused, match=r"^You have come to the tent already\."):
        line.leave(place_id=place.pk, now=TEN)


def test_a_plate_poured_for_somebody_from_the_line_holds_the_place(day):
    place = joined(day)
    line.call(place_id=place.pk, now=TEN)
    ledger.pour(slot_id=place.bench_job.slots.get().pk, operator=None, now=TEN + MINUTE)

    with pytest.raises(BenchPromised):
        line.strike(place_id=place.pk, now=TEN + 2 * MINUTE)


def test_a_line_that_is_full_refuses_and_keeps_nothing(day):
    late = TEN + timedelta(hours=7, minutes=55)

    with pytest.raises(BenchFull):
        joined(day, now=late)

    assert not LinePlace.objects.exists()
    assert not BenchJob.objects.exists()


def test_the_name_goes_over_to_the_client_when_somebody_comes(day):
    place = joined(day)
    line.call(place_id=place.pk, now=TEN)

    come(place_id=place.pk, details=details(), now=TEN)

    assert LinePlace.objects.get(pk=place.pk).name == ""


def test_the_bell_forgets_names_when_the_stall_has_closed(day):
    joined(day)

    due.drain(now=day.bench_day.closes_at)

    assert LinePlace.objects.get().name == ""


def test_who_was_struck_off_is_forgotten_when_it_cannot_be_taken_back_any_more(day):
    place = joined(day)
    line.call(place_id=place.pk, now=TEN)
    line.strike(place_id=place.pk, now=TEN)

    kept, forgotten = (line.forget_names(now=TEN + minutes * MINUTE) for minutes in (5, 6))

    assert (kept, forgotten) == (0, 1)
