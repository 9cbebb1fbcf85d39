"""The line as its pages show it: who is reckoned with, and for how long what can still be taken back is shown."""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from bookings.day.services import attendance as arrivals
from bookings.errors import LinkInvalid
from bookings.walkups import links as line_links
from bookings.walkups import selectors as selector
from bookings.walkups.services import line
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
NO_CHANCE = {"retake_chance": 0, "no_show_chance": 0, "spread": 0, "late_minutes": 0}


@pytest.fixture
def day():
    builders.a_size("quarter")
    opened = builders.a_day(bench=builders.a_bench(sitters_at_once=1, **NO_CHANCE))
    return line.open_or_close(day_id=opened.pk, keeps=True)


def waiting(day, now=TEN):
    return selector.the_line(day=day, now=now).waiting


def minutes(day, now=TEN):
    return [each.minutes for each in waiting(day, now)]


def test_times_are_rounded_outward_to_five_minutes(day):
    """Without chance the second is begun with 18 minutes after the first (see tests/plates/schedule/test_line.py)."""
    for _ in range(2):
        builders.a_line_place(day, now=TEN - MINUTE)

    assert [(each.soonest, each.latest) for each in waiting(day)] == [
        (TEN, TEN),
        (TEN + 15 * MINUTE, TEN + 20 * MINUTE),
    ]


def test_who_is_called_is_not_before_anybody(day):
    first = builders.a_line_place(day)
    builders.a_line_place(day)

    line.call(place_id=first.pk, now=TEN)

    assert [each.before for each in waiting(day)] == [0]


def test_a_sitter_who_is_marked_as_not_come_is_not_waited_for(day):
    sitting = builders.a_paid_order(day, at=time(10)).sitting
    builders.a_line_place(day, now=TEN - MINUTE)
    before = minutes(day)

    arrivals.mark(sitting_id=sitting.pk, as_="absent", now=TEN)

    assert (before, minutes(day)) == ([(15, 20)], [(0, 0)])


def test_a_sitter_who_is_half_an_hour_late_and_unseen_is_not_waited_for(day):
    builders.a_paid_order(day, at=time(10))
    builders.a_line_place(day, now=TEN - MINUTE)

    assert [minutes(day, TEN + late * MINUTE) for late in (30, 31)] == [[(15, 20)], [(0, 4)]]


def test_who_was_struck_off_is_shown_for_as_long_as_it_can_be_taken_back(day):
    place = builders.a_line_place(day)
    line.call(place_id=place.pk, now=TEN)
    line.strike(place_id=place.pk, now=TEN)

    shown = [selector.the_line(day=day, now=TEN + after * MINUTE).struck for after in (5, 6)]

    assert shown == [[place], []]


def test_the_next_days_are_those_that_clients_can_book(day):
    later = builders.a_day(on=date(2026, 12, 5), venue=day.venue, bench=day.bench_day.bench)
    builders.a_day(on=date(2026, 12, 6), venue=day.venue, bench=day.bench_day.bench, published=False)

    assert selector.next_days(day=day, now=TEN) == [later]


def test_the_drawing_calls_places_by_their_numbers(day):
    place = builders.a_line_place(day)

    assert selector.labels(day=day) == {place.bench_job_id: "no. 1 of the line"}


def test_an_address_of_a_place_opens_no_line_and_the_other_way_round(day):
    place = builders.a_line_place(day)

    for read, token in (
        (line_links.resolve_line, line_links.place_token(place)),
        (line_links.resolve_place, line_links.line_token(day)),
    ):
        with pytest.raises(LinkInvalid, match=r"^This address is not complete\."):
            read(token)


def test_the_printed_code_is_the_one_on_the_screen(day):
    assert line_links.line_token(day) == line_links.line_token(day)
