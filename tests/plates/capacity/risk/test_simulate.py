"""Played days against a second reading of the rules, against the plan, and against what a bench has."""

from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from plates.capacity import Bench, Booked, Sitting
from plates.capacity.exact.replan import lay_out
from plates.capacity.risk.draws import drawn, keys_of
from plates.capacity.risk.ordering import order_of
from plates.capacity.risk.simulate import play
from plates.capacity.risk.values import Chances
from tests.plates.capacity.days import DAY, QUARTER, WHOLE, random_day
from tests.plates.capacity.oracle import peak
from tests.plates.capacity.risk.plain_play import PlainDay

NO_CHANCE = Chances(retake=0, no_show=0, spread=0, late_sd=0)
ROUGH = Chances(retake=0.4, no_show=0.2, spread=0.5, late_sd=8)
BENCHES = [
    Bench(operators=operators, tank_places=tanks, wash_places=washes, sitters_at_once=sitters)
    for operators, tanks, washes, sitters in
    ((1, 1, 6, 3), (1, 1, 2, 1), (1, 2, 4, 2), (2, 1, 6, 3), (2, 2, 10, 4), (3, 2, 12, 3))
]  # fmt: skip


def braided_day(bench):
    """A day as close as the exact model packs it, with every kind of weaving."""
    pairs = [Sitting(start, (QUARTER, QUARTER)) for start in (0, 0, 75, 75, 150, 150)]
    lone = [Sitting(start, (WHOLE,)) for start in (240, 240, 275, 280, 315, 330)]
    sittings = [*pairs, *lone]
    plans = lay_out(bench, DAY, sittings).plans
    return [Booked(*each) for each in zip(sittings, plans, strict=False)]


@cache
def some_days(bench):
    days = [random_day(seed, bench, requests=9) for seed in range(2)]
    braided = braided_day(bench)
    return [*days, braided] if braided else days


def lucky(bench, booked, chances, days, seed=5):
    return drawn(bench.timings, booked, keys_of(booked, DAY.opens), chances, days, seed)


def plain_days(bench, booked, chances, days):
    order, luck = order_of(bench, booked), lucky(bench, booked, chances, days)
    return [PlainDay(bench, DAY.opens, order, luck, day).play() for day in range(days)]


@cache
def rough_days(bench):
    """Played days with those they were planned as."""
    return [(booked, plain) for booked in some_days(bench) for plain in plain_days(bench, booked, ROUGH, 8)]


def test_the_closely_packed_day_can_be_planned_on_most_benches():
    assert sum(len(some_days(bench)) > 2 for bench in BENCHES) >= 3


@pytest.mark.parametrize("bench", BENCHES)
@pytest.mark.parametrize("chances", [NO_CHANCE, Chances(), ROUGH])
def test_all_days_at_once_are_the_days_one_by_one(bench, chances):
    for booked in some_days(bench):
        played = play(bench, DAY.opens, order_of(bench, booked), lucky(bench, booked, chances, 12))
        for day, plain in enumerate(plain_days(bench, booked, chances, 12)):
            for trace in ("settled", "gone", "fixed", "bath", "wet", "lifted", "racked"):
                for number, minute in getattr(plain, trace).items():
                    assert getattr(played, trace)[number][day] == pytest.approx(minute, abs=1e-5)


@pytest.mark.parametrize("bench", BENCHES)
def test_without_chance_every_turn_begins_no_later_than_planned(bench):
    for booked in some_days(bench):
        [plain] = plain_days(bench, booked, NO_CHANCE, 1)
        planned = {}
        for number, each in enumerate(booked):
            planned |= {
                ("settle", number, -1): each.plan.settle,
                ("farewell", number, -1): each.plan.farewell,
            }
        plates = [plate for each in booked for plate in each.plan.plates]
        for step, number, plate, _, begin, _ in plain.work:
            at = planned[step, number, -1] if plate < 0 else minute_of(plates[plate], step)
            assert begin <= at


def minute_of(plan, step):
    return plan.tank_out if step == "load" else getattr(plan, step)


def work_of(plain, step):
    return {
        (number, plate): (begin, end) for each, number, plate, _, begin, end in plain.work if each == step
    }


@pytest.mark.parametrize("bench", BENCHES)
def test_no_hands_do_two_things_at_once(bench):
    for _, plain in rough_days(bench):
        for hand in range(bench.operators):
            own = sorted((begin, end) for _, _, _, who, begin, end in plain.work if who == hand)
            assert all(end <= begin for (_, end), (begin, _) in pairwise(own))


