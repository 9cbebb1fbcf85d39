"""What an electronic invoice says of paying: to which account, how and until when.

Outside: codes of UNTDID 4461 (58 SEPA credit transfer, 30 credit transfer) and the terms BT-9, BT-20, BT-81, BT-84 of
EN 16931, from memory.
"""

from dataclasses import replace

import pytest
from lxml import etree

from bookings.invoices.einvoice import write
from tests.bookings.invoices.einvoice.documents import BUYER, PLATE, SELLER, a_credit_note, a_document

ACCOUNT = "pt50 0002 0123 1234 5678 9015 4"


def told(document, name):
    return [found.text for found in etree.fromstring(write(document)).iterfind(f".//{{*}}{name}")]


@pytest.mark.parametrize(
    ("document", "accounts"),
    [
        (a_document([PLATE], account=ACCOUNT), ["PT50000201231234567890154"]),
        (a_document([PLATE]), []),
        (a_document([PLATE], account=ACCOUNT, prepaid=8_500), []),
        (a_document([PLATE], account=ACCOUNT, prepaid=9_000), []),
        (a_credit_note([PLATE], account=ACCOUNT), []),
    ],
    ids=["owed", "no account", "paid", "paid too much", "credit note"],
)
def test_an_account_is_named_only_where_money_is_asked_for(document, accounts):
    assert told(document, "IBANID") == accounts


@pytest.mark.parametrize(("currency", "code"), [("EUR", "58"), ("SEK", "30")], ids=["euro", "krona"])
def test_euros_are_sent_by_sepa_and_others_by_any_transfer(currency, code):
    document = a_document([PLATE], account=ACCOUNT, currency=currency)

    assert told(document, "SpecifiedTradeSettlementPaymentMeans/{*}TypeCode") == [code]


@pytest.mark.parametrize(
    ("document", "day", "words"),
    [
        (a_document([PLATE]), ["20261204"], []),
        (a_document([PLATE], due_on=None), [], ["Due at once."]),
        (a_document([PLATE], prepaid=8_500), [], []),
        (a_credit_note([PLATE]), [], ["Taken off what is owed; what was paid already is paid back."]),
    ],
    ids=["owed", "no day", "paid", "credit note"],
)
def test_until_when_it_is_to_be_paid_stands_where_something_is_owed(document, day, words):
    assert told(document, "DueDateDateTime/{*}DateTimeString") == day
    assert told(document, "SpecifiedTradePaymentTerms/{*}Description") == words


def schemes(document):
    found = etree.fromstring(write(document)).iterfind(".//{*}SpecifiedTaxRegistration/{*}ID")
    return [(number.get("schemeID"), number.text) for number in found]


@pytest.mark.parametrize(
    ("seller", "registered"),
    [
        ({"country": "PT", "tax_number": " pt 999 999 990"}, [("VA", "PT999999990")]),
        ({"country": "GR", "tax_number": "EL123456789"}, [("VA", "EL123456789")]),
        ({"country": "PT", "tax_number": "999 999 990"}, [("FC", "999 999 990")]),
        ({"country": "PT", "tax_number": "ES999999990"}, [("FC", "ES999999990")]),
    ],
    ids=["of its country", "Greece", "plain", "of another country"],
)
def test_a_number_is_a_vat_identifier_when_it_begins_with_its_country(seller, registered):
    document = a_document([PLATE], seller=replace(SELLER, **seller), buyer=BUYER)

    assert schemes(document) == registered
