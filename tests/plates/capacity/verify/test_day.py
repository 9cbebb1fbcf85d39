"""The verifier fails every mutated plan. The rules are those of the table in the design page s.3."""

from dataclasses import replace

import pytest

from plates.capacity import (
    Bench,
    Booked,
    Budget,
    Day,
    PlatePlan,
    Sitting,
    SittingPlan,
    Size,
    Timings,
    problems,
)
from tests.plates.capacity.days import DAY, QUARTER, WHOLE, random_day
from tests.plates.capacity.lone import BENCH, LONE, PLAN, later, moved


def test_a_sound_day_has_no_problems():
    assert problems(BENCH, DAY, [LONE]) == ()


MUTATIONS = [
    (None, {"settle": 99}, "Sitting 1: settle starts at minute 99, allowed from 100 to 105."),
    (None, {"settle": 106}, "Sitting 1: settle starts at minute 106, allowed from 100 to 105."),
    (0, {"pour": 99}, "Sitting 1, plate 1: the first pour starts at minute 99, allowed from 100 to 112."),
    (0, {"pour": 113}, "Sitting 1, plate 1: the first pour starts at minute 113, allowed from 100 to 112."),
    (1, {"pour": 105}, "Sitting 1, plate 2: the next pour starts at minute 105, allowed from 106 to 129."),
    (1, {"pour": 130}, "Sitting 1, plate 2: the next pour starts at minute 130, allowed from 106 to 129."),
    (0, {"tank_in": 107}, "Sitting 1, plate 1: sensitise starts at minute 107, allowed from 106 to 106."),
    (0, {"tank_in": 105}, "Sitting 1, plate 1: sensitise starts at minute 105, allowed from 106 to 106."),
    (0, {"tank_out": 108}, "Sitting 1, plate 1: sensitise ends at minute 108, allowed from 109 to 111."),
    (0, {"tank_out": 112}, "Sitting 1, plate 1: sensitise ends at minute 112, allowed from 109 to 111."),
    (0, {"expose": 110}, "Sitting 1, plate 1: expose starts at minute 110, allowed from 111 to 118."),
    (0, {"develop": 113}, "Sitting 1, plate 1: develop starts at minute 113, allowed from 114 to 118."),
    (
        0,
        {"develop": 117},
        "Sitting 1, plate 1: develop (wet window) ends at minute 119, allowed from 114 to 118.",
    ),
    (0, {"fix": 116}, "Sitting 1, plate 1: fix starts at minute 116, allowed from 117 to 119."),
    (0, {"fix": 120}, "Sitting 1, plate 1: fix starts at minute 120, allowed from 117 to 119."),
    (0, {"wash_in": 121}, "Sitting 1, plate 1: wash starts at minute 121, allowed from 120 to 120."),
    (0, {"lift": 179}, "Sitting 1, plate 1: wash ends at minute 179, allowed from 180 to 240."),
    (0, {"lift": 241}, "Sitting 1, plate 1: wash ends at minute 241, allowed from 180 to 240."),
    (None, {"farewell": 140}, "Sitting 1: farewell starts at minute 140, allowed from 141 to 146."),
    (None, {"farewell": 147}, "Sitting 1: farewell starts at minute 147, allowed from 141 to 146."),
    (1, {"expose": 113}, "Sitting 1, plate 2: expose at minute 113 overlaps the plate before it."),
]


@pytest.mark.parametrize(("plate", "steps", "sentence"), MUTATIONS)
def test_each_broken_lag_is_named(plate, steps, sentence):
    found = problems(BENCH, DAY, [moved(LONE, plate, **steps)])

    assert sentence in found


def test_an_exposure_before_the_sitter_is_settled_is_named():
    plan = moved(moved(LONE, settle=105), 0, pour=105, tank_in=107, tank_out=110, expose=111, develop=115)
    slow = replace(BENCH, timings=replace(BENCH.timings, settle=7))

    assert "Sitting 1, plate 1: expose at minute 111 comes before the sitter is settled." in problems(
        slow, DAY, [plan]
    )


@pytest.mark.parametrize(
    ("day", "sentence"),
    [
        (Day(0, 144, 555), "Sitting 1: farewell ends at minute 145, allowed from 0 to 144."),
        (Day(0, 480, 230), "Sitting 1, plate 2: lift ends at minute 231, allowed from 0 to 230."),
        (Day(101, 480, 555), "Sitting 1: the promised start is at minute 100, allowed from 101 to 480."),
        (Day(101, 480, 555), "Sitting 1: settle starts at minute 100, allowed from 101 to 480."),
    ],
)
def test_a_day_too_short_by_one_minute_is_named(day, sentence):
    assert sentence in problems(BENCH, day, [LONE])


@pytest.mark.parametrize(
    ("bench", "sentence"),
    [
        (Bench(), "Sittings 1, 2: operator needs 2 from minute 101 to 106, the bench has 1."),
        (Bench(), "Sittings 1, 2: operator needs 2 from minute 126 to 127, the bench has 1."),
        (Bench(operators=2), "Sittings 1, 2: tank needs 2 from minute 107 to 110, the bench has 1."),
        (
            replace(BENCH, wash_places=3),
            "Sittings 1, 2: wash needs 4 from minute 142 to 200, the bench has 3.",
        ),
        (
            replace(BENCH, sitters_at_once=1),
            "Sittings 1, 2: sitters needs 2 from minute 101 to 145, the bench has 1.",
        ),
    ],
)
def test_an_overload_by_one_is_named_with_its_minutes(bench, sentence):
    assert sentence in problems(bench, DAY, [LONE, later(LONE, 1)])


