"""The waiting list of a day: in order, one offer each, held for a set time, passed on when it is not taken."""

from datetime import UTC, datetime, time, timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from bookings import waiting_links
from bookings.errors import NotForSale, WaitingRefused
from bookings.models import Notice, SittingDay, Waiting
from bookings.selectors.waiting import State, state_of, with_orders
from bookings.services import booking, due, notices, sittings, waiting
from bookings.services.waiting import Asked
from bookings.wishes import Wish
from plates.models import BenchJob, PlateSize
from tests import builders
from tests.bookings.letters import flowing, parsed
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN, NOON = (datetime(2026, 11, 28, hour, tzinfo=UTC) for hour in (10, 12))
TWO_HOURS, MINUTE = timedelta(hours=2), timedelta(minutes=1)
DETAILS = booking.Details(name="Ottilie Marrow", email="ottilie@example.org", phone="", consents={})


@pytest.fixture
def day():
    """Starts at ten and at eleven, each for one sitter: two places, counted by hand."""
    bench = builders.a_bench(operators=9, tank_places=9, wash_places=30, sitters_at_once=1)
    return builders.a_day(bench=bench, closes=time(12), racks_empty_by=time(15), start_every=60)


@pytest.fixture
def full(day):
    """The two places of the day, sold."""
    return [builders.a_paid_order(day, at=time(hour)) for hour in (10, 11)]


def join(day, *, email="ottilie@example.org", size="quarter", earliest=TEN, latest=NOON, key=None, now=NOW):
    wish = Wish(sizes=[builders.a_size(size)])
    asked = Asked(name="Ottilie Marrow", email=email, earliest=earliest, latest=latest)
    return waiting.join(key=key or uuid4(), day_id=day.pk, wish=wish, asked=asked, now=now)


def again(place):
    return with_orders().get(pk=place.pk)


def state(place, now=NOW):
    return state_of(again(place), now=now)


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


def test_one_address_is_on_the_list_of_a_day_once_however_it_is_typed(day, full):
    first = join(day)

    second = join(day, email="Ottilie@Example.org", latest=TEN)

    assert second.pk == first.pk
    assert (Waiting.objects.count(), Notice.objects.filter(kind="waiting").count()) == (1, 1)
    assert again(first).latest == NOON


def test_the_same_form_sent_twice_is_one_place(day, full):
    key = uuid4()

    assert join(day, key=key).pk == join(day, key=key).pk


def test_who_left_may_ask_again_and_stands_last(day, full):
    first, second = join(day), join(day, email="wren@example.org")
    waiting.leave(place_id=first.pk, now=NOW)
    last = join(day, now=NOW + MINUTE)
    sittings.cancel(order_id=full[1].pk, now=NOW)

    waiting.offer_freed(now=NOW + MINUTE)

    assert (state(second), state(last)) == (State.OFFERED, State.WAITS)


def test_nobody_waits_for_what_is_free(day):
    with pytest.raises(
        WaitingRefused, match=r"^10:00 is free on that day\. Go back to the times and press it\.$"
    ):
        join(day)


@pytest.mark.parametrize(
    ("earliest", "latest"),
    [(NOON + TWO_HOURS, NOON + 2 * TWO_HOURS), (TEN - TWO_HOURS, TEN - MINUTE)],
    ids=["after closing", "before opening"],
)
def test_hours_outside_the_day_are_refused(day, full, earliest, latest):
    with pytest.raises(
        WaitingRefused, match=r"^Choose hours that are still to come, between 10:00 and 12:00\.$"
    ):
        join(day, earliest=earliest, latest=latest)


def test_a_day_that_is_not_open_has_no_list(day, full):
    SittingDay.objects.update(published=False)

    with pytest.raises(NotForSale, match=r"^This day is not open for booking\."):
        join(day)


def test_addresses_cannot_be_typed_in_by_the_dozen(day, full):
    for number in range(waiting.MOST_A_MINUTE):
        join(day, email=f"{number}@example.org")

    with pytest.raises(WaitingRefused, match=r"^Many people are asking just now\."):
        join(day, email="one.more@example.org")

    assert join(day, email="one.more@example.org", now=NOW + MINUTE)


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


def test_the_letters_say_what_is_offered_until_when_and_how_to_leave(day, full, settings):
    settings.SITE_ADDRESS = "https://rooms.example.org"
    place = join(day)
    sittings.cancel(order_id=full[1].pk, now=NOW)
    waiting.offer_freed(now=NOW)

    joined, offer = (flowing(parsed(place.notices.get(kind=kind))) for kind in ("waiting", "offer"))

    assert "on the waiting list for Saturday 28 November 2026, for a start between 10:00 and 12:00." in joined
    assert "Whoever asked first is offered first." in joined
    assert "When: Saturday 28 November 2026 at 11:00 (Europe/Lisbon, UTC+0)" in offer
    # 09:00 UTC and two hours, on Lisbon's clock in winter.
    assert "Kept for you until: Friday 20 November 2026 at 11:00 (Europe/Lisbon, UTC+0)" in offer
    assert "The whole order comes to €85.00, tax included. A deposit of €42.50 is asked for" in offer
    for letter in (joined, offer):
        assert f"https://rooms.example.org{waiting_links.path(place)}" in letter


def test_an_offer_is_not_written_of_once_it_has_lapsed(day, full, mailoutbox):
    place = join(day)
    sittings.cancel(order_id=full[1].pk, now=NOW)
    waiting.offer_freed(now=NOW)

    notices.send_due(now=NOW + TWO_HOURS)

    assert place.notices.get(kind="offer").withdrawn_at == NOW + TWO_HOURS


def test_who_is_struck_off_is_forgotten_and_not_written_to(day, full, mailoutbox):
    place = join(day)

    waiting.strike(place_id=place.pk, now=NOW)
    notices.send_due(now=NOW)

    assert state(place) == State.STRUCK
    assert (again(place).name, again(place).email) == ("", "")
    assert [letter for letter in mailoutbox if "ottilie" in letter.to[0]] == []


def test_names_are_forgotten_once_the_day_is_over(day, full):
    place = join(day)

    waiting.forget(now=NOON)

    assert (again(place).name, state(place, NOON + TWO_HOURS)) == ("", State.OVER)


def test_an_offer_that_cannot_be_sent_is_put_before_the_owner(client, day, full):
    place = join(day)
    place.notices.update(given_up_at=NOW, tries=10)
    client.force_login(builders.an_operator())

    page = client.get(reverse("studio:day", args=[day.pk])).content.decode()

    assert "The letter “On the waiting list” could not be sent after 10 tries:" in page
    assert reverse("studio:waiting_list", args=[day.pk]) in page
