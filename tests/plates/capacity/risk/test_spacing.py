"""Gaps that keep the promise, checked at the gaps beside them, and chemistry for retakes against scipy."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import comb

import pytest
from scipy import stats

from plates.capacity import Bench, CapacityValueError, Day, Size, problems
from plates.capacity.gaps.bounds import attended
from plates.capacity.risk.spacing import _Search, retake_budget, spacing
from plates.capacity.risk.values import Chances, objection
from tests.plates.capacity.days import DAY, QUARTER

TENTH = Chances(chance_limit=0.1)
NO_CHANCE = Chances(retake=0, no_show=0, spread=0, late_sd=0, chance_limit=0.1)


def searching(chances=TENTH, plates=1, days=2000):
    return _Search(Bench(), DAY, (QUARTER,) * plates, chances, days, 1)


@pytest.mark.parametrize("plates", [1, 2, 3])
def test_the_suggested_gap_keeps_the_promise_and_the_one_before_does_not(plates):
    found = spacing(Bench(), DAY, (QUARTER,) * plates, TENTH, days=2000, seed=1)
    search = searching(plates=plates)

    assert objection(found.risk, TENTH) is None
    assert all(search.keeps(found.gap + more) for more in range(3))
    assert not all(search.keeps(found.gap - 1 + more) for more in range(3))


def test_the_suggested_day_is_sound_and_full():
    found = spacing(Bench(), DAY, (QUARTER,), TENTH, days=500)

    starts = [each.sitting.start for each in found.booked]
    assert problems(Bench(), replace(DAY, start_every=1), found.booked) == ()
    assert starts == list(range(0, len(starts) * found.gap, found.gap))
    # By hand: a plate needs 18 minutes until the farewell is over, so nobody starts after 462.
    assert starts[-1] <= 462 < starts[-1] + found.gap


def test_longer_gaps_make_long_waits_rarer():
    # Common random numbers: the same luck for the first, the second and so on. What the plans differ in is left.
    search = searching(Chances())
    worst = []
    for gap in range(18, 46, 3):
        assert search.keeps(gap)
        worst.append(max(each.chance for each in search.tried[gap].risk.sitters))

    assert all(after <= before + 0.01 for before, after in pairwise(worst))
    assert worst[0] > 0.5 > 0.05 > worst[-1]


def test_a_stricter_promise_or_more_spoilt_plates_need_longer_gaps():
    gaps = [
        spacing(Bench(), DAY, (QUARTER,), chances, days=1000).gap
        for chances in (
            Chances(chance_limit=0.4),
            TENTH,
            Chances(chance_limit=0.02),
            Chances(chance_limit=0.02, retake=0.5),
        )
    ]

    assert gaps == sorted(gaps)
    assert gaps[0] < gaps[1] < gaps[-1]


def test_without_chance_the_gap_is_what_can_be_planned():
    # By hand: a single plate takes 15 minutes of hands and one to lift it. Waits are the plan's own.
    found = spacing(Bench(), DAY, (QUARTER,), NO_CHANCE, days=100)

    assert attended(Bench().timings, 1) + 1 == 16 <= found.gap <= 18


def test_without_a_limit_the_gap_is_what_can_be_planned():
    unlimited = spacing(Bench(), DAY, (QUARTER,), Chances(chance_limit=None), days=50)

    assert unlimited.gap == spacing(Bench(), DAY, (QUARTER,), NO_CHANCE, days=100).gap


def test_two_pairs_of_hands_may_be_promised_closer_together():
    two = Bench(operators=2, tank_places=2, wash_places=10)

    assert (
        spacing(two, DAY, (QUARTER,), TENTH, days=500).gap
        < spacing(Bench(), DAY, (QUARTER,), TENTH, days=500).gap
    )


@pytest.mark.parametrize(
    ("bench", "day", "plates", "chances"),
    [
        (Bench(), Day(0, 15, 555), (QUARTER,), TENTH),  # shorter than a sitting
        (Bench(wash_places=1), DAY, (Size("whole", 2),), TENTH),
        (Bench(), DAY, (QUARTER,), Chances(chance_limit=0)),  # an upper bound is never nought
    ],
)
def test_where_no_gap_keeps_the_promise_none_is_suggested(bench, day, plates, chances):
    assert spacing(bench, day, plates, chances, days=50) is None


@pytest.mark.parametrize("plates", [1, 5, 20, 60, 400, 2000])
@pytest.mark.parametrize("retake", [0.01, 0.15, 0.5, 0.95])
@pytest.mark.parametrize("sure", [0.51, 0.8, 0.95, 0.999])
def test_the_budget_is_the_quantile_of_the_negative_binomial(plates, retake, sure):
    # scipy.stats.nbinom counts the failures before the last success.
    assert retake_budget(plates, retake, sure) == plates + stats.nbinom.ppf(sure, plates, 1 - retake)


def test_the_budget_is_the_least_number_that_is_enough_in_whole_fractions():
    # Exact fractions: chance that 7 good plates come of at most so many tries, each good with chance 4/5.
    good = Fraction(4, 5)

    def enough(tries):
        return sum(comb(tries, n) * good**n * (1 - good) ** (tries - n) for n in range(7, tries + 1))

    budget = retake_budget(7, 0.2, 0.95)

    assert enough(budget) >= Fraction(95, 100) > enough(budget - 1)


def test_a_tie_is_enough():
    # By symmetry: of 39 even throws at least 20 are heads in exactly half of all cases.
    assert retake_budget(20, 0.5, 0.5) == 39


def test_with_no_retakes_or_no_plates_nothing_is_added():
    assert (retake_budget(12, 0), retake_budget(0, 0.5)) == (12, 0)


@pytest.mark.parametrize(
    ("given", "line"),
    [
        ((-1, 0.1), "plates: must be from 0"),
        ((1.5, 0.1), "plates: must be a whole number"),
        ((1, 1), "retake: must be a number from 0 to 0.95"),
        ((1, 0.1, 1), "sure: must be a number from 0 to 0.999999"),
    ],
)
def test_a_budget_of_impossible_values_is_refused_by_name(given, line):
    with pytest.raises(CapacityValueError, match=f"^{line}"):
        retake_budget(*given)