def baths(plain):
    """Each stay in the tank; of a plate made again the last one."""
    for plate, bath in plain.bath.items():
        out = plain.began["load", plate]
        yield out - bath, out, 1
    for (_, plate), (begin, end) in work_of(plain, "again").items():
        tries, luck = plain.again(plate), plain.plates[plate]
        each = (end - begin) / tries
        poured = float(luck.work["pour"][plain.day])
        for number in range(tries):
            into = begin + number * each + poured
            yield into, into + plain.times.sensitise.least, 1


def held_at_once(stays):
    """Ends are rounded so that a place handed on is not counted twice."""
    return peak([(round(begin, 6), round(end, 6), places) for begin, end, places in stays])


@pytest.mark.parametrize("bench", BENCHES)
def test_tank_and_wash_never_hold_more_than_they_have_places(bench):
    for booked in some_days(bench):
        sizes = [size for each in booked for size in each.sitting.plates]
        for plain in plain_days(bench, booked, ROUGH, 8):
            assert held_at_once(baths(plain)) <= bench.tank_places
            washes = [
                (lifted - bench.timings.wash.least, lifted, sizes[plate].wash_places)
                for plate, lifted in plain.lifted.items()
            ]
            assert held_at_once(washes) <= bench.wash_places


@pytest.mark.parametrize("bench", BENCHES)
def test_nothing_is_done_before_what_it_needs(bench):
    for booked, plain in rough_days(bench):
        settled, farewell = work_of(plain, "settle"), work_of(plain, "farewell")
        for (sitting, _), (begin, end) in settled.items():
            assert begin >= booked[sitting].sitting.start
            assert begin >= float(plain.luck[sitting].arrived[plain.day])
            own = plain.own(sitting)
            for plate in own:
                pour, load, expose, develop, fix = (
                    work_of(plain, step)[sitting, plate]
                    for step in ("pour", "load", "expose", "develop", "fix")
                )
                assert begin <= pour[0]
                assert end <= expose[0]
                assert pour[1] + bench.timings.sensitise.least <= load[0]
                assert load[1] <= expose[0]
                assert expose[1] <= develop[0]
                assert develop[1] <= fix[0]
                assert fix[1] <= plain.fixed[plate] <= plain.lifted[plate] - bench.timings.wash.least + 1e-9
            assert farewell[sitting, -1][0] >= max(plain.fixed[plate] for plate in own)


@pytest.mark.parametrize("bench", BENCHES)
def test_everybody_who_came_is_served_and_every_plate_racked_once(bench):
    for booked, plain in rough_days(bench):
        here = [number for number in range(len(booked)) if plain.came(number)]
        plates = [plate for number in here for plate in plain.own(number)]
        assert sorted(plain.settled) == sorted(plain.gone) == here
        assert sorted(plain.racked) == sorted(plates)
        steps = [(step, number, plate) for step, number, plate, *_ in plain.work if step != "again"]
        assert len(steps) == len(set(steps)) == 2 * len(here) + 6 * len(plates)


def test_hands_wait_for_a_late_sitter_only_as_long_as_a_bath_may_be_stretched():
    # The second sitter is to be settled at 106, while the plate of the first lies in the bath.
    sittings = [Sitting(100, (QUARTER,)), Sitting(105, (QUARTER,))]
    booked = [Booked(*each) for each in zip(sittings, lay_out(Bench(), DAY, sittings).plans, strict=True)]
    first, second = booked[0].plan, booked[1].plan
    assert (first.plates[0].tank_in, second.settle, first.plates[0].tank_out) == (106, 106, 110)
    luck = lucky(Bench(), booked, NO_CHANCE, 7)
    arrived = np.array([95.0, 105, 106, 108, 108.5, 112, 130])

    played = play(Bench(), 0, order_of(Bench(), booked), [luck[0], replace(luck[1], arrived=arrived)])

    # By hand: waited for until 108. Else the plate is loaded at 109, exposed, developed and
    # fixed by 116; from then on the second is settled when there, as the farewell stands after that sitter's pour.
    assert played.settled[1].tolist() == [106, 106, 106, 108, 116, 116, 130]
    assert played.bath[0].tolist() == [4, 4, 4, 6, 3, 3, 3]
    assert played.gone[0].tolist() == [121, 121, 121, 123, 124, 124, 138]
