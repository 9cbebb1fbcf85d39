"""Necessary bounds against values computed by hand from the table of the design page s.3."""

import pytest

from plates.capacity import Bench, Budget, Day, Sitting, Size, Span, Timings
from plates.capacity.gaps.bounds import attended, head, impossible, shortest
from plates.capacity.gaps.most import most_bound
from plates.capacity.gaps.windows import latest_fixed, overloaded
from tests.plates.capacity.days import DAY, QUARTER, WHOLE

ONE = (QUARTER,)


def test_attended_minutes_are_those_of_the_page():
    # reference: capacity research s.5: 16 a single-plate sitting and 10 an extra plate, each with its lift of 1.
    assert [attended(Timings(), plates) + plates for plates in (1, 2, 3)] == [16, 26, 36]


def test_the_head_is_the_shortest_way_to_the_wash():
    # By hand: settle 4, pour 2, bath 3, load 1, expose 2, develop 2, fix 2; two operators pour while one settles.
    assert head(Timings(), 1) == 16
    assert head(Timings(), 2) == 12


def test_the_longest_way_to_the_last_fix_uses_every_wait():
    # By hand: 12 + 2 + 5 + 8 + 2 + 2; a further plate 11 after the fix starts, then 2 + 5 + 8 + 2.
    assert latest_fixed(Timings(), 1) == 31
    assert latest_fixed(Timings(), 2) == 59


def test_the_shortest_sitting_is_by_steps_or_by_hands():
    assert shortest(Bench(), 1) == 18
    assert shortest(Bench(), 3) == 33


REFUSED = [
    (Sitting(-15, ONE), DAY, ("opening", -15, 0)),
    (Sitting(7, ONE), DAY, ("grid", 7, 7)),
    (Sitting(0, (Size("mammoth", 7),)), DAY, ("size", 0, 0)),
    (Sitting(0, (Size("large", 1, (200.0, 260.0)),)), DAY, ("size", 0, 0)),
    (Sitting(465, ONE), DAY, ("closing", 480, 483)),
    (Sitting(450, ONE), Day(0, 480, 526), ("racks", 526, 527)),
    (Sitting(0, (WHOLE, WHOLE, WHOLE, WHOLE)), DAY, None),
    (Sitting(0, (Size("great", 4), Size("great", 4))), DAY, ("wash", 16, 76)),
    (Sitting(450, ONE), DAY, None),
    (Sitting(450, ONE), Day(0, 468, 527), None),
    (Sitting(450, ONE), Day(0, 467, 527), ("closing", 467, 468)),
    (Sitting(0, (Size("mammoth", 6),)), DAY, None),
]


@pytest.mark.parametrize(("asked", "day", "bound"), REFUSED)
def test_what_cannot_be_is_refused_with_its_minutes(asked, day, bound):
    found = impossible(Bench(largest_mm=(165.0, 216.0)), day, (), asked, ())

    assert found == bound


def test_a_budget_counts_the_booked_plates_too():
    budget = Budget("collodion", 5, {"whole": 4})
    others = (Sitting(60, (WHOLE,)),)

    assert impossible(Bench(), DAY, others, Sitting(0, ONE), [budget]) is None
    assert impossible(Bench(), DAY, others, Sitting(0, (QUARTER, QUARTER)), [budget]) == (
        "budget:collodion",
        0,
        0,
    )


def test_hands_asked_for_more_minutes_than_a_stretch_has_are_found():
    # By hand: attended 15 each; from 0 to 0 + 5 + 31 + 5 + 2 = 43 minutes, so two fit (30) and three do not (45).
    assert overloaded(Bench(), DAY, [Sitting(0, ONE)] * 2) is None
    assert overloaded(Bench(), DAY, [Sitting(0, ONE)] * 3) == ("operator", 0, 43)


