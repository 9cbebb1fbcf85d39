"""More of anything never loses a sitting, less never wins one: gates 1 and 2 together, and the most of a day.

An order of answers needs no outside figure: it follows from the rules themselves (design page s.3), as whatever plan
keeps a tight rule keeps the looser one too. exact/test_replan.py asks it of days laid out from nothing,
test_admission.py of
gate 1; here sittings are added to stored plans, and every side of every lag is loosened and tightened.
"""

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plates.capacity import Bench, Booked, Day, Sitting, Span, Timings, admit
from plates.capacity.exact.most import most
from plates.capacity.exact.replan import lay_out, replan
from tests.plates.capacity.days import MORE, QUARTER, WHOLE, random_day

SHORT = Day(0, 110, 175, start_every=5)
STARTS = (20, 35, 50, 65)
SECONDS = 5


def timed(**changes):
    """A change to the timings of a bench, each given as what to add."""

    def change(bench, day):
        times = bench.timings
        new = {name: getattr(times, name) + more for name, more in changes.items()}
        return replace(bench, timings=replace(times, **new)), day

    return change


def widened(name, minutes):
    """A longer most time of bath or wash."""

    def change(bench, day):
        span = getattr(bench.timings, name)
        longer = Span(span.least, span.most + minutes)
        return replace(bench, timings=replace(bench.timings, **{name: longer})), day

    return change


LOOSER = {
    "longest bath": widened("sensitise", 2),
    "longest wash": widened("wash", 15),
    "wet window": timed(wet_window=2),
    "wait for the fixer": timed(fix_within=2),
    "wait for the farewell": timed(farewell_within=3),
    "wait for the first pour": timed(first_pour_within=3),
    "wait for the next pour": timed(next_pour_within=3),
    "quicker settling": timed(settle=-2),
    "quicker lifting": timed(lift=-1),
    **MORE,
}
# Seeds of `pinched` days on which each change opens a start, found by trying.
OPENED = {
    "wash places": 0, "operators": 1, "sitters": 7, "tolerance": 10, "later closing": 16, "wait for the fixer": 28,
    "quicker lifting": 28, "later racks": 32, "tank places": 35, "wait for the farewell": 53, "quicker settling": 53,
    "longest bath": 81, "wet window": 81, "wait for the first pour": 92, "longest wash": 147,
    "wait for the next pour": 147,
}  # fmt: skip

TIGHT = Timings(
    sensitise=Span(3, 3), wet_window=6, fix_within=0, wash=Span(60, 62), farewell_within=1, first_pour_within=6,
    next_pour_within=4,
)  # fmt: skip

benches = st.builds(
    Bench, operators=st.integers(1, 2), tank_places=st.integers(1, 2), wash_places=st.integers(2, 4),
    sitters_at_once=st.integers(1, 2), tolerance=st.integers(0, 5), timings=st.sampled_from([TIGHT, Timings()]),
)  # fmt: skip
orders = st.lists(st.sampled_from([QUARTER, WHOLE]), min_size=1, max_size=2).map(tuple)
seeds = st.integers(0, 10**6)


def crowded(seed, bench):
    """A short day with what random requests left on it."""
    return random_day(seed, bench, requests=6, counts=(1, 1, 2), day=SHORT)


def accepts(bench, day, booked, asked):
    """Whether gates 1 and 2 take the sitting in; each has to decide."""
    if admit(bench, day, booked, asked).plans:
        return True
    found = replan(bench, day, booked, asked, seconds=SECONDS)
    assert not found.unknown
    return bool(found.plans)


@pytest.mark.parametrize("change", LOOSER.values(), ids=LOOSER)
@settings(max_examples=5, derandomize=True)
@given(seed=seeds, bench=benches, order=orders)
def test_what_is_accepted_stays_accepted_and_what_is_refused_was_refused_before(change, seed, bench, order):
    booked = crowded(seed, bench)
    looser, longer = change(bench, SHORT)

    for start in STARTS:
        asked = Sitting(start, order)
        assert accepts(bench, SHORT, booked, asked) <= accepts(looser, longer, booked, asked)


def pinched(seed):
    """A bench and a short day of which now this, now that is too little."""
    chance = random.Random(seed)
    timings = replace(TIGHT, wash=Span(60, 60), lift=2)
    bench = Bench(
        operators=chance.choice((1, 3)), tank_places=chance.choice((1, 3)), wash_places=chance.choice((3, 9)),
        sitters_at_once=chance.choice((1, 4)), tolerance=chance.choice((0, 3)), timings=timings,
    )  # fmt: skip
    return bench, replace(SHORT, closes=chance.choice((90, 110)), racks_empty_by=chance.choice((145, 175)))


@pytest.mark.parametrize(("name", "seed"), OPENED.items())
def test_each_of_the_changes_opens_a_start_of_some_day(name, seed):
    # Else the test above would say nothing of it.
    assert OPENED.keys() == LOOSER.keys()
    bench, day = pinched(seed)
    booked = random_day(seed, bench, requests=6, counts=(1, 1, 2), day=day)
    asked = [Sitting(start, (QUARTER, QUARTER)) for start in STARTS]
    shut = [each for each in asked if not accepts(bench, day, booked, each)]

    assert any(accepts(*LOOSER[name](bench, day), booked, each) for each in shut)


@settings(max_examples=12, derandomize=True)
@given(seed=seeds, bench=benches, order=orders)
def test_giving_back_a_sitting_or_a_plate_or_taking_a_smaller_one_never_loses_the_sitting(seed, bench, order):
    booked = crowded(seed, bench)
    fewer = order[1:] or order
    smaller = tuple(QUARTER for _ in order)

    for start in STARTS[:2]:
        whole = accepts(bench, SHORT, booked, Sitting(start, order))
        assert whole <= accepts(bench, SHORT, booked[1:], Sitting(start, order))
        assert whole <= accepts(bench, SHORT, booked, Sitting(start, fewer))
        assert whole <= accepts(bench, SHORT, booked, Sitting(start, smaller))


@settings(max_examples=10, derandomize=True)
@given(seed=seeds, bench=benches, order=orders)
def test_a_sitting_under_way_leaves_at_most_what_a_free_one_does(seed, bench, order):
    booked = crowded(seed, bench)
    begun = [Booked(each.sitting, each.plan, begun=each.plan.settle < 30) for each in booked]

    for start in STARTS[1:]:
        asked = Sitting(start, order)
        assert accepts(bench, SHORT, begun, asked) <= accepts(bench, SHORT, booked, asked)


@settings(max_examples=20, derandomize=True)
@given(seed=seeds, bench=benches)
def test_a_day_that_was_built_up_by_acceptances_can_be_laid_out_from_nothing(seed, bench):
    booked = crowded(seed, bench)

    assert len(lay_out(bench, SHORT, [each.sitting for each in booked], seconds=SECONDS).plans) == len(booked)


@pytest.mark.parametrize("change", LOOSER.values(), ids=LOOSER)
@pytest.mark.parametrize("order", [(QUARTER,), (QUARTER, WHOLE)], ids=["one plate", "two plates"])
def test_the_most_of_a_day_never_falls(change, order):
    tight = Bench(wash_places=4, sitters_at_once=2, timings=TIGHT)
    before = most(tight, SHORT, order)
    looser, longer = change(tight, SHORT)
    after = most(looser, longer, order)

    assert before.proven
    assert len(before.plan) <= after.bound
    assert len(after.plan) >= len(before.plan) or not after.proven
