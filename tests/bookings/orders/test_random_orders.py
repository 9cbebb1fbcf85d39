"""The sum that a client was told is the sum on the order, in the ledger and on the invoice."""

import random

import pytest

from tests.bookings.orders.random_orders import A_DAY, days_for, price_list, sums_of

pytestmark = pytest.mark.django_db


def test_quoted_charged_paid_and_invoiced_are_one_sum():
    """For one full day; thousands of orders are brought through by `python -m tests.benchmarks.orders`."""
    chance = random.Random(20261126)
    price_list(chance)
    [day] = days_for(A_DAY)

    sums = [sums_of(day, number, chance) for number in range(A_DAY)]

    assert len({quoted for quoted, *_ in sums}) > 1
    assert [each for each in sums if len(set(each)) > 1] == []
