"""What can only make a date later, and what only sooner: in every single run, not just in the end."""

from dataclasses import replace
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from plates.finishing.forecast import Lying, Spread, Work
from plates.finishing.forecast.outlook import look_ahead
from tests.plates.finishing.racks import days

MINUTES = st.lists(st.integers(0, 4000), min_size=3, max_size=3).map(lambda found: Spread(*sorted(found)))
RACKED = st.lists(st.integers(-3000, 6000), min_size=1, max_size=6)
WORKS = st.builds(Work, MINUTES, MINUTES, st.just(0.95))
few = settings(max_examples=25)


def plates(racked):
    return [Lying(key=key, racked=minute) for key, minute in enumerate(racked)]


def last(outlook, racked):
    return outlook.packed[len(racked) - 1]


@few
@given(WORKS, RACKED, st.integers(1, 3))
def test_more_room_in_a_session_makes_nobody_later(work, racked, room):
    less = look_ahead(days(plates=room), work, plates(racked))
    more = look_ahead(days(plates=room + 1), work, plates(racked))

    assert all((more.packed[key] <= less.packed[key]).all() for key in more.packed)


@few
@given(WORKS, RACKED, st.integers(0, 3000), st.integers(0, 2))
def test_longer_drying_or_curing_of_a_lone_plate_makes_it_no_sooner(work, racked, more, which):
    names = ["least", "usual", "most"]
    values = {name: getattr(work.drying, name) + more * (place >= which) for place, name in enumerate(names)}
    slow = replace(work, drying=Spread(**values))
    for longer in (slow, replace(work, curing=Spread(**values))):
        base = work if longer is slow else replace(work, curing=work.drying)
        asked = [Lying(key=9, racked=racked[0])]
        soon, late = (look_ahead(days(), each, asked) for each in (base, longer))
        assert (soon.packed[9] <= late.packed[9]).all()


@few
@given(WORKS, RACKED, st.integers(0, 3000))
def test_who_comes_onto_the_rack_later_is_ready_no_sooner(work, racked, later):
    outlook = look_ahead(days(), work, plates(racked))

    soon, late = (outlook.behind([Lying(key=99, racked=minute)]) for minute in (0, later))

    assert (soon.packed <= late.packed).all()


@few
@given(WORKS, RACKED, st.integers(-3000, 6000))
def test_one_more_plate_in_front_makes_nobody_sooner_and_one_behind_nobody_later(work, racked, minute):
    one = Lying(key=99, racked=minute)
    without = look_ahead(days(), work, plates(racked))
    before = look_ahead(days(), work, [one, *plates(racked)])
    after = look_ahead(days(), work, [*plates(racked), one])

    for key, packed in without.packed.items():
        assert (packed <= before.packed[key]).all()
        assert (packed == after.packed[key]).all()


@few
@given(WORKS, RACKED, st.integers(0, 20))
def test_one_more_closed_day_makes_no_date_earlier(work, racked, shut):
    open_ = look_ahead(days(), work, plates(racked)).of(range(len(racked)))
    closed_on = days().origin.date() + timedelta(days=shut)
    closed = look_ahead(days(closed={closed_on}), work, plates(racked)).of(range(len(racked)))

    assert open_.sure(0.95) <= closed.sure(0.95)


@few
@given(WORKS, RACKED, st.floats(0.5, 0.99), st.floats(0.5, 0.99))
def test_more_certainty_makes_no_date_earlier(work, racked, one, other):
    forecast = look_ahead(days(), work, plates(racked)).of(range(len(racked)))

    assert forecast.sure(min(one, other)) <= forecast.sure(max(one, other))
    assert forecast.chance_by(forecast.sure(one)) >= one - 1e-9
