"""Held against: the standard library's Decimal (General Decimal Arithmetic rounding modes), and the
apportionment of 60 seats among 15 states, a worked example of the largest-remainder (Hamilton)
method in the public Electowiki page "Hamilton method" (populations of 1790 as printed there)."""

from decimal import ROUND_HALF_UP, Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import balance, half_up, split

whole_numbers = st.integers(-(10**15), 10**15)

# State, inhabitants, seats.
STATES_AND_SEATS = (
    ("Virginia", 630_560, 11), ("Massachusetts", 475_327, 8), ("Pennsylvania", 432_879, 7),
    ("North Carolina", 353_523, 6), ("New York", 331_589, 6), ("Maryland", 278_514, 5), ("Connecticut", 236_841, 4),
    ("South Carolina", 206_236, 3), ("New Jersey", 179_570, 3), ("New Hampshire", 141_822, 2), ("Vermont", 85_533, 1),
    ("Georgia", 70_835, 1), ("Kentucky", 68_705, 1), ("Rhode Island", 68_446, 1), ("Delaware", 55_540, 1),
)  # fmt: skip


def decimal_tax(cents, rate_percent, rounding):
    return int((Decimal(cents) * rate_percent / 100).quantize(Decimal(1), rounding=rounding))


@pytest.mark.parametrize(
    ("numerator", "denominator", "rounded"),
    # By hand: 2.5, 3.5, -2.5, 0.5, -0.5, 2.49.., 1/3, an exact division, nothing at all.
    [
        (5, 2, 3), (7, 2, 4), (-5, 2, -3), (1, 2, 1), (-1, 2, -1), (249, 100, 2), (1, 3, 0), (12, 4, 3),
        (0, 7, 0),
    ],
)  # fmt: skip
def test_halves_go_away_from_zero(numerator, denominator, rounded):
    assert half_up(numerator, denominator) == rounded


@given(whole_numbers, st.integers(1, 10**9))
def test_half_up_agrees_with_decimal_round_half_up(numerator, denominator):
    with localcontext() as context:
        context.prec = 60  # a quotient this close to a half is told apart from it
        wanted = (Decimal(numerator) / denominator).quantize(Decimal(1), rounding=ROUND_HALF_UP)

    assert half_up(numerator, denominator) == int(wanted)


@pytest.mark.parametrize("rate_percent", [7, 19])
def test_half_up_differs_from_the_default_of_decimal_on_500_of_100000_amounts(rate_percent):
    # The count 500 was measured before this code existed (quality bars, experiment 12).
    with localcontext() as context:
        default = context.rounding
    amounts = range(100_000)
    ours = [half_up(cents * rate_percent, 100) for cents in amounts]

    assert ours == [decimal_tax(cents, rate_percent, ROUND_HALF_UP) for cents in amounts]
    assert sum(ours[cents] != decimal_tax(cents, rate_percent, default) for cents in amounts) == 500


def test_split_gives_the_seats_of_the_published_apportionment():
    populations = [population for _, population, _ in STATES_AND_SEATS]

    assert split(60, populations) == tuple(seats for _, _, seats in STATES_AND_SEATS)


@pytest.mark.parametrize(
    ("total", "weights", "parts"),
    # By hand: quotas 33.3 each; 3.5, 2.1, 1.4; -3.5, -2.1, -1.4; 2/3 each; 1.5 each; 0 has no quota.
    [
        (100, (1, 1, 1), (34, 33, 33)), (7, (50, 30, 20), (4, 2, 1)), (-7, (50, 30, 20), (-4, -2, -1)),
        (2, (1, 1, 1), (1, 1, 0)), (3, (5, 5), (2, 1)), (10, (0, 3, 0), (0, 10, 0)), (0, (2, 1), (0, 0)),
    ],
)  # fmt: skip
def test_split_serves_the_largest_remainder_first_and_the_earlier_of_equals(total, weights, parts):
    assert split(total, weights) == parts


@given(whole_numbers, st.lists(st.integers(0, 10**6), min_size=1, max_size=20).filter(any))
def test_the_parts_of_a_split_add_up_stay_within_one_of_their_quota_and_refund_alike(total, weights):
    parts = split(total, weights)

    assert sum(parts) == total
    off = [part * sum(weights) - total * weight for part, weight in zip(parts, weights, strict=True)]
    assert all(abs(each) < sum(weights) for each in off)
    assert split(-total, weights) == tuple(-part for part in parts)


@pytest.mark.parametrize(
    ("paid", "owed"),
    [((), 18_000), ((5_400,), 12_600), ((5_400, 12_600), 0), ((5_400, -5_400), 18_000), ((20_000,), -2_000)],
)
def test_a_balance_is_what_the_payments_and_refunds_leave(paid, owed):
    assert balance(18_000, paid) == owed
