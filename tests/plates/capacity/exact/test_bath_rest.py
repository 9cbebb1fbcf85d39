"""The rest of the silver bath, against every plan of tiny days and against a count minute by minute."""

import random
from dataclasses import replace
from itertools import product

import pytest

from plates.capacity import BathRest, Bench, Booked, CapacityValueError, Day, Sitting, admit, problems
from plates.capacity.exact.fill import Asked
from plates.capacity.exact.most import most
from plates.capacity.exact.replan import lay_out
from plates.capacity.what_if import what_if
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER, random_day
from tests.plates.capacity.every_plan import held, sitting_plans
from tests.plates.capacity.exact.test_replan import tiny_day
from tests.plates.capacity.lone import LONE

RESTING = Bench(rest=BathRest(plates=2, minutes=40))


def most_between_rests(booked, minutes):
    """Plates put in between two stretches of `minutes` in which nothing is in the tank: counted minute by minute."""
    plates = [plate for each in booked for plate in each.plan.plates]
    taken = {minute for plate in plates for minute in range(plate.tank_in, plate.tank_out)}
    found, count, idle = 0, 0, 0
    for minute in range(min(taken), max(taken) + 1) if taken else ():
        idle = 0 if minute in taken else idle + 1
        count = 0 if idle >= minutes else count
        count += sum(plate.tank_in == minute for plate in plates)
        found = max(found, count)
    return found


def rested(bench, booked):
    return bench.rest is None or most_between_rests(booked, bench.rest.minutes) <= bench.rest.plates


def test_the_verifier_names_the_plate_that_comes_too_soon():
    bench = replace(Bench(operators=2, tank_places=2), rest=BathRest(1, 18))

    # By hand (lone.py): the first plate leaves the tank at 110, the second goes in at 127.
    [fault] = problems(bench, DAY, [LONE])
    assert fault == (
        "All sittings: the bath takes plate 2 without a rest at minute 127,"
        " after 1 it rests 18 minutes, until 128."
    )


def test_a_pause_as_long_as_the_rest_is_a_rest():
    bench = replace(Bench(operators=2, tank_places=2), rest=BathRest(1, 17))

    assert problems(bench, DAY, [LONE]) == ()


@pytest.mark.parametrize("seed", range(2))
def test_what_is_sold_by_gaps_rests(seed):
    busy = {"requests": 24, "sizes": (QUARTER,), "counts": (1, 1, 2)}

    assert most_between_rests(random_day(seed, RESTING, **busy), 40) <= 2
    assert most_between_rests(random_day(seed, Bench(), **busy), 40) > 2


def tiny_resting_day(seed):
    bench, day, sittings = tiny_day(seed)
    chance = random.Random(seed + 1000)
    return replace(bench, rest=BathRest(chance.randint(1, 2), chance.randint(2, 5))), day, sittings


def baths(booked):
    return tuple((plate.tank_in, plate.tank_out) for plate in booked.plan.plates)


def some_rested_day(bench, day, sittings):
    """Whether some plans of both sittings go together and rest: each tried that differs in what it holds."""
    one, other = (
        {(held(bench, each), baths(each)): each for each in sitting_plans(bench, day, sitting)}.values()
        for sitting in sittings
    )
    resting = {
        (baths(a), baths(b)): rested(bench, [a, b])
        for a, b in product(
            {baths(each): each for each in one}.values(), {baths(each): each for each in other}.values()
        )
    }
    return any(
        resting[baths(a), baths(b)] and oracle.sound(bench, day, [a, b]) for a, b in product(one, other)
    )


def test_tiny_days_that_rest_are_possible_exactly_when_some_plan_of_all_plans_is():
    days = [tiny_resting_day(seed) for seed in range(40)]
    # Two sittings of a plate each: of three, or of several plates, there are too many plans to try them all.
    days = [each for each in days if [len(sitting.plates) for sitting in each[2]] == [1, 1]]
    found = [lay_out(*each) for each in days]

    assert [bool(each.plans) for each in found] == [some_rested_day(*each) for each in days]
    assert all(bool(each.plans) != each.impossible and not each.unknown for each in found)
    bound = [each for each, (bench, *rest) in zip(found, days, strict=True)
             if each.impossible and lay_out(replace(bench, rest=None), *rest).plans]  # fmt: skip
    assert bound, "some day must be impossible for its rest alone"


def test_the_rest_is_named_where_it_alone_refuses():
    # Eight sittings of a plate stand close together; one rest after two plates is longer than the day.
    bench = replace(Bench(), rest=BathRest(2, 400))
    booked = []
    for start in (0, 30):
        asked = Sitting(start, (QUARTER,))
        plans = admit(bench, DAY, booked, asked).plans
        booked = [
            Booked(each, plan)
            for each, plan in zip([*(b.sitting for b in booked), asked], plans, strict=True)
        ]

    refused = admit(bench, DAY, booked, Sitting(120, (QUARTER,))).refusal

    assert (refused.why, refused.begin, refused.lifted_by) == ("rest", 120, None)


def test_the_most_of_a_day_rests():
    short = Day(0, 120, 200)
    tired = replace(Bench(), rest=BathRest(2, 40))

    found = most(tired, short, (QUARTER,), seconds=2)

    assert found.plan
    assert most_between_rests(found.plan, 40) <= 2
    assert len(found.plan) < len(most(Bench(), short, (QUARTER,), seconds=2).plan)


def test_what_a_change_would_sell_rests_too():
    bench = replace(Bench(), rest=BathRest(2, 60))
    booked = tuple(random_day(3, bench, requests=3, counts=(1,), sizes=(QUARTER,)))
    asked = Asked(bench, DAY, booked, QUARTER, tuple(range(0, 480, 15)))

    as_it_stands = what_if(asked, assistant_from=240, patience=0)[0]

    resting = 480 // (60 + 2 * 8) + 1
    assert 0 < as_it_stands.sittings + len(booked) <= 2 * resting


@pytest.mark.parametrize(("plates", "minutes"), [(0, 10), (3, 0)], ids=["no plates", "no minutes"])
def test_a_rest_that_is_none_is_refused(plates, minutes):
    with pytest.raises(CapacityValueError, match=r"rest\.(plates|minutes): must be from 1"):
        BathRest(plates, minutes)
