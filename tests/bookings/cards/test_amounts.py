"""Sums as the card service writes them. The examples are those of its own page "Supported currencies" (2026-11-26)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.cards.amounts import UNCLEAR, NoSuchSum, from_service, to_service

PUBLISHED = {
    "ten dollars are 1000 cents": (1000, "USD", 1000),
    "500 yen are 500": (500, "JPY", 500),
    "5 krónur are 500": (5, "ISK", 500),
    "5.12 dinars of Kuwait are 5120": (5120, "KWD", 5120),
    # Not in its list of currencies without places, while people write none: a hundredfold there.
    "500 dinars of Serbia are 50000": (500, "RSD", 50000),
    "10.45 forint are 1045": (1045, "HUF", 1045),
}
CURRENCIES = ["EUR", "JPY", "ISK", "KWD", "RSD", "HUF", "TWD", "KRW", "MGA", "TND"]


@pytest.mark.parametrize(("ours", "currency", "theirs"), PUBLISHED.values(), ids=PUBLISHED)
def test_a_sum_is_the_one_that_the_service_publishes(ours, currency, theirs):
    assert (to_service(ours, currency), from_service(theirs, currency)) == (theirs, ours)


@given(amount=st.integers(1, 2**31 - 1), currency=st.sampled_from(CURRENCIES))
def test_a_sum_that_goes_there_comes_back_the_same(amount, currency):
    try:
        there = to_service(amount, currency)
    except NoSuchSum:
        assert currency in {"KWD", "TND"}
        assert amount % 10
        return

    assert from_service(there, currency) == amount


@pytest.mark.parametrize(
    ("turned", "amount", "currency", "sentence"),
    [
        (to_service, 5124, "KWD", "The last of the three places of KWD must be 0, got 5124."),
        (from_service, 550, "ISK", "550 cannot be written with 2 places less."),
        *((turned, 500, *UNCLEAR, "It is not clear in which unit") for turned in (to_service, from_service)),
    ],
)
def test_a_sum_that_cannot_be_written_is_refused(turned, amount, currency, sentence):
    with pytest.raises(NoSuchSum, match=sentence):
        turned(amount, currency)
