"""What may be reckoned with, bounds of counted chances against scipy, and who objects."""

import math

import pytest
from scipy import stats

from plates.capacity import CapacityValueError
from plates.capacity.risk.values import Chances, Estimate, Risk, SitterRisk, estimated, objection

BAD = [
    ("retake", 0.96),
    ("retake", -0.01),
    ("retake", "0.1"),
    ("retake", True),
    ("retake", math.nan),
    ("no_show", 1.01),
    ("spread", 2.5),
    ("spread", math.inf),
    ("late_sd", 121),
    ("late_sd", -1),
    ("wait_limit", 241),
    ("wait_limit", None),
    ("chance_limit", 1.5),
    ("chance_limit", -0.1),
    ("chance_limit", "none"),
]


@pytest.mark.parametrize(("name", "value"), BAD)
def test_a_chance_that_cannot_be_is_refused_by_name(name, value):
    with pytest.raises(CapacityValueError, match=f"^{name}: must be a number from 0 to ") as refused:
        Chances(**{name: value})

    assert refused.value.field == name


def test_the_usual_chances_are_those_of_the_design_page():
    # Design page s.3, the example of a scenario file.
    usual = Chances(retake=0.15, no_show=0.05, spread=0.25, late_sd=4, wait_limit=10, chance_limit=None)

    assert Chances() == usual


@pytest.mark.parametrize(("hits", "of"), [(0, 1), (1, 1), (0, 5000), (3, 5000), (500, 5000), (4999, 5000)])
def test_the_upper_bound_is_that_of_scipy(hits, of):
    # scipy.stats.binomtest: a two-sided Wilson interval of 90 % has the one-sided bound of 95 % for its upper end.
    interval = stats.binomtest(hits, of).proportion_ci(confidence_level=0.9, method="wilson")

    found = estimated(hits, of)

    assert found.chance == hits / of
    assert found.upper == pytest.approx(interval.high, abs=1e-12)


def test_the_upper_bound_holds_in_nineteen_plays_of_twenty():
    # scipy.stats.binom: how likely a play of 5,000 days counts so few that its bound lies below the true chance.
    for true in (0.02, 0.1, 0.5):
        hits = range(5001)
        below = [count for count in hits if estimated(count, 5000).upper < true]
        assert stats.binom(5000, true).cdf(max(below)) == pytest.approx(0.05, abs=0.01)


def test_of_nothing_counted_nothing_is_known():
    assert estimated(0, 0) == Estimate(0.0, 1.0)


def risk_of(*uppers):
    fine = Estimate(0.0, 0.0)
    sitters = tuple(SitterRisk(60 * place, upper / 2, upper, 1.0) for place, upper in enumerate(uppers))
    return Risk(sitters, fine, fine, fine, fine, 400.0, 440.0, 5000)


def test_nobody_objects_while_every_upper_bound_is_under_the_limit():
    assert objection(risk_of(0.05, 0.0999), Chances(chance_limit=0.1)) is None


def test_the_sitter_objects_who_is_likeliest_to_wait():
    found = objection(risk_of(0.05, 0.12, 0.3, 0.1), Chances(chance_limit=0.1))

    assert found is not None
    assert (found.start, found.upper) == (120, 0.3)


def test_the_bound_counts_and_not_the_chance():
    assert objection(risk_of(0.1), Chances(chance_limit=0.1)) is not None


def test_without_a_limit_nobody_objects():
    assert objection(risk_of(1.0), Chances(chance_limit=None)) is None
