"""What a change of the bench adds: against proven maxima, and with no promise broken."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plates.capacity import Bench, Day, Size, problems
from plates.capacity.exact.fill import Asked, with_one
from plates.capacity.problem.bench import MOST_HANDS, MOST_TANK_PLACES, MOST_WASH_PLACES
from plates.capacity.what_if import StillToSell, changes, most_bound_further, most_further, what_if
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER, WHOLE, random_day

GRID = tuple(range(0, 480, 15))
EVERY_MINUTE = tuple(range(480))
NEVER = DAY.closes
LONG = 3.0
MORNING = {"day": Day(0, 120, 240), "starts": GRID[:8]}

# reference: capacity research s.5a, 555 column, as computed there with CP-SAT in another model of the same rules:
# the maximum as the day stands, and what one operator, one tank place and one wash place add to it. The page says "at
# least" of +2 and +18; both are the wash bound there (32 and 48), so they cannot be more.
MARGINALS = {2: (16, 0, 0, 8), 3: (24, 0, 0, 6), 4: (30, 2, 0, 0), 6: (30, 18, 0, 0)}


def asked(booked=(), bench=None, size=QUARTER, **changed):
    return replace(Asked(bench or Bench(), DAY, tuple(booked), size, GRID), **changed)


def further(found):
    return {each.change: each.sittings for each in found}


@pytest.mark.parametrize("places", MARGINALS)
def test_each_change_adds_to_an_empty_day_what_is_proven_to_be_added(places):
    # At any whole minute and without a limit of sitters, as in that model.
    bench = Bench(wash_places=places, sitters_at_once=20, tolerance=0)
    empty = asked(bench=bench, day=replace(DAY, start_every=1), starts=EVERY_MINUTE)
    none, operator, tank, wash = MARGINALS[places]

    found = what_if(empty, assistant_from=NEVER, seconds=LONG, patience=600)

    assert [(each.change, each.sittings - none, each.proven) for each in found] == [
        ("none", 0, True),
        ("assistant", 0, True),
        ("operators+1", operator, True),
        ("tank_places+1", tank, True),
        ("wash_places+1", wash, True),
    ]


@settings(max_examples=8)
@given(
    seed=st.integers(0, 10**6),
    operators=st.integers(1, 2),
    places=st.integers(2, 6),
    size=st.sampled_from([QUARTER, WHOLE]),
    absent=st.sampled_from([None, 0, 200, 480]),
)
def test_the_fullest_day_keeps_every_promise_and_both_judges_pass_it(seed, operators, places, size, absent):
    bench = Bench(operators=operators, wash_places=places)
    booked = tuple(random_day(seed, bench, requests=8))
    more = bench if absent is None else replace(bench, operators=operators + 1)
    whole, bound = most_further(asked(booked, more, size, absent_until=absent), booked, 0.01)

    assert [each.sitting for each in whole[: len(booked)]] == [each.sitting for each in booked]
    assert all(each.sitting.start in GRID and each.sitting.plates == (size,) for each in whole[len(booked) :])
    assert problems(more, DAY, whole) == ()
    assert oracle.sound(more, DAY, whole)
    assert len(whole) - len(booked) <= bound


def hands_before(bench, whole, until):
    """The most hands at work at any minute before `until`, counted minute by minute."""
    held = [each for booked in whole for each in oracle.intervals(bench, booked) if each[0] == "operators"]
    return max(
        (
            sum(amount for _, begin, end, amount in held if begin <= minute < end)
            for minute in range(max(0, until))
        ),
        default=0,
    )


@pytest.mark.parametrize("come", [30, 60, 100])
def test_an_assistant_is_not_at_work_before_coming(come):
    bench = Bench(operators=2, wash_places=8)

    whole, _ = most_further(asked(bench=bench, absent_until=come, **MORNING), (), 0.06)

    assert hands_before(bench, whole, come) == 1
    assert hands_before(bench, whole, DAY.closes) == 2


def test_an_assistant_adds_no_more_than_an_operator_and_nothing_who_comes_at_closing():
    early, late = (
        further(what_if(asked(**MORNING), assistant_from=come, patience=600)) for come in (0, NEVER)
    )

    assert early["none"] < early["assistant"] == early["operators+1"]
    assert late["none"] == late["assistant"]


def test_a_day_that_is_booked_takes_fewer_than_an_empty_one():
    booked = random_day(3, requests=6)

    assert len(most_further(asked(booked), tuple(booked), 0.01)[0]) > len(booked)
    assert most_bound_further(asked(booked)) < most_bound_further(asked())


def test_the_bound_counts_the_hands_that_promises_take():
    # By hand: of 480 minutes each sitting of two plates takes 24 (settle 4, twice 9, farewell 2), one of one plate 15.
    one = with_one(asked(), 0, LONG).booked[0]
    two = replace(one.sitting, plates=(QUARTER, QUARTER))
    twice = replace(one, sitting=two, plan=replace(one.plan, plates=one.plan.plates * 2))

    assert most_bound_further(asked([twice, twice], Bench(wash_places=20))) == 28


def test_a_sitting_under_way_stays_as_it_is():
    booked = tuple(replace(each, begun=True) for each in random_day(3, requests=6))

    whole, _ = most_further(asked(booked), booked, 0.06)

    assert whole[: len(booked)] == booked
    assert len(whole) > len(booked)


def test_only_the_given_starts_are_promised():
    whole, _ = most_further(asked(starts=(120, 300)), (), LONG)

    assert {each.sitting.start for each in whole} == {120, 300}
    assert most_further(asked(starts=()), (), LONG) == ((), 0)


def test_no_more_than_there_is_chemistry_for():
    assert further(what_if(asked(in_stock=2), assistant_from=0)) == dict.fromkeys(
        ("none", "assistant", "operators+1", "tank_places+1", "wash_places+1"), 2
    )


def test_what_does_not_fit_the_tank_is_made_no_times():
    large = Size("whole", 2, (165.0, 216.0))

    found = what_if(asked(bench=Bench(largest_mm=(83.0, 108.0)), size=large), assistant_from=0)

    assert {(each.sittings, each.proven) for each in found} == {(0, True)}


def test_a_bench_that_has_as_many_as_it_can_is_not_changed_further():
    full = Bench(operators=MOST_HANDS, tank_places=MOST_TANK_PLACES, wash_places=MOST_WASH_PLACES)

    assert [change.name for change in changes(full, 0)] == ["none"]


def test_each_change_is_one_more_of_one_thing():
    found = {
        change.name: (
            change.bench.operators,
            change.bench.tank_places,
            change.bench.wash_places,
            change.absent_until,
        )
        for change in changes(Bench(), 240)
    }

    assert found == {
        "none": (1, 1, 6, None),
        "assistant": (2, 1, 6, 240),
        "operators+1": (2, 1, 6, None),
        "tank_places+1": (1, 2, 6, None),
        "wash_places+1": (1, 1, 7, None),
    }


def test_no_change_is_begun_when_the_time_is_up_and_the_answer_goes_on_where_it_stood():
    ticks = iter([0.0, 5.0])
    day = asked(bench=Bench(wash_places=2), starts=(0, 15))

    first = what_if(day, assistant_from=0, patience=5.0, clock=lambda: next(ticks))
    rest = what_if(day, assistant_from=0, patience=600)

    assert [each.change for each in first] == ["none"]
    assert rest[0] == first[0]
    assert len(rest) == 5


def test_what_is_not_decided_is_not_called_proven():
    assert not StillToSell("none", 7, 8).proven
    assert StillToSell("none", 8, 8).proven


def test_without_time_for_the_solver_only_gaps_are_counted():
    whole, bound = most_further(asked(), (), 1e-7)

    # Insertion alone reaches 21 sittings of 30 at whole minutes (reference: capacity research s.5b).
    assert 0 < len(whole) < bound
