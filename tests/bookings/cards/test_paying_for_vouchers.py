"""A page to pay on is opened for a voucher, and what came for it goes back."""

import pytest

from bookings.cards.models import Outcome
from bookings.cards.services import paying as cards
from bookings.errors import NothingOwed, VoucherRefused
from bookings.vouchers.selectors import facts_of
from bookings.vouchers.services import selling as vouchers
from tests import builders
from tests.bookings.cards.worlds import BACK_TO, given_back, paid, reason, take
from tests.builders import NOW

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("service")]


@pytest.fixture
def voucher():
    builders.a_studio()
    return builders.a_voucher(paid=False)


def opened_for(voucher):
    return cards.open_for_voucher(voucher_id=voucher.pk, back_to=BACK_TO, now=NOW)


def test_a_page_is_opened_for_what_a_voucher_still_costs_and_the_money_goes_back_to_the_card(voucher):
    page = opened_for(voucher)
    assert (page.voucher, page.order, page.amount) == (voucher, None, 10_000)
    assert opened_for(voucher) == page
    take(paid(session=page.session, amount=10_000))

    given_back(page, 4000)

    assert facts_of(voucher).paid == 6000


def test_a_paid_voucher_is_not_paid_again(voucher):
    with pytest.raises(NothingOwed):
        opened_for(builders.a_voucher())


def test_a_voucher_that_was_taken_back_is_not_paid_and_late_money_is_to_be_given_back(voucher):
    page = opened_for(voucher)
    vouchers.withdraw(voucher_id=voucher.pk, now=NOW)
    with pytest.raises(VoucherRefused, match="nothing to pay"):
        opened_for(voucher)

    assert take(paid(session=page.session, amount=10_000)) == Outcome.LOOK
    assert reason().startswith("The money came for a voucher that was taken back.")
    assert facts_of(voucher).paid == 10_000
