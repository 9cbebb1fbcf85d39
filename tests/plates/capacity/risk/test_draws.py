"""What chance brings: means and spreads within four standard errors, and each sitting its own stream."""

from math import sqrt

import numpy as np
import pytest
from scipy import stats

from plates.capacity import Sitting, Timings
from plates.capacity.problem.timeline import Booked, PlatePlan, SittingPlan
from plates.capacity.risk.draws import OF_PLATE, drawn, keys_of
from plates.capacity.risk.values import Chances
from tests.plates.capacity.days import QUARTER

DAYS = 40_000
TIMES = Timings()


def booked_at(start, plates=1):
    plate = PlatePlan(*range(start, start + 8))
    return Booked(Sitting(start, (QUARTER,) * plates), SittingPlan(start, start + 20, (plate,) * plates))


def luck_of(booked, chances, seed=3, days=DAYS):
    return drawn(TIMES, booked, keys_of(booked, 0), chances, days, seed)


def within_four_errors(samples, exact):
    return abs(np.mean(samples) - exact) <= 4 * np.std(samples) / sqrt(len(samples))


@pytest.mark.parametrize("spread", [0.1, 0.25, 1.0])
def test_hand_work_has_the_planned_mean_and_the_spread_of_a_lognormal(spread):
    [sitter] = luck_of([booked_at(60)], Chances(no_show=0, spread=spread))
    work = {"settle": sitter.settle, "farewell": sitter.farewell, **sitter.plates[0].work}

    for step, minutes in work.items():
        planned = getattr(TIMES, step)
        assert within_four_errors(minutes, planned)
        # scipy.stats.kstest against the lognormal of that mean and coefficient of variation.
        sigma = sqrt(np.log1p(spread**2))
        fitting = stats.kstest(minutes, stats.lognorm(sigma, scale=planned * np.exp(-(sigma**2) / 2)).cdf)
        assert fitting.pvalue > 1e-4


def test_without_spread_work_takes_the_planned_minutes():
    [sitter] = luck_of([booked_at(60)], Chances(no_show=0, spread=0), days=5)

    assert [sitter.plates[0].work[step].tolist() for step in OF_PLATE] == [
        [float(getattr(TIMES, step))] * 5 for step in OF_PLATE
    ]


def test_sitters_come_about_their_time_or_not_at_all():
    [sitter] = luck_of([booked_at(60)], Chances(no_show=0.2, late_sd=6))

    assert within_four_errors(sitter.came, 0.8)
    assert stats.kstest(sitter.arrived, stats.norm(60, 6).cdf).pvalue > 1e-4
    assert not sitter.settle[~sitter.came].any()
    assert not sitter.plates[0].again[~sitter.came].any()


def test_a_plate_is_made_three_times_at_most():
    # By hand: a second try with chance q, a third with q * q.
    [sitter] = luck_of([booked_at(60)], Chances(no_show=0, retake=0.4))
    again = sitter.plates[0].again

    assert set(again) == {0, 1, 2}
    assert within_four_errors(again >= 1, 0.4)
    assert within_four_errors(again == 2, 0.16)


def test_two_sitters_of_one_start_have_each_their_own_luck():
    one, other = luck_of([booked_at(60), booked_at(60)], Chances(), days=2000)

    assert keys_of([booked_at(60), booked_at(60), booked_at(70)], 10) == ((50, 0), (50, 1), (60, 0))
    assert abs(np.corrcoef(one.arrived, other.arrived)[0, 1]) < 4 / sqrt(2000)


def test_luck_does_not_hang_on_who_else_is_booked_nor_on_further_plates():
    [alone] = luck_of([booked_at(60)], Chances(), days=50)
    _, among, _ = luck_of([booked_at(30), booked_at(60, plates=3), booked_at(90)], Chances(), days=50)

    assert np.array_equal(alone.arrived, among.arrived)
    assert np.array_equal(alone.plates[0].again, among.plates[0].again)
    assert all(np.array_equal(alone.plates[0].work[step], among.plates[0].work[step]) for step in OF_PLATE)
    assert not np.array_equal(among.plates[0].work["pour"], among.plates[1].work["pour"])