def test_a_whole_plate_counts_for_two_wash_places():
    whole = replace(LONE, sitting=Sitting(100, (WHOLE, WHOLE)))

    assert problems(replace(BENCH, wash_places=4), DAY, [whole]) == ()
    assert problems(replace(BENCH, wash_places=3), DAY, [whole]) == (
        "Sittings 1: wash needs 4 from minute 141 to 200, the bench has 3.",
    )


def test_a_plate_larger_than_the_tank_is_named():
    bench = replace(BENCH, largest_mm=(120.0, 170.0))
    large = Size("whole", 2, (165.0, 216.0))
    booked = replace(LONE, sitting=Sitting(100, (QUARTER, large)))

    assert problems(bench, DAY, [booked]) == (
        "Sitting 1, plate 2: sensitise at minute 127, but whole is larger than the tank.",
    )


def test_a_plate_just_as_large_as_the_tank_goes_in_and_one_longer_does_not():
    exact = Booked(Sitting(100, (QUARTER, Size("whole", 1, (165.0, 216.0)))), PLAN)

    assert problems(replace(BENCH, largest_mm=(216.0, 165.0)), DAY, [exact]) == ()
    assert len(problems(replace(BENCH, largest_mm=(215.0, 165.0)), DAY, [exact])) == 1
    assert len(problems(replace(BENCH, largest_mm=(216.0, 164.0)), DAY, [exact])) == 1


def test_steps_may_follow_each_other_without_a_minute_between():
    # By hand: settled until 107, exposed from 107 to 109, the next plate exposed from 109.
    close = (
        PlatePlan(
            pour=101, tank_in=103, tank_out=106, expose=107, develop=109, fix=111, wash_in=113, lift=173
        ),
        PlatePlan(
            pour=103, tank_in=105, tank_out=108, expose=109, develop=111, fix=113, wash_in=115, lift=175
        ),
    )
    bench = replace(Bench(operators=4, tank_places=2), timings=Timings(settle=7))

    assert (
        problems(bench, DAY, [Booked(Sitting(100, (QUARTER, QUARTER)), SittingPlan(100, 115, close))]) == ()
    )


def test_a_sitting_that_begins_when_an_overload_ends_is_not_named_for_it():
    bench = replace(BENCH, operators=9, tank_places=9, wash_places=20, sitters_at_once=1)
    crowd = [LONE, later(LONE, 1), later(LONE, 46)]

    assert problems(bench, DAY, crowd) == (
        "Sittings 1, 2: sitters needs 2 from minute 101 to 145, the bench has 1.",
    )
    assert problems(bench, DAY, [LONE, LONE, later(LONE, 45)]) == (
        "Sittings 1, 2: sitters needs 2 from minute 100 to 145, the bench has 1.",
    )


def test_a_lift_after_the_last_minute_of_the_day_is_named():
    assert problems(BENCH, Day(0, 150, 225), [LONE]) == (
        "Sitting 1, plate 2: lift ends at minute 231, allowed from 0 to 225.",
    )


def test_a_size_without_a_use_takes_one_unit():
    assert problems(BENCH, DAY, [LONE], [Budget("silver", 2)]) == ()
    assert problems(BENCH, DAY, [LONE], [Budget("silver", 1)]) == (
        "All sittings: silver needs 2 units, 1 are left.",
    )


def test_a_budget_overspent_by_one_is_named():
    budget = Budget("collodion", 5, {"quarter": 3})

    assert problems(BENCH, DAY, [LONE], [budget]) == ("All sittings: collodion needs 6 units, 5 are left.",)
    assert problems(BENCH, DAY, [LONE], [replace(budget, left=6)]) == ()


def test_swapping_the_plans_of_two_sittings_is_found():
    single = (QUARTER,)
    first, second, *others = random_day(3, counts=(1,), sizes=single)
    swapped = [replace(first, plan=second.plan), replace(second, plan=first.plan), *others]

    assert (first.sitting.plates, second.sitting.plates) == (single, single)
    assert problems(Bench(), DAY, [first, second, *others]) == ()
    assert problems(Bench(), DAY, swapped) != ()


def test_a_plan_far_outside_the_day_is_named_and_does_not_run_on():
    wild = moved(LONE, settle=-(2 * 10**9), farewell=2 * 10**9)

    assert "Sitting 1: settle starts at minute -2000000000, allowed from 100 to 105." in problems(
        BENCH, DAY, [wild]
    )


def test_an_overload_in_the_first_minutes_and_in_the_last_is_found():
    early = later(LONE, -100)
    day = Day(0, 480, 131)

    assert problems(BENCH, day, [early]) == ()
    assert problems(replace(BENCH, wash_places=3), day, [early, early])[-1] == (
        "Sittings 1, 2: wash needs 4 from minute 41 to 100, the bench has 3."
    )
    whole_day = Day(0, 45, 131)
    assert "Sittings 1, 2: operator needs 2 from minute 0 to 6, the bench has 1." in problems(
        replace(BENCH, operators=1), whole_day, [early, early]
    )
