"""What each taste falls back to where its own way is taken. Expected minutes by hand from design page s.3.

Alone and as soon as may be, a plate is poured 4-6, in the bath from 6, and with 3 minutes of it loaded at 9, exposed
10-12, developed 12-14, fixed 14-16, washed from 16 and lifted at 76; the sitter leaves from 16 to 18.
"""

from dataclasses import replace

import pytest

from plates.capacity import Bench, Booked, Sitting, Span, Timings
from plates.capacity.gaps.bitset import Room
from plates.capacity.gaps.placing import Placing
from plates.capacity.gaps.reading import Taste, has, read_plan
from plates.capacity.problem.timeline import Occupation
from tests.plates.capacity import oracle
from tests.plates.capacity.days import DAY, QUARTER

BENCH = Bench(tolerance=0)


def read(taste, *hands, bench=BENCH, order=(QUARTER,), wash=(), opens=0):
    """The plan of a sitter settled at the opening, with the hands and wash places taken in these minutes."""
    taken = [Occupation("operator", *minutes, 1, "settle", None) for minutes in hands]
    taken += [Occupation("wash", *minutes, "wash", 0) for minutes in wash]
    room = Room(opens, 555).plus(
        each._replace(begin=opens + each.begin, end=opens + each.end) for each in taken
    )
    day = replace(DAY, opens=opens, closes=opens + 480, racks_empty_by=opens + 555)
    placing = Placing(bench, day, room, order)
    return read_plan(placing, 0, taste) if has(placing.starts, 0) else None


def minutes(*taken):
    return [(minute, minute + 1) for minute in taken]


@pytest.mark.parametrize(("pour", "minute"), [("soon", 4), ("settle", 4), ("late", 7)])
def test_a_pour_that_cannot_wait_for_another_sitter_comes_as_soon_as_it_may(pour, minute):
    # No two free minutes together from 8 on, until 14.
    plan = read(Taste(pour=pour), *minutes(9, 11, 13))

    assert plan.plates[0].pour == minute


def test_a_pour_that_waits_for_another_sitter_comes_at_the_first_minute_after_that():
    assert read(Taste(pour="settle"), (8, 9)).plates[0].pour == 9


@pytest.mark.parametrize(("farewell", "minute"), [("soon", 16), ("pour", 16), ("late", 17)])
def test_a_farewell_that_cannot_wait_for_a_pour_comes_at_once(farewell, minute):
    plan = read(Taste(farewell=farewell), *minutes(19, 21))

    assert plan.farewell == minute


@pytest.mark.parametrize("farewell", ["soon", "pour", "late"])
def test_a_farewell_that_has_one_minute_left_comes_then(farewell):
    assert read(Taste(farewell=farewell), *minutes(16, 19, 21)).farewell == 17


def test_the_next_plate_is_poured_when_a_hand_is_free_after_the_fix():
    assert read(Taste(), (16, 20), order=(QUARTER, QUARTER)).plates[1].pour == 20


def test_a_farewell_that_waits_for_a_pour_comes_at_the_first_minute_after_that():
    assert read(Taste(farewell="pour"), (18, 19)).farewell == 19


@pytest.mark.parametrize(
    ("baths", "taken", "bath"),
    [
        ("short", [9], 4), ("short", [9, 10], 5),
        ("settle", [10], 5), ("settle", [10, 11], 3),
        ("long", [11], 4), ("long", [10, 11], 3),
    ],
)  # fmt: skip
def test_a_bath_ends_when_a_hand_is_free_to_load(baths, taken, bath):
    plate = read(Taste(baths=baths), *minutes(*taken)).plates[0]

    assert plate.tank_out - plate.tank_in == bath


def test_the_steps_wait_for_free_hands_and_no_longer():
    # Taken at 10: exposed from 11, all else follows at once.
    plate = read(Taste(), (10, 11)).plates[0]

    assert (plate.tank_out, plate.expose, plate.develop, plate.fix, plate.wash_in) == (9, 11, 13, 15, 17)


LIFTS = {
    "beside the work before it": ([(74, 76), (85, 87)], 76),
    "beside the work after it": ([(85, 87)], 84),
    "as late as beside work may be": ([(91, 93)], 90),
    "beside no work that comes later still": ([(92, 94)], 76),
    "when a hand is free again": ([(76, 100)], 100),
    "when the wash must end at the latest": ([(76, 136)], 136),
}


@pytest.mark.parametrize(("hands", "minute"), LIFTS.values(), ids=LIFTS)
@pytest.mark.parametrize("opens", [0, 600])
def test_a_plate_is_lifted(hands, minute, opens):
    plan = read(Taste(), *hands, opens=opens)

    assert plan.plates[0].lift - opens == minute


def test_no_plate_is_washed_longer_than_it_may():
    # By hand: poured 12-14, loaded at 19, developed until 27, fixed 29-31 at the latest, and 120 minutes from 31.
    assert read(Taste(), (76, 151)).plates[0].lift == 151
    assert read(Taste(), (76, 152)) is None


@pytest.mark.parametrize(("free_until", "lift"), [(89, None), (90, 90), (91, 90)])
def test_a_plate_is_lifted_before_another_needs_its_place(free_until, lift):
    plan = read(Taste(), (76, 90), bench=replace(BENCH, wash_places=1), wash=[(free_until, 200, 1)])

    assert (plan and plan.plates[0].lift) == lift


def test_a_plate_does_not_wait_for_other_work_in_a_place_that_another_needs():
    plan = read(Taste(), (85, 87), bench=replace(BENCH, wash_places=1), wash=[(80, 200, 1)])

    assert plan.plates[0].lift == 76


def test_a_lift_of_three_minutes_fits_between_other_work_as_a_whole():
    slow = replace(BENCH, timings=Timings(lift=3))

    # Free are 76-78, which is too short, and 80-84: beside the work before it.
    assert read(Taste(), (78, 80), (84, 90), bench=slow).plates[0].lift == 80
    # Beside the work that begins at 85.
    assert read(Taste(), (85, 87), bench=slow).plates[0].lift == 82


QUICK = Timings(wash=Span(12, 20))


@pytest.mark.parametrize(("operators", "lifts"), [(1, (30, 40)), (2, (24, 36))])
def test_a_lift_never_falls_on_the_own_work_of_one_pair_of_hands(operators, lifts):
    # One pair of hands: washed from 16 and from 28, and when the first may be lifted, at 28, the sitter is seen off
    # until 30. Two pairs: the first is poured while the sitter is settled, so washed from 12, and lifted at 24 beside
    # the farewell.
    bench = replace(BENCH, operators=operators, timings=QUICK)
    plan = read(Taste(), bench=bench, order=(QUARTER, QUARTER))

    assert oracle.sound(bench, DAY, [Booked(Sitting(0, (QUARTER, QUARTER)), plan)])
    assert tuple(plate.lift for plate in plan.plates) == lifts
