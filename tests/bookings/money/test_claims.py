"""Money that came for several claims together.

Outside: that it pays the oldest debt first where nobody says otherwise is the rule of civil codes (from memory: the
French one, article 1342-10). The examples are worked out by hand.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import Claim, MoneyValueError, left_of

MONEY = st.integers(0, 10**9)


@pytest.mark.parametrize(
    ("claims", "paid", "left"),
    [
        pytest.param([(8500, 0)], 0, (8500,), id="nothing came"),
        pytest.param([(8500, 0)], 4250, (4250,), id="half came"),
        pytest.param([(8500, 0)], 9000, (0,), id="more came than was asked"),
        pytest.param([(8500, 0)], -500, (9000,), id="more went back than came"),
        pytest.param([(8500, 8500)], 0, (0,), id="taken back in whole"),
        pytest.param([(8500, 2500)], 4250, (1750,), id="taken back in part"),
        pytest.param([(8500, 0), (3000, 0)], 9000, (0, 2500), id="the oldest first"),
        pytest.param([(8500, 8500), (3000, 0)], 1000, (0, 2000), id="past one taken back"),
        pytest.param([], 500, (), id="nothing asked"),
    ],
)
def test_money_pays_the_oldest_claim_first(claims, paid, left):
    assert left_of([Claim(*each) for each in claims], paid) == left


@given(st.lists(st.tuples(MONEY, MONEY).map(sorted), max_size=5), MONEY)
def test_what_is_left_of_all_is_what_all_ask_for_less_the_money(pairs, paid):
    claims = [Claim(asked, credited) for credited, asked in pairs]

    left = left_of(claims, paid)

    assert sum(left) == max(0, sum(claim.outstanding for claim in claims) - paid)
    assert all(0 <= rest <= claim.outstanding for rest, claim in zip(left, claims, strict=True))


@pytest.mark.parametrize("wrong", [1.5, True, None, "1"], ids=str)
def test_only_whole_minor_units_are_taken(wrong):
    with pytest.raises(MoneyValueError, match="must be a whole number"):
        left_of([Claim(1)], wrong)
    with pytest.raises(MoneyValueError, match="must be a whole number"):
        Claim(wrong)
