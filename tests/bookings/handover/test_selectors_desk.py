"""What lies at the desk."""

import pytest

from bookings.handover.selectors.desk import desk
from tests.builders import NOW
from tests.builders.invoices import broad_day, made_order

pytestmark = pytest.mark.django_db


def test_each_order_is_told_with_the_plates_that_are_ready():
    day = broad_day()
    two = made_order(day, number=1, sizes=["quarter", "quarter"])
    one = made_order(day)

    rows = desk(now=NOW).to_collect

    assert {(row.order, row.plates) for row in rows} == {(two, 2), (one, 1)}


def test_more_orders_take_no_more_queries(django_assert_num_queries):
    day = broad_day()
    made_order(day)
    with django_assert_num_queries(4):  # the orders with their plates, lines, payments; those that go by post
        desk(now=NOW)
    for number in range(1, 5):
        made_order(day, number=number)

    with django_assert_num_queries(4):
        found = desk(now=NOW)

    assert len(found.to_collect) == 5
