"""Vouchers as the desk sees them: found by their words, and what they still promise together."""

from datetime import timedelta
from uuid import uuid4

import pytest

from bookings.common import formats
from bookings.money import VoucherState
from bookings.vouchers import selectors as selector
from bookings.vouchers.selectors import Liability
from bookings.vouchers.services import redeeming
from bookings.vouchers.services import selling as vouchers
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TODAY = NOW.date()
LONG_AFTER = TODAY + timedelta(days=2000)


@pytest.fixture
def worked():
    """One voucher of each kind; of the one that was used, 40.00 in two parts."""
    order = builders.a_placed_order(builders.a_day())
    used = builders.a_voucher(10_000, buyer_name="Wren Achterberg")
    for part in (1_500, 2_500):
        redeeming.redeem(order_id=order.pk, code=used.code, key=uuid4(), amount=part, now=NOW)
    builders.a_voucher(7_000, paid=False, for_name="Tomé")
    withdrawn = builders.a_voucher(5_000)
    vouchers.withdraw(voucher_id=withdrawn.pk, now=NOW)
    return used


def test_each_is_listed_with_what_is_left_newest_first(worked, django_assert_num_queries):
    with django_assert_num_queries(1):
        rows = selector.listed(words="", on=TODAY)

    assert [(row.facts.amount, row.facts.paid, row.facts.left, row.state) for row in rows] == [
        (5_000, 5_000, 5_000, VoucherState.WITHDRAWN),
        (7_000, 0, 7_000, VoucherState.UNPAID),
        (10_000, 10_000, 6_000, VoucherState.USABLE),
    ]


def test_a_voucher_is_found_by_code_buyer_and_receiver(worked):
    code = worked.code
    for words in ("wren", "Achter", code, f"{code[:4]}-{code[4:7]}".lower(), formats.voucher_reference(code)):
        assert [row.voucher for row in selector.listed(words=words, on=TODAY)] == [worked]
    assert selector.listed(words="--", on=TODAY) == []
    assert [row.facts.amount for row in selector.listed(words="tomé", on=TODAY)] == [7_000]


def test_what_is_left_on_paid_vouchers_is_owed_by_the_studio_in_each_currency(worked):
    builders.a_voucher(2_000)
    assert selector.liabilities(on=TODAY) == [Liability("EUR", left=8_000, run_out=0)]
    builders.a_studio(currency="USD", voucher_months=None)
    builders.a_voucher(2_000)

    assert selector.liabilities(on=LONG_AFTER) == [Liability("EUR", 0, 8_000), Liability("USD", 2_000, 0)]
