"""Gift vouchers: their last day and what can be taken from them.

Outside: dateutil's relativedelta, which comes with Celery, adds months by the same rule (RFC 5545 leaves such days out,
a contract's month does not: end of the shorter month).
"""

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from bookings.money import VoucherFacts, VoucherState, last_day, to_take, voucher_state

LAST = date(2029, 11, 26)
ON = date(2027, 1, 1)
BEFORE, AFTER = date(2029, 11, 25), date(2029, 11, 27)
MONEY = st.integers(1, 10**7)


def facts(amount=10_000, paid=10_000, used=0, last=LAST, withdrawn=False):
    return VoucherFacts(amount=amount, paid=paid, used=used, last_day=last, withdrawn=withdrawn)


@pytest.mark.parametrize(
    ("asked_on", "months", "last"),
    [
        (date(2026, 11, 26), 36, date(2029, 11, 26)), (date(2026, 12, 31), 2, date(2027, 2, 28)),
        (date(2027, 12, 31), 2, date(2028, 2, 29)), (date(2028, 2, 29), 12, date(2029, 2, 28)),
        (date(2026, 12, 1), 1, date(2027, 1, 1)),
    ],
    ids=["three years", "short February", "leap February", "from a leap day", "over the year"],
)  # fmt: skip
def test_a_voucher_ends_on_the_day_of_its_month(asked_on, months, last):
    assert last_day(asked_on, months) == last


@given(asked_on=st.dates(date(1900, 1, 1), date(2900, 1, 1)), months=st.integers(1, 1200))
def test_months_are_added_as_dateutil_adds_them(asked_on, months):
    assert last_day(asked_on, months) == asked_on + relativedelta(months=months)


def test_a_studio_without_a_rule_sells_vouchers_without_end():
    assert last_day(ON, None) is None
    assert voucher_state(facts(last=None), date(2999, 1, 1)) is VoucherState.USABLE


@pytest.mark.parametrize(
    ("known", "on", "state"),
    [
        (facts(paid=9_999), ON, VoucherState.UNPAID), (facts(), ON, VoucherState.USABLE),
        (facts(paid=10_001), ON, VoucherState.USABLE), (facts(used=10_000), AFTER, VoucherState.USED_UP),
        (facts(used=9_999), BEFORE, VoucherState.USABLE), (facts(), LAST, VoucherState.USABLE),
        (facts(), AFTER, VoucherState.RUN_OUT), (facts(withdrawn=True), ON, VoucherState.WITHDRAWN),
    ],
    ids=["a cent short", "paid", "overpaid", "used up", "a cent left", "last day", "day after", "withdrawn"],
)  # fmt: skip
def test_what_a_voucher_is_good_for(known, on, state):
    assert voucher_state(known, on) is state


@pytest.mark.parametrize(
    ("known", "owed", "taken"),
    [
        (facts(), 8_500, 8_500), (facts(used=4_000), 8_500, 6_000), (facts(), 0, 0), (facts(), -500, 0),
        (facts(paid=9_999), 8_500, 0), (facts(withdrawn=True), 8_500, 0),
    ],
    ids=["whole price", "what is left", "nothing owed", "overpaid order", "not paid", "withdrawn"],
)  # fmt: skip
def test_the_lesser_of_left_and_owed_is_taken(known, owed, taken):
    assert to_take(known, owed, ON) == taken


@given(amount=MONEY, owed=st.lists(st.integers(-(10**6), 10**7), max_size=12))
def test_however_often_it_is_used_it_pays_its_worth_and_no_more(amount, owed):
    used = 0
    for sum_owed in owed:
        used += to_take(facts(amount=amount, paid=amount, used=used), sum_owed, ON)

    assert used == min(amount, sum(max(0, each) for each in owed))


@pytest.mark.parametrize(
    ("known", "owed"),
    [(facts(paid=0), 10_000), (facts(), 0), (facts(paid=12_000), -2_000), (facts(withdrawn=True), -10_000)],
    ids=["asked for", "paid", "overpaid", "withdrawn"],
)
def test_what_is_owed_for_it_or_to_be_given_back(known, owed):
    assert known.owed == owed
