"""A page to pay on is opened once for a sum, and money goes back to the card once for a form."""

from datetime import timedelta
from uuid import uuid4

import pytest

from bookings.card_words import Kind
from bookings.errors import (
    CardRefused,
    CardServiceAway,
    NothingOwed,
    NotPlaced,
    OrderCancelled,
    VoucherRefused,
)
from bookings.models import CardCheckout, Outcome, Payment
from bookings.selectors.cards import Part, awaited, came, payable
from bookings.selectors.orders import account
from bookings.selectors.vouchers import facts_of
from bookings.services import cards, sittings, vouchers
from bookings.services.cards import BackTo
from tests import builders
from tests.bookings import card_service
from tests.bookings.services.card_worlds import DEPOSIT, a_page, paid, reason, returned, take, told
from tests.builders import NOW

pytestmark = pytest.mark.django_db

BACK_TO = BackTo(paid="https://studio.example.org/paid/", left="https://studio.example.org/left/")


@pytest.fixture(autouse=True)
def service(settings):
    with card_service.switched_on(settings) as service:
        yield service


@pytest.fixture
def order():
    return builders.a_placed_order(builders.a_day())


def opened(order, part=Part.DEPOSIT, *, now=NOW):
    return cards.open_for_order(order_id=order.pk, part=part, back_to=BACK_TO, now=now)


def given_back(page, amount, *, key=None):
    return cards.give_back(page_id=page.pk, amount=amount, key=key or uuid4(), given_by=None, now=NOW)


@pytest.mark.parametrize(
    ("part", "amount", "text"),
    [(Part.DEPOSIT, DEPOSIT, "Deposit for sitting "), (Part.WHOLE, 8500, "Sitting ")],
    ids=["deposit", "whole"],
)
def test_a_page_is_opened_for_what_is_owed(service, order, part, amount, text):
    page = opened(order, part)

    facts = service.asked[0][1]
    assert (page.order, page.amount, page.currency) == (order, amount, "EUR")
    assert page.address == f"{card_service.PAGES}/pay/{page.session}"
    assert facts["line_items[0][price_data][product_data][name]"] == text + order.reference
    assert facts["client_reference_id"] == order.reference


def test_nothing_about_the_person_goes_to_the_card_service(service, order):
    opened(order)

    assert "ines" not in str(service.asked).lower()


@pytest.mark.parametrize("minutes", range(0, 10, 3))
def test_a_page_stays_open_longer_than_the_least_that_the_service_allows(order, minutes):
    now = NOW + timedelta(minutes=minutes, seconds=59)

    assert timedelta(minutes=35) <= opened(order, now=now).open_until - now <= timedelta(minutes=40)


def test_a_page_for_the_same_sum_is_taken_again(service, order):
    first = opened(order)

    assert opened(order, now=NOW + timedelta(minutes=20)) == first
    assert len(service.asked) == 1


def test_a_form_sent_twice_at_once_opens_one_page(service, order):
    """Both have looked before either has written: the second finds the key of the first at the service."""
    first = opened(order)
    CardCheckout.objects.all().delete()

    assert opened(order, now=NOW + timedelta(seconds=2)).session == first.session


def test_another_sum_is_another_page(order):
    assert opened(order, Part.WHOLE) != opened(order)


@pytest.mark.parametrize("kind", [Kind.EXPIRED, Kind.FAILED])
def test_a_page_that_is_over_is_not_taken_again(order, kind):
    first = opened(order)
    take(told(kind, session=first.session))

    assert opened(order).session != first.session


def test_a_page_about_to_close_is_not_taken_again(order):
    first = opened(order)

    assert opened(order, now=NOW + timedelta(minutes=31)) != first


def test_what_was_paid_meanwhile_is_not_asked_again(order):
    builders.pay(order, DEPOSIT)

    with pytest.raises(NothingOwed, match=r"^Nothing is left to pay here\.$"):
        opened(order)


def test_an_order_without_a_name_is_not_paid():
    held = builders.a_held_order(builders.a_day())

    with pytest.raises(NotPlaced, match=r"^Nobody has put a name to this order yet, so it cannot be paid\.$"):
        opened(held)


def test_a_cancelled_order_is_not_paid(order):
    sittings.cancel(order_id=order.pk, now=NOW)

    with pytest.raises(OrderCancelled, match=r"^This order was cancelled, so there is nothing to pay\.$"):
        opened(order)


def test_a_service_that_is_away_leaves_no_row(service, order):
    service.status = 500

    with pytest.raises(CardServiceAway):
        opened(order)

    assert not CardCheckout.objects.exists()


def test_deposit_and_everything_can_be_paid_by_card_and_then_the_rest(order):
    assert payable(account(order)) == {Part.DEPOSIT: DEPOSIT, Part.WHOLE: 8500}

    builders.pay(order, DEPOSIT)

    assert payable(account(order)) == {Part.WHOLE: DEPOSIT}


def test_nothing_can_be_paid_by_card_while_cards_are_off(settings, order):
    settings.CARD_KEY = ""

    assert payable(account(order)) == {}


def test_a_payment_is_awaited_until_its_page_was_told_of(order):
    assert not awaited(order.card_checkouts.all())
    page = opened(order)
    assert awaited(order.card_checkouts.all())

    take(paid(session=page.session))

    assert not awaited(order.card_checkouts.all())


def a_paid_page(order):
    page = a_page(order)
    take(paid())
    return page


def test_part_of_a_payment_goes_back_to_its_card(service, order):
    page = a_paid_page(order)

    assert given_back(page, 1000) == Outcome.RETURNED
    assert service.asked[0][1]["payment_intent"] == "pi_1"
    assert account(order).paid == DEPOSIT - 1000
    assert [each.left for each in came(order.card_checkouts.all())] == [DEPOSIT - 1000]


def test_a_form_sent_twice_gives_back_once(service, order):
    page, key = a_paid_page(order), uuid4()
    given_back(page, 3000, key=key)

    assert given_back(page, 3000, key=key) == Outcome.KNOWN
    assert account(order).paid == DEPOSIT - 3000


def test_the_message_about_a_giving_back_from_here_enters_nothing_more(service, order):
    page = a_paid_page(order)
    given_back(page, 1000)
    name = Payment.objects.get(amount=-1000).reference.removeprefix("card ")

    assert take(returned(refund=name, session="cs_1")) == Outcome.KNOWN
    assert account(order).paid == DEPOSIT - 1000


def test_what_was_given_back_before_a_crash_is_entered_by_its_message(service, order):
    """The service has given back, and nothing was written here: the form sent again, and the message, are one entry."""
    page, key = a_paid_page(order), uuid4()
    take(returned(refund="re_1", session="cs_1"))

    assert given_back(page, 1000, key=key) == Outcome.KNOWN
    assert account(order).paid == DEPOSIT - 1000


@pytest.mark.parametrize("amount", [DEPOSIT + 1, 0, -5])
def test_no_more_goes_back_than_came(service, order, amount):
    page = a_paid_page(order)

    with pytest.raises(CardRefused, match=r"^At most €42\.50 of this payment can be given back\.$"):
        given_back(page, amount)

    assert service.asked == []


def test_nothing_goes_back_by_a_page_that_nobody_paid_on(order):
    with pytest.raises(CardRefused, match=r"^At most €0\.00 of this payment can be given back\.$"):
        given_back(a_page(order), 1)


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