def test_work_that_just_fills_a_stretch_is_no_proof():
    # By hand: a tolerance of 7 makes the stretch 45 minutes, three times 15.
    assert overloaded(Bench(tolerance=7), DAY, [Sitting(0, ONE)] * 3) is None
    assert overloaded(Bench(tolerance=6), DAY, [Sitting(0, ONE)] * 3) == ("operator", 0, 44)


def test_plates_that_may_follow_a_whole_wash_later_need_no_place_beside_it():
    # By hand: the next fix comes at most 11 + 2 + 5 + 8 + 2 = 28 later, the one after it 56 later.
    three = Sitting(0, (QUARTER,) * 3)
    for least, bound in ((56, None), (57, ("wash", 16, 73))):
        bench = Bench(wash_places=2, timings=Timings(wash=Span(least, 120)))
        assert impossible(bench, DAY, (), three, ()) == bound


def test_wash_places_asked_for_more_than_an_hour_each_are_found():
    # By hand: three plates need 180 minutes of one place between 12 and 10 + 5 + 31 + 120 = 166.
    sittings = [Sitting(start, ONE) for start in (0, 5, 10)]

    assert overloaded(
        Bench(operators=20, sitters_at_once=9, tank_places=9, wash_places=1), DAY, sittings
    ) == (
        "wash",
        12,
        166,
    )


def test_more_sitters_than_the_room_holds_are_found():
    bench = Bench(operators=20, tank_places=9, wash_places=9, sitters_at_once=1)

    # By hand: 14 minutes each with hands to spare, 43 minutes in all.
    assert overloaded(bench, DAY, [Sitting(0, ONE)] * 3) is None
    assert overloaded(bench, DAY, [Sitting(0, ONE)] * 4) == ("sitters", 0, 43)


# reference: capacity research s.5a (maxima computed and proven there with CP-SAT): wash places -> sittings.
MAXIMA = [
    (555, {2: 16, 4: 30, 6: 30, 8: 30, 10: 30}),
    (480, {2: 14, 4: 26, 6: 26, 8: 27, 10: 27}),
]


@pytest.mark.parametrize(("racks", "maxima"), MAXIMA)
def test_no_bound_lies_below_a_proven_maximum(racks, maxima):
    bounds = {places: most_bound(Bench(wash_places=places), Day(0, 480, racks), ONE) for places in maxima}

    assert all(bounds[places] >= maxima[places] for places in maxima)


def test_the_bounds_meet_the_proven_maxima_when_the_racks_empty_late():
    bounds = [most_bound(Bench(wash_places=places), DAY, ONE) for places in (2, 4, 6, 8)]

    assert bounds == [16, 30, 30, 30]


def test_two_operators_are_bound_by_the_wash():
    # reference: capacity research s.5a: two operators, rack 4 -> 28, 6 -> 42 (= wash bound), racks empty by 480.
    bounds = [most_bound(Bench(operators=2, wash_places=places), Day(0, 480, 480), ONE) for places in (4, 6)]

    assert bounds == [28, 42]


@pytest.mark.parametrize(
    ("bench", "plates", "budgets", "most"),
    [
        # By hand: the floor of 480 / 15 is 32; a bath of 60 minutes leaves 8 turns of the tank.
        (Bench(wash_places=40, timings=Timings(sensitise=Span(60, 60))), ONE, (), 8),
        # By hand: a sitting is at least 18 minutes, one sitter in the house: floor of 480 / 18.
        (Bench(sitters_at_once=1), ONE, (), 26),
        (Bench(), ONE, (Budget("silver", 11, {"quarter": 2}),), 5),
        (Bench(), ONE, (Budget("silver", -3),), 0),
        (Bench(), ONE, (Budget("silver", 0, {"quarter": 0}),), 30),
        (Bench(wash_places=1), (WHOLE,), (), 0),
        # By hand: places 6, two each: 3 at once, 8 turns.
        (Bench(), (WHOLE,), (), 24),
        (Bench(), (Size("mammoth", 6),), (), 8),
    ],
)
def test_the_least_of_all_bounds_counts(bench, plates, budgets, most):
    assert most_bound(bench, DAY, plates, budgets) == most
