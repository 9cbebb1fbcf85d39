"""Admission and openings: sound by construction, one reason for each refusal, monotone in every resource."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plates.capacity import Bench, Booked, Budget, Day, Sitting, admit, openings, problems
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, MORE, QUARTER, WHOLE, booked_after, random_day

orders = st.lists(st.sampled_from([QUARTER, WHOLE]), min_size=1, max_size=3).map(tuple)
requests = st.tuples(st.sampled_from(range(0, 480, 15)), orders).map(lambda asked: Sitting(*asked))
benches = st.builds(
    Bench,
    operators=st.integers(1, 2),
    tank_places=st.integers(1, 2),
    wash_places=st.integers(2, 8),
    sitters_at_once=st.integers(1, 3),
    tolerance=st.integers(0, 8),
)


@settings(max_examples=25)
@given(bench=benches, asked=st.lists(requests, min_size=1, max_size=8))
def test_whatever_is_admitted_both_judges_pass(bench, asked):
    booked = []
    for sitting in asked:
        admission = admit(bench, DAY, booked, sitting)
        assert bool(admission.plans) == (admission.refusal is None)
        if admission.plans:
            booked = booked_after(booked, sitting, admission.plans)
            assert problems(bench, DAY, booked) == ()
            assert oracle.sound(bench, DAY, booked)


def test_the_new_plan_comes_last_and_the_others_in_their_order():
    booked = random_day(5)
    start = openings(Bench(), DAY, booked, (QUARTER,)).starts[0]

    admission = admit(Bench(), DAY, booked, Sitting(start, (QUARTER,)))

    assert admission.plans[:-1] == tuple(each.plan for each in booked)
    assert start <= admission.plans[-1].settle <= start + Bench().tolerance


@pytest.mark.parametrize("seed", range(4))
def test_a_start_is_open_exactly_when_it_is_admitted(seed):
    booked = random_day(seed, requests=8)
    found = openings(Bench(), DAY, booked, (QUARTER, WHOLE))

    admitted = [
        start
        for start in range(0, 480, 15)
        if admit(Bench(), DAY, booked, Sitting(start, (QUARTER, WHOLE))).plans
    ]

    assert list(found.starts) == admitted
    assert [refusal.start for refusal in found.refused] == [s for s in range(0, 480, 15) if s not in admitted]


def test_nothing_before_the_given_minute_is_offered_or_refused():
    found = openings(Bench(), DAY, random_day(1), (QUARTER,), not_before=241)

    assert min((*found.starts, *(refusal.start for refusal in found.refused))) == 255


def test_the_same_question_has_the_same_answer():
    booked = random_day(7)
    start = openings(Bench(), DAY, booked, (WHOLE,)).starts[0]
    asked = Sitting(start, (WHOLE,))

    assert admit(Bench(), DAY, booked, asked) == admit(Bench(), DAY, list(booked), asked)


@pytest.mark.parametrize("change", MORE.values(), ids=MORE)
@settings(max_examples=12)
@given(seed=st.integers(0, 10**6), bench=benches, order=orders)
def test_more_of_a_resource_never_loses_an_opening(change, seed, bench, order):
    # True of gate 1, which leaves the stored plans where they are: its sets of minutes can only grow.
    booked = random_day(seed, bench, requests=6)
    fewer = set(openings(bench, DAY, booked, order).starts)
    larger, longer = change(bench, DAY)

    assert fewer <= set(openings(larger, longer, booked, order).starts)


@settings(max_examples=12)
@given(seed=st.integers(0, 10**6), order=orders)
def test_giving_a_sitting_back_never_loses_an_opening(seed, order):
    booked = random_day(seed, requests=6)
    full = set(openings(Bench(), DAY, booked, order).starts)

    assert full <= set(openings(Bench(), DAY, booked[1:], order).starts)


def test_a_spent_budget_refuses_every_start_by_its_name():
    budget = Budget("collodion", 3)
    booked = random_day(2, requests=1, counts=(2,))

    assert openings(Bench(), DAY, booked, (QUARTER,), [budget]).starts != ()
    spent = openings(Bench(), DAY, booked, (QUARTER, QUARTER), [budget])
    assert spent.starts == ()
    assert {each.why for each in spent.refused} == {"budget:collodion"}
    # Two plates of three are booked: one more unit is named wherever the clock has room for the sitting.
    roomy = openings(Bench(), DAY, booked, (QUARTER, QUARTER), [Budget("collodion", 4)]).starts
    assert {each.start: each.lifted_by for each in spent.refused} == {
        start: "collodion+1" if start in roomy else None for start in range(0, 480, 15)
    }


def test_a_stored_day_that_no_longer_holds_takes_nothing_more():
    booked = random_day(4)
    slower = replace(Bench(), wash_places=1)

    refusal = admit(slower, DAY, booked, Sitting(450, (QUARTER,))).refusal

    assert problems(slower, DAY, booked) != ()
    assert (refusal.why, refusal.nearest) == ("wash", ())


def test_a_late_settle_within_the_tolerance_is_used():
    first = admit(Bench(), DAY, [], Sitting(0, (QUARTER,)))
    booked = [Booked(Sitting(0, (QUARTER,)), first.plans[0])]
    strict = replace(Bench(), tolerance=0)

    # The first sitting lasts until minute 18, so 15 is kept only by one who may begin late.
    assert 15 in openings(Bench(tolerance=12), DAY, booked, (QUARTER,)).starts
    assert 15 not in openings(strict, DAY, booked, (QUARTER,)).starts
    assert set(openings(strict, DAY, booked, (QUARTER,)).starts) <= set(
        openings(Bench(tolerance=12), DAY, booked, (QUARTER,)).starts
    )


def test_an_empty_day_offers_every_start_that_ends_in_time():
    # By hand: a single plate is at least 18 minutes, so 17:30 is the last quarter hour before closing at 18:00.
    found = openings(Bench(), Day(600, 1080, 1155), [], (QUARTER,))

    assert found.starts == tuple(range(600, 1051, 15))
    assert [(each.start, each.why) for each in found.refused] == [(1065, "closing")]
