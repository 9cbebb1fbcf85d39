"""Giving a voucher, and paying a deposit with one, as anybody does it."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from bookings.common import formats
from bookings.orders import links
from bookings.orders.selectors.account import account
from bookings.vouchers import links as voucher_links
from bookings.vouchers import selectors as selector
from bookings.vouchers.models import Voucher
from bookings.vouchers.services import redeeming
from bookings.vouchers.services import selling as vouchers
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

GIVE = "/voucher/"
BOUNDS = "Write a sum from €10.00 to €1,000.00."
WRONG_GIFTS = {
    "no sum": ({"amount": ""}, BOUNDS),
    "too little": ({"amount": "9.99"}, BOUNDS),
    "too much": ({"amount": "1000.01"}, BOUNDS),
    "tenths of a cent": ({"amount": "10.001"}, "This currency has 2 decimal places."),
    "no number": ({"amount": "NaN"}, "Enter a number."),
    "nobody": ({"buyer_name": ""}, "Write your name."),
    "no address": ({"buyer_email": ""}, "Write the address that the voucher goes to."),
    "half an address": ({"buyer_email": "abel"}, "Write an address such as name@example.org."),
    "too many words": ({"message": "w" * 301}, "Ensure this value has at most 300 characters (it has 301)."),
    "a NUL": ({"for_name": "a\0"}, "Null characters are not allowed."),
    "no key": ({"key": "x"}, "Enter a valid UUID."),
}


@pytest.fixture(autouse=True)
def studio():
    return builders.a_studio()


def asked(client, **changes):
    sent = {
        "amount": "100", "buyer_name": " Abel  Nortada ", "buyer_email": "abel@example.org", "for_name": "Ines",
        "message": "For the\r\ntwo of you", "key": str(uuid4()),
    }  # fmt: skip
    return client.post(GIVE, sent | changes)


def page_of(voucher, name="voucher"):
    return reverse(name, args=[voucher_links.voucher_token(voucher)])


def typed(client, order, code, *, key=None):
    address = reverse("use_voucher", args=[links.checkout_token(order)])
    return client.post(address, {"code": code, "key": str(key or uuid4())})


def test_whoever_gives_a_voucher_is_told_what_to_pay_and_how(client):
    response = asked(client)

    voucher = Voucher.objects.get()
    assert (voucher.amount, voucher.buyer_name, voucher.message) == (
        10_000,
        "Abel Nortada",
        "For the two of you",
    )
    page = Page(client.get(response.url))
    assert "To be paid for the voucher €100.00" in page.text
    assert f"Give the reference {formats.voucher_reference(voucher.code)} with it." in page.text
    assert "Bring the deposit to Gannet Lane" in page.text
    # Before it is paid for, the whole code is told to nobody.
    assert formats.in_groups(voucher.code) not in page.text


@pytest.mark.parametrize(("changes", "sentence"), WRONG_GIFTS.values(), ids=WRONG_GIFTS)
def test_what_cannot_be_is_said_and_what_was_typed_is_kept(client, changes, sentence):
    response = asked(client, **({"message": "as it was"} | changes))

    page = Page(response)
    assert (response.status_code, page.errors) == (400, [sentence])
    assert page.text.startswith("Put right:")
    assert not Voucher.objects.exists()


def test_the_sums_offered_are_those_of_the_studio(client):
    builders.a_studio(currency="JPY", voucher_least=2_000, voucher_most=50_000)

    assert "From JP¥2,000 to JP¥50,000." in Page(client.get(GIVE)).text
    assert asked(client, amount="50000").status_code == 302
    assert Voucher.objects.get().amount == 50_000


def test_a_form_sent_twice_gives_one_voucher_and_with_another_sum_is_refused_in_words(client):
    key = str(uuid4())
    assert {asked(client, key=key).status_code for _ in range(2)} == {302}

    response = asked(client, key=key, amount="200")

    assert (response.status_code, Voucher.objects.count()) == (400, 1)
    assert Page(response).errors == ["This form was already sent with other words. Open the page again."]


def test_a_studio_that_sells_at_the_desk_only_has_no_such_page(client):
    assert GIVE in Page(client.get("/")).links
    builders.a_studio(voucher_most=None)

    assert (client.get(GIVE).status_code, asked(client).status_code) == (404, 404)
    assert GIVE not in Page(client.get("/")).links


def test_a_paid_voucher_is_shown_to_its_buyer_and_can_be_printed_until_it_is_taken_back(client):
    voucher = builders.a_voucher()
    page = Page(client.get(page_of(voucher)))
    assert f"Code {formats.in_groups(voucher.code)}" in page.text
    assert "Until Tuesday 20 November 2029, that day included" in page.text
    paper = client.get(page_of(voucher, "voucher_paper"))
    assert (paper.status_code, paper["Content-Type"], paper.content[:5]) == (200, "application/pdf", b"%PDF-")
    vouchers.withdraw(voucher_id=voucher.pk, now=NOW)

    gone = Page(client.get(page_of(voucher))).text
    unpaid = client.get(page_of(builders.a_voucher(paid=False), "voucher_paper"))

    assert "The studio has taken it back" in gone
    assert formats.in_groups(voucher.code) not in gone
    assert unpaid.status_code == 409
    assert "This voucher can be printed once it is paid for." in Page(unpaid).text


def test_the_link_of_a_buyer_opens_for_thirty_days(client, clock):
    address = page_of(builders.a_voucher())
    clock.shift(timedelta(days=30))
    assert client.get(address).status_code == 200

    clock.shift(timedelta(seconds=1))

    assert client.get(address).status_code == 410


def test_the_practice_card_pays_once_and_in_practice_only(client, settings):
    voucher = builders.a_voucher(paid=False)
    card = page_of(voucher, "voucher_practice_card")
    assert client.post(card).status_code == 404

    settings.DEMO = True
    for _ in range(2):
        client.post(card)

    assert list(voucher.money.values_list("amount", "method")) == [(10_000, "practice")]
    assert selector.is_paid(voucher)


def test_a_voucher_pays_the_whole_price_where_the_deposit_is_asked_for(client, day):
    order, voucher = builders.a_placed_order(day), builders.a_voucher()
    sitting = reverse("sitting", args=[links.sitting_token(order)])

    response = typed(client, order, formats.in_groups(voucher.code).lower())

    assert response.url == reverse("deposit", args=[links.checkout_token(order)])
    assert client.get(response.url).url == sitting
    assert (account(order).owed, selector.facts_of(voucher).left) == (0, 1_500)
    text = Page(client.get(sitting)).text  # which tells nothing of the voucher
    assert "voucher" not in text.replace("Give a voucher", "")
    assert voucher.code[:4] not in text


def test_what_a_small_voucher_leaves_of_the_deposit_is_still_asked_for(client, day):
    order, voucher, key = builders.a_placed_order(day), builders.a_voucher(3_000), uuid4()

    answers = [typed(client, order, voucher.code, key=key) for _ in range(2)]

    assert [answer.status_code for answer in answers] == [302, 302]
    page = Page(client.get(answers[0].url))
    assert "To be paid now €12.50" in page.text
    assert "Whole price €85.00, of which €30.00 is paid" in page.text


def test_a_wrong_code_is_said_beside_its_field_and_kept(client, day):
    response = typed(client, builders.a_placed_order(day), "ABCD-EFGH-JKMN")

    page = Page(response)
    assert (response.status_code, page.fields["code"]) == (400, "ABCD-EFGH-JKMN")
    assert page.errors == ["No voucher has this code. Compare it with the one on the paper, sign by sign."]
    held = builders.a_held_order(day)  # which is sent to give a name first
    assert typed(client, held, "ABCD").url == reverse("details", args=[links.checkout_token(held)])


@pytest.mark.parametrize("code", ["", "\0", "x" * 41], ids=["nothing", "a NUL", "too much"])
def test_what_is_no_code_is_refused_and_not_counted(client, day, code):
    order = builders.a_placed_order(day)
    for _ in range(redeeming.MOST_WRONG_CODES + 1):
        assert typed(client, order, code).status_code == 400

    assert typed(client, order, builders.a_voucher().code).status_code == 302


def test_the_eleventh_wrong_code_within_an_hour_waits(client, day):
    order = builders.a_placed_order(day)
    for number in range(redeeming.MOST_WRONG_CODES):
        assert typed(client, order, f"GUESSGUESS{number:02}").status_code == 400

    response = typed(client, order, builders.a_voucher().code)

    assert response.status_code == 429
    assert "Too many codes that no voucher has were typed for this order. Wait an hour" in Page(response).text
