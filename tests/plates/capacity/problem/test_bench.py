"""The values refuse what no bench can be. Limits: design page s.3; the upper limits are the project's own choice."""

import pytest

from plates.capacity import Bench, Budget, CapacityValueError, Day, Sitting, Size, Span, Timings
from tests.plates.capacity.days import QUARTER

IMPOSSIBLE = [
    (lambda: Span(5, 3), "most: must not be below least"),
    (lambda: Span(0, 3), "least: must be from 1 to 1440"),
    (lambda: Timings(settle=-1), "settle: must be from 0 to 240"),
    (lambda: Timings(pour=0), "pour: must be from 1 to 240"),
    (lambda: Timings(expose=True), "expose: must be a whole number"),
    (lambda: Timings(fix=2.0), "fix: must be a whole number"),
    (lambda: Timings(wash=60), "wash: must be a span of minutes"),
    (lambda: Timings(sensitise=Span(3, 300)), "sensitise: must be up to 240 minutes"),
    (lambda: Timings(wet_window=4), "wet_window: must hold load, expose and develop together"),
    (lambda: Size(""), "name: must be 1 to 60 letters"),
    (lambda: Size("quarter", 0), "wash_places: must be from 1 to 200"),
    (lambda: Size("quarter", 1, (0.0, 10.0)), "sides_mm: must be sides above 0 and up to 5000 millimetres"),
    (
        lambda: Size("quarter", 1, (float("nan"), 1.0)),
        "sides_mm: must be sides above 0 and up to 5000 millimetres",
    ),
    (lambda: Size("quarter", 1, (83.0,)), "sides_mm: must be two sides in millimetres"),
    (lambda: Bench(operators=0), "operators: must be from 1 to 20"),
    (lambda: Bench(tank_places=21), "tank_places: must be from 1 to 20"),
    (lambda: Bench(tolerance=-1), "tolerance: must be from 0 to 240"),
    (lambda: Bench(timings=None), "timings: must be timings"),
    (
        lambda: Bench(timings=Timings(first_pour_within=3)),
        "first_pour_within: must reach past settle: one operator does both",
    ),
    (lambda: Day(480, 480, 555), "closes: must be from 481 to 4800"),
    (lambda: Day(0, 480, 0), "racks_empty_by: must be from 1 to 4320"),
    (lambda: Day(0, 480, 555, 0), "start_every: must be from 1 to 1440"),
    (lambda: Budget("", 3), "name: must be 1 to 60 letters"),
    (lambda: Budget("collodion", 3, {"quarter": -1}), "use.quarter: must be from 0 to 1000000000"),
    (lambda: Sitting(0, ()), "plates: must be 1 to 24 plates"),
    (lambda: Sitting(0, (QUARTER,) * 25), "plates: must be 1 to 24 plates"),
    (lambda: Sitting(0, ("quarter",)), "plates: must be plate sizes"),
]


@pytest.mark.parametrize(("make", "message"), IMPOSSIBLE)
def test_an_impossible_value_is_refused_by_its_field(make, message):
    with pytest.raises(CapacityValueError) as refused:
        make()

    assert str(refused.value) == message
    assert refused.value.field == message.partition(":")[0]


def test_two_operators_may_pour_while_the_sitter_is_settled():
    assert Bench(operators=2, timings=Timings(first_pour_within=0)).timings.first_pour_within == 0


def test_a_tank_takes_a_plate_either_way_round():
    bench = Bench(largest_mm=(130.0, 180.0))

    assert bench.tank_takes(Size("half", 1, (178.0, 127.0)))
    assert not bench.tank_takes(Size("whole", 2, (165.0, 216.0)))
    assert bench.tank_takes(Size("unmeasured"))


def test_a_size_that_a_budget_does_not_name_takes_one_unit():
    budget = Budget("collodion", 10, {"whole": 4})

    assert [budget.units(Size("whole")), budget.units(QUARTER)] == [4, 1]
