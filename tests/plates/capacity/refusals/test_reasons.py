"""A refusal explained by a resource flips when that resource is relaxed."""

from dataclasses import replace

import pytest

from plates.capacity import Bench, Booked, Day, PlatePlan, Sitting, SittingPlan, admit, openings
from plates.capacity.refusals.reasons import longest
from tests.plates.capacity.days import DAY, QUARTER, WHOLE, random_day

RELAXED = {
    "operators+1": lambda bench, day: (replace(bench, operators=bench.operators + 1), day),
    "tank_places+1": lambda bench, day: (replace(bench, tank_places=bench.tank_places + 1), day),
    "wash_places+1": lambda bench, day: (replace(bench, wash_places=bench.wash_places + 1), day),
    "tolerance+5": lambda bench, day: (replace(bench, tolerance=bench.tolerance + 5), day),
    "closes+15": lambda bench, day: (bench, replace(day, closes=day.closes + 15)),
    "sitters_at_once+1": lambda bench, day: (replace(bench, sitters_at_once=bench.sitters_at_once + 1), day),
}
RESOURCE = {
    "operator": "operators+1",
    "tank": "tank_places+1",
    "wash": "wash_places+1",
    "sitters": "sitters_at_once+1",
    "closing": "closes+15",
}
BUSY = [
    ("hands", Bench(), 0, {}),
    ("wash", Bench(operators=3, tank_places=2, wash_places=2, sitters_at_once=9), 1, {}),
    ("sitters", Bench(operators=3, tank_places=3, wash_places=20, sitters_at_once=1), 2, {}),
    ("tank", Bench(operators=4, wash_places=30, sitters_at_once=9, tolerance=0), 3, {"requests": 60}),
]


@pytest.mark.parametrize(
    ("bench", "seed", "more"), [each[1:] for each in BUSY], ids=[each[0] for each in BUSY]
)
def test_the_change_a_refusal_names_admits_the_start_and_no_refused_start_is_admitted_unchanged(
    bench, seed, more
):
    booked = random_day(seed, bench, **more)
    refused = openings(bench, DAY, booked, (QUARTER,)).refused

    assert refused
    for refusal in refused:
        asked = Sitting(refusal.start, (QUARTER,))
        assert admit(bench, DAY, booked, asked).refusal == refusal
        for name, change in RELAXED.items():
            lifted = bool(admit(*change(bench, DAY), booked, asked).plans)
            assert lifted or refusal.lifted_by != name
            assert not lifted or refusal.lifted_by is not None


@pytest.mark.parametrize(
    ("bench", "seed", "more"), [each[1:] for each in BUSY], ids=[each[0] for each in BUSY]
)
def test_the_reason_and_the_change_speak_of_the_same_resource(bench, seed, more):
    booked = random_day(seed, bench, **more)
    refused = openings(bench, DAY, booked, (QUARTER,)).refused

    named = {(each.why, each.lifted_by) for each in refused if each.lifted_by in RESOURCE.values()}

    assert named
    assert all(RESOURCE[why] == lifted_by for why, lifted_by in named)


@pytest.mark.parametrize(("why", "bench", "seed", "more"), [
    ("operator", *BUSY[0][1:]), ("wash", *BUSY[1][1:]), ("sitters", *BUSY[2][1:]), ("tank", *BUSY[3][1:]),
])  # fmt: skip
def test_each_resource_is_found_where_it_binds(why, bench, seed, more):
    booked = random_day(seed, bench, **more)

    assert why in {each.why for each in openings(bench, DAY, booked, (QUARTER,)).refused}


def lone(start, **steps):
    plate = PlatePlan(
        start + 4, start + 6, start + 9, start + 10, start + 12, start + 14, start + 16, start + 76
    )
    return Booked(Sitting(start, (QUARTER,)), SittingPlan(start, start + 16, (replace(plate, **steps),)))


def test_the_minutes_of_a_refusal_are_those_in_which_the_hands_are_taken():
    # By hand: busy 30-36 and 39-48, and a gap of 3 in which no sitter can be settled.
    refusal = admit(Bench(tolerance=0), DAY, [lone(30)], Sitting(30, (QUARTER,))).refusal

    assert (refusal.why, refusal.begin, refusal.end) == ("operator", 30, 48)


def test_the_minutes_of_a_full_wash_are_those_in_which_every_place_is_held():
    # By hand: the only wash place is held from 46 to 106, and a plate of 45 would need it from 61.
    bench = Bench(operators=2, wash_places=1)
    refusal = admit(bench, DAY, [lone(30)], Sitting(45, (QUARTER,))).refusal

    assert (refusal.why, refusal.lifted_by, refusal.end) == ("wash", "wash_places+1", 106)
    assert refusal.begin >= 46


def test_the_nearest_starts_are_named_in_the_order_of_the_day():
    refusal = admit(Bench(tolerance=0), DAY, [lone(30)], Sitting(30, (QUARTER,))).refusal
    free = openings(Bench(tolerance=0), DAY, [lone(30)], (QUARTER,)).starts

    assert refusal.nearest == (0, 60, 75)
    assert set(refusal.nearest) <= set(free)


@pytest.mark.parametrize(
    ("asked", "day", "why", "lifted_by"),
    [
        (Sitting(465, (QUARTER,)), DAY, "closing", "closes+15"),
        (Sitting(450, (QUARTER,)), Day(0, 480, 500), "racks", None),
        (Sitting(7, (QUARTER,)), DAY, "grid", None),
        (Sitting(-15, (QUARTER,)), DAY, "opening", None),
        (Sitting(0, (WHOLE,) * 3), DAY, "wash", "wash_places+1"),
    ],
)
def test_a_bound_is_named_with_what_would_lift_it(asked, day, why, lifted_by):
    refusal = admit(Bench(wash_places=5), day, [], asked).refusal

    assert (refusal.why, refusal.lifted_by) == (why, lifted_by)


def test_the_longest_stretch_is_the_first_of_equals():
    assert longest(0b0110_0111_0111) == (0, 3)
    assert longest(0b1111_0111) == (4, 8)
    assert longest(0) == (0, 0)
