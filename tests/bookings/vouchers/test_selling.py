"""Gift vouchers are asked for, paid and withdrawn; a letter goes out once the money is there.

Selling one is a payment and nothing else: no tax and no invoice (multi-purpose voucher, directive (EU) 2016/1065,
Article 30b of the VAT directive, from memory).
"""

import re
from datetime import UTC, date, datetime, timedelta
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError

from bookings.errors import ReferenceTaken, SubmissionChanged, VoucherRefused
from bookings.money import VoucherState
from bookings.outbox.models import Notice
from bookings.payments.models import Method
from bookings.studio.models import Studio
from bookings.vouchers import selectors as selector
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import redeeming
from bookings.vouchers.services import selling as vouchers
from bookings.vouchers.services.selling import Gift
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

GIFT = Gift(amount=10_000, buyer_name="Abel Nortada", buyer_email="abel@example.org", for_name="Ines")
TODAY = NOW.date()


@pytest.fixture(autouse=True)
def studio():
    return builders.a_studio()


def asked(gift=GIFT, *, key=None, now=NOW, at_desk=False):
    return vouchers.ask(submission_key=key or uuid4(), gift=gift, now=now, at_desk=at_desk)


def paid(voucher, amount=10_000, *, reference="till 1", **how):
    facts = {"method": Method.CASH, "now": NOW} | how
    return vouchers.record_money(voucher_id=voucher.pk, amount=amount, reference=reference, **facts)


def state(voucher, on=TODAY):
    return selector.row_of(Voucher.objects.get(pk=voucher.pk), on=on).state


def test_a_voucher_is_written_with_a_code_of_its_own_that_can_be_read_aloud():
    voucher = asked()

    # Without 0, O, 1, I and L; 31 signs to the power of 12 are 59 bits.
    assert re.fullmatch(r"[2-9A-HJKMNP-Z]{12}", voucher.code)
    facts = (voucher.amount, voucher.currency, voucher.buyer_name, voucher.for_name)
    assert facts == (10_000, "EUR", "Abel Nortada", "Ines")
    assert len({asked(at_desk=True).code for _ in range(20)}) == 20


def test_the_same_form_sent_twice_is_one_voucher_and_with_another_sum_is_refused():
    key = uuid4()
    assert asked(key=key) == asked(key=key, now=NOW + timedelta(minutes=5))

    with pytest.raises(SubmissionChanged):
        asked(Gift(amount=20_000, buyer_name="Abel Nortada", buyer_email="abel@example.org"), key=key)

    assert Voucher.objects.count() == 1


def test_a_machine_that_asks_for_many_is_held_up_and_the_desk_is_not():
    for _ in range(vouchers.MOST_A_MINUTE):
        asked()

    with pytest.raises(VoucherRefused, match=r"^Many vouchers are asked for just now\."):
        asked()

    asked(at_desk=True)
    asked(now=NOW + timedelta(minutes=1))


def test_it_can_be_used_until_a_day_by_the_rule_of_the_studio():
    builders.a_studio(voucher_months=3)
    assert asked(now=datetime(2026, 11, 30, 12, tzinfo=UTC)).last_day == date(2027, 2, 28)

    Studio.objects.update(voucher_months=None)
    assert asked(at_desk=True).last_day is None


def test_the_day_it_is_asked_for_is_that_of_the_studio():
    builders.a_studio(voucher_months=1)
    builders.a_venue(name="Far east", zone="Pacific/Auckland")

    # 20 November, 12:00 UTC is 21 November, 01:00 in Auckland (UTC+13 in its summer).
    assert asked(now=datetime(2026, 11, 20, 12, tzinfo=UTC)).last_day == date(2026, 12, 21)


def test_it_counts_once_it_is_paid_in_full_and_is_sent_then_once():
    voucher = asked()
    paid(voucher, 9_999)
    assert (state(voucher), Notice.objects.count()) == (VoucherState.UNPAID, 0)

    last = paid(voucher, 1, reference="till 2")

    assert state(voucher) is VoucherState.USABLE
    assert paid(voucher, 1, reference="till 2", now=NOW + timedelta(hours=1)) == last
    [letter] = Notice.objects.all()
    assert (letter.voucher, letter.kind, letter.due_at) == (voucher, "voucher", NOW)


def test_a_reference_in_the_ledger_is_not_used_for_other_money():
    order = builders.a_placed_order(builders.a_day())
    builders.pay(order, 10_000, reference="till 1")

    with pytest.raises(ReferenceTaken, match=r"^The ledger already holds a different payment under"):
        paid(asked())


def test_a_whole_voucher_is_taken_back_and_its_money_even_what_comes_late_is_to_be_given_back():
    voucher = asked()
    for minutes in (0, 60):
        vouchers.withdraw(voucher_id=voucher.pk, now=NOW + timedelta(minutes=minutes))
    paid(voucher, 12_000)

    stored = Voucher.objects.get(pk=voucher.pk)
    assert (stored.withdrawn_at, state(voucher), Notice.objects.count()) == (NOW, VoucherState.WITHDRAWN, 0)
    assert selector.facts_of(stored).owed == -12_000
    paid(voucher, -12_000, reference="back 1")
    assert selector.facts_of(stored).owed == 0


def test_a_voucher_cannot_be_bought_with_a_voucher():
    with pytest.raises(ValidationError, match=r"A payment by voucher names its voucher, and pays for"):
        paid(asked(), method=Method.VOUCHER)


def test_a_voucher_that_was_used_is_not_taken_back():
    voucher = builders.a_voucher()
    order = builders.a_placed_order(builders.a_day())
    redeeming.redeem(order_id=order.pk, code=voucher.code, key=uuid4(), amount=1, now=NOW)

    with pytest.raises(VoucherRefused, match=r"^Part of this voucher has been used\."):
        vouchers.withdraw(voucher_id=voucher.pk, now=NOW)

    assert state(voucher) is VoucherState.USABLE


def test_the_database_holds_the_bounds_of_the_studio():
    with pytest.raises(IntegrityError, match="studio_voucher_bounds"):
        builders.a_studio(voucher_least=2_000, voucher_most=1_999)
