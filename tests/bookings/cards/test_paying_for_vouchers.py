"""A page to pay on is opened for a voucher, and what came for it goes back."""

import pytest

from bookings.cards.models import Outcome
from bookings.cards.services import paying as cards
from bookings.errors import NothingOwed, VoucherRefused
from bookings.vouchers.selectors import facts_of
from bookings.vouchers.services import selling as vouchers
from tests import builders
from tests.bookings.cards import card_service
from tests.bookings.cards.worlds import BACK_TO, given_back, paid, reason, take
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def service(settings):
    with card_service.switched_on(settings) as service:
        yield service


def opened_for(voucher):
    return cards.open_for_voucher(voucher_id=voucher.pk, back_to=BACK_TO, now=NOW)


def test_a_page_is_opened_for_what_a_voucher_still_costs(service):
    builders.a_studio()
    voucher = builders.a_voucher(paid=False)

    page = opened_for(voucher)

    assert (page.voucher, page.order, page.amount) == (voucher, None, 10_000)
    assert opened_for(voucher) == page


def test_a_paid_voucher_is_not_paid_again():
    builders.a_studio()

    with pytest.raises(NothingOwed, match=r"^Nothing is left to pay here\.$"):
        opened_for(builders.a_voucher())


def test_a_voucher_that_was_taken_back_is_not_paid():
    builders.a_studio()
    voucher = builders.a_voucher(paid=False)
    vouchers.withdraw(voucher_id=voucher.pk, now=NOW)

    with pytest.raises(VoucherRefused, match=r"^This voucher was taken back, so there is nothing to pay\.$"):
        opened_for(voucher)


def test_what_came_for_a_voucher_goes_back_to_the_card(service):
    builders.a_studio()
    voucher = builders.a_voucher(paid=False)
    page = opened_for(voucher)
    take(paid(session=page.session, amount=10_000))

    given_back(page, 4000)

    assert facts_of(voucher).paid == 6000


def test_money_for_a_voucher_that_was_taken_back_is_entered_and_to_be_given_back(service):
    builders.a_studio()
    voucher = builders.a_voucher(paid=False)
    page = opened_for(voucher)
    vouchers.withdraw(voucher_id=voucher.pk, now=NOW)

    assert take(paid(session=page.session, amount=10_000)) == Outcome.LOOK
    assert (
        reason()
        == "The money came for a voucher that was taken back. It was entered, and is to be given back."
    )
    assert facts_of(voucher).paid == 10_000
