"""Vouchers on the photographer's side: sold, looked up, paid for, sent again, taken back, used for orders."""

from uuid import uuid4

import pytest
from django.urls import reverse

from bookings.changes.services import sittings
from bookings.common import formats
from bookings.outbox.models import Notice
from bookings.payments.models import Payment
from bookings.vouchers import selectors as selector
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import redeeming
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

LIST = "/studio/vouchers/"


@pytest.fixture(autouse=True)
def studio():
    return builders.a_studio()


def page_of(voucher, name="voucher"):
    return reverse(f"studio:{name}", args=[voucher.pk])


def paid(client, voucher, amount="100", **changes):
    sent = {"direction": "received", "amount": amount, "method": "cash", "key": str(uuid4())} | changes
    return client.post(page_of(voucher), sent)


def from_voucher(client, order, voucher, **changes):
    address = reverse("studio:redeem", args=[order.reference])
    return client.post(address, {"code": voucher.code, "key": str(uuid4())} | changes, follow=True)


def back(client, order, source, back, **changes):
    address = reverse("studio:give_back", args=[order.reference])
    sent = {"voucher": source.pk, "back": back, "key": str(uuid4())} | changes
    return client.post(address, sent, follow=True)


def left(voucher):
    return selector.facts_of(voucher).left


def test_a_voucher_is_sold_at_the_desk_and_paid_for_on_its_page(photographer):
    sent = {"amount": "60", "buyer_name": "Abel", "buyer_email": "abel@example.org", "key": str(uuid4())}
    response = photographer.post(f"{LIST}sell/", sent)
    voucher = Voucher.objects.get()
    assert response.url == page_of(voucher)
    assert "Owed for it €60.00" in Page(photographer.get(response.url)).text

    paid(photographer, voucher, "60")

    assert "Can be used" in Page(photographer.get(response.url)).text
    assert Notice.objects.get().voucher == voucher
    assert Payment.objects.get().recorded_by.username == "operator"


def test_a_sale_with_nobody_to_write_to_is_said(photographer):
    response = photographer.post(f"{LIST}sell/", {"amount": "60", "key": str(uuid4())})

    assert response.status_code == 400
    assert Page(response).errors == [
        "Write the name of the buyer.",
        "Write the address that the voucher goes to.",
    ]


def test_the_list_says_what_is_left_and_finds_what_is_looked_for(photographer, order):
    voucher = builders.a_voucher()
    redeeming.redeem(order_id=order.pk, code=voucher.code, key=uuid4(), amount=4_000, now=NOW)
    builders.a_voucher(7_000, paid=False, buyer_name="Tomé Vidal")

    page = Page(photographer.get(LIST))
    found = Page(photographer.get(LIST, {"q": formats.in_groups(voucher.code).lower()}))
    nothing = Page(photographer.get(LIST, {"q": "nobody\0"}))

    assert "Left on all vouchers that are paid for and can still be used: €60.00" in page.text
    assert "Tomé Vidal Ines Not paid for yet 20 Nov 2029 €70.00 –" in page.text
    assert "Abel Nortada Ines Can be used 20 Nov 2029 €100.00 €60.00" in page.text
    assert page_of(voucher) in found.links
    assert "Tomé Vidal" not in found.text
    assert "No voucher has “nobody” in its code, buyer or receiver." in nothing.text


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"amount": "0"}, "Ensure this value is greater than or equal to 0.01."),
        ({"method": "voucher"}, "Select a valid choice. voucher is not one of the available choices."),
        ({"reference": "till 1"}, "The ledger already holds a different payment under 'till 1'."),
    ],
    ids=["nothing", "by voucher", "a reference of other money"],
)
def test_money_that_cannot_be_is_said(photographer, order, changes, sentence):
    builders.pay(order, 10_000, reference="till 1")
    voucher = builders.a_voucher(paid=False)

    response = paid(photographer, voucher, **changes)

    assert response.status_code == 400
    assert Page(response).errors[0].startswith(sentence)
    assert not voucher.money.exists()


def test_the_letter_is_written_once_more_for_each_press_with_a_key(photographer):
    voucher, key = builders.a_voucher(), str(uuid4())

    for pressed in (key, key, "x"):
        photographer.post(page_of(voucher, "voucher_again"), {"key": pressed})
    assert sorted(Notice.objects.values_list("occasion", flat=True)) == sorted(["", key])

    unpaid = page_of(builders.a_voucher(paid=False), "voucher_again")
    assert (
        "A voucher is sent once it is paid for in full"
        in Page(photographer.post(unpaid, {"key": key}, follow=True)).text
    )
    assert Notice.objects.count() == 2


def test_a_voucher_is_taken_back_and_its_money_given_back_unless_it_was_used(photographer, order):
    used, voucher = builders.a_voucher(), builders.a_voucher()
    from_voucher(photographer, order, used, at_most="12.34")
    assert left(used) == 10_000 - 1_234

    refused = Page(photographer.post(page_of(used, "withdraw_voucher"), follow=True))
    page = Page(photographer.post(page_of(voucher, "withdraw_voucher"), follow=True))

    assert "Part of this voucher has been used." in refused.text
    assert "To give back €100.00" in page.text
    paid(photographer, voucher, direction="returned")
    assert "To give back" not in Page(photographer.get(page_of(voucher))).text
    assert [each.withdrawn_at is None for each in Voucher.objects.order_by("pk")] == [True, False]


def test_an_order_is_paid_with_a_voucher_and_once_cancelled_offers_what_is_to_go_back_to_it(
    photographer, order
):
    voucher = builders.a_voucher()
    page = Page(from_voucher(photographer, order, voucher))
    assert f"€85.00 came from the voucher {formats.in_groups(voucher.code)}" in page.text
    assert "What is given back goes back there first" in page.text
    assert page_of(voucher) in page.links
    assert "€85.00" in Page(photographer.get(page_of(voucher))).text
    sittings.cancel(order_id=order.pk, now=NOW)

    page = Page(photographer.get(reverse("studio:order", args=[order.reference])))
    back(photographer, order, voucher, "42.50")

    assert f"Give back to {formats.in_groups(voucher.code)}" in page.text
    assert left(voucher) == 1_500 + 4_250


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"code": "ABCD"}, "No voucher has this code."),
        ({"code": ""}, "Voucher code: Type the code that stands on the voucher."),
        ({"at_most": "85.01"}, "At most €85.00 can be taken from this voucher now."),
        ({"at_most": "-1"}, "At most (EUR): Ensure this value is greater than or equal to 0.01."),
        ({"key": "x"}, "Key: Enter a valid UUID."),
        ({"back": "85.01"}, "This voucher has paid €85.00 of this order."),
        ({"back": ""}, "Amount (EUR): Fill in: Amount (EUR)."),
        ({"back": "1", "voucher": "999999"}, "Voucher: Select a valid choice"),
        ({"back": "1", "voucher": "9" * 50}, "Voucher: Select a valid choice"),
    ],
    ids=str,
)
def test_what_a_voucher_cannot_pay_or_take_back_is_said_on_the_page_of_the_order(
    photographer, order, changes, sentence
):
    voucher = builders.a_voucher()
    if "back" in changes:
        from_voucher(photographer, order, voucher)
        response = back(photographer, order, voucher, **changes)
    else:
        response = from_voucher(photographer, order, voucher, **changes)

    assert sentence in Page(response).text
    assert left(voucher) == (1_500 if "back" in changes else 10_000)
