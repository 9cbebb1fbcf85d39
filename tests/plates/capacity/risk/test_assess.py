"""What a day risks: closed forms for one sitting or two, and the same luck for everybody whatever else is booked."""

import subprocess
import sys
from dataclasses import replace
from math import log1p, sqrt
from pathlib import Path

import numpy as np
import pytest
from scipy import stats

import plates.capacity
from plates.capacity import Bench, CapacityValueError, Day, Sitting
from plates.capacity.risk.assess import risk
from plates.capacity.risk.values import Chances
from tests.plates.capacity.days import DAY, QUARTER
from tests.plates.capacity.risk.days import filled, lone, with_one_more

NO_CHANCE = Chances(retake=0, no_show=0, spread=0, late_sd=0)
# By hand, design page s.3: settle 4, pour 2, bath 3, load 1; expose, develop, fix, farewell 2 each.
LONE_MINUTES = 18


def near(estimate, exact, days):
    return abs(estimate.chance - exact) <= 4 * sqrt(exact * (1 - exact) / days)


def test_without_chance_nothing_goes_wrong_and_waits_are_those_of_the_plan():
    for seed in range(6):
        bench, booked = Bench(operators=1 + seed % 2), filled(seed, 1 + seed % 2)

        found = risk(bench, DAY, booked, replace(NO_CHANCE, wait_limit=bench.tolerance), days=3)

        assert [each.chance for each in found.sitters] == [0] * len(booked)
        for each, sitter in zip(booked, found.sitters, strict=True):
            assert 0 <= sitter.mean_wait <= each.plan.settle - each.sitting.start
        assert [found.late_close.chance, found.racks.chance, found.wet.chance, found.long_bath.chance] == [
            0
        ] * 4
        assert found.ends <= max(each.plan.farewell for each in booked) + bench.timings.farewell


def test_a_lone_sitter_never_waits_and_leaves_when_the_work_is_done():
    found = risk(Bench(), DAY, lone(), replace(NO_CHANCE, wait_limit=0))

    assert [(each.start, each.chance, each.mean_wait) for each in found.sitters] == [(100, 0.0, 0.0)]
    assert found.ends == found.ends_late == 100 + LONE_MINUTES


def test_a_late_sitter_is_not_said_to_wait():
    found = risk(Bench(), DAY, lone(), Chances(retake=0, no_show=0, late_sd=60, wait_limit=0))

    assert (found.sitters[0].chance, found.sitters[0].mean_wait) == (0, 0)


def test_the_day_ends_late_as_often_as_the_plate_is_spoilt():
    # By hand: a try takes 18 - 4 - 2 = 12 minutes more, and happens with chance q, a second one with q * q.
    chances, days = replace(NO_CHANCE, retake=0.3), 20_000
    for closes, exact in ((118, 0.3), (129, 0.3), (130, 0.09), (141, 0.09), (142, 0.0)):
        found = risk(Bench(), Day(0, closes, 555), lone(), chances, days=days)
        assert near(found.late_close, exact, days)


def test_racks_are_not_empty_as_often_as_the_plate_is_spoilt_too_late():
    # By hand: washed from 116, lifted from 176 to 177; 12 minutes later after each further try.
    chances, days = replace(NO_CHANCE, retake=0.3), 20_000
    for empty, exact in ((177, 0.3), (176, 1.0), (188, 0.3), (189, 0.09), (201, 0.0)):
        assert near(risk(Bench(), Day(0, 480, empty), lone(), chances, days=days).racks, exact, days)


def test_the_day_ends_late_as_often_as_the_sitter_is():
    # A normal arrival: 60 minutes late or more in P(Z > 1), and not at all if the sitter does not come.
    chances, days = replace(NO_CHANCE, no_show=0.25, late_sd=60), 20_000

    found = risk(Bench(), Day(0, 160 + LONE_MINUTES, 555), lone(), chances, days=days)

    assert near(found.late_close, 0.75 * stats.norm.sf(1), days)


def test_the_wet_window_breaks_as_often_as_three_lognormals_add_up_to_more():
    # Loading, exposing and developing of 1 + 2 + 2 minutes, convolved on a grid of a hundredth of a minute (scipy).
    spread, days = 0.6, 50_000
    sigma = sqrt(log1p(spread**2))
    edges = (np.arange(4001) - 0.5) / 100
    steps = [
        np.diff(stats.lognorm(sigma, scale=mean * np.exp(-(sigma**2) / 2)).cdf(edges)) for mean in (1, 2, 2)
    ]
    total = np.convolve(np.convolve(steps[0], steps[1]), steps[2])
    exact = 1 - total[:800].sum() - total[800] / 2

    found = risk(Bench(), DAY, lone(), replace(NO_CHANCE, spread=spread), days=days)

    assert 0.05 < exact < 0.2
    assert near(found.wet, exact, days)


def test_the_second_of_two_waits_as_long_as_a_retake_takes():
    # By hand: 18 minutes apart nobody waits but after a retake, 12 minutes each, and only one of more than 11 counts.
    booked = with_one_more(Bench(), lone(start=0), Sitting(18, (QUARTER,)))
    days = 20_000

    found = risk(Bench(), DAY, booked, replace(NO_CHANCE, retake=0.3, wait_limit=11), days=days).sitters[1]

    assert near(found, 0.3, days)
    assert found.mean_wait == pytest.approx(12 * (0.3 + 0.09), abs=4 * 7 / sqrt(days))


def test_a_sitter_meets_the_same_luck_whatever_comes_after():
    booked = [each for each in filled(1) if each.sitting.start < 240]
    after = with_one_more(Bench(), booked, Sitting(400, (QUARTER,)))

    alone, more = (risk(Bench(), DAY, each, Chances()) for each in (booked, after))

    assert booked
    assert alone.sitters == more.sitters[: len(booked)]


def test_the_same_seed_brings_the_same_days_and_another_seed_others():
    booked = filled(2)
    first, again, other = (risk(Bench(), DAY, booked, Chances(), seed=seed) for seed in (7, 7, 8))

    assert first == again
    assert first != other


def test_an_empty_day_risks_nothing():
    found = risk(Bench(), DAY, [], Chances())

    assert (found.sitters, found.late_close.chance, found.ends) == ((), 0.0, 0.0)


def test_where_nobody_ever_comes_nothing_is_known_of_waits():
    found = risk(Bench(), DAY, lone(), Chances(no_show=1))

    assert (found.sitters[0].chance, found.sitters[0].upper, found.late_close.chance) == (0.0, 1.0, 0.0)


@pytest.mark.parametrize(
    ("given", "line"),
    [({"days": 0}, "days: must be from 1 to 100000"), ({"seed": -1}, "seed: must be from 0")],
)
def test_days_and_seeds_that_cannot_be_are_refused(given, line):
    with pytest.raises(CapacityValueError, match=f"^{line}"):
        risk(Bench(), DAY, lone(), Chances(), **given)


def test_risk_needs_no_django_and_numbers_are_loaded_only_for_it():
    program = (
        "import sys; sys.modules['django'] = None\n"
        "from plates.capacity import Bench, Day\n"
        "from plates.capacity.risk.values import Chances\n"
        "assert 'numpy' not in sys.modules\n"
        "from plates.capacity.risk.assess import risk\n"
        "assert 'numpy' in sys.modules and 'ortools' not in sys.modules\n"
        "print(risk(Bench(), Day(0, 480, 555), [], Chances()).sitters)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=Path(plates.capacity.__file__).parents[2],
        capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip

    assert (done.stdout, done.stderr) == ("()\n", "")
